import { describe, expect, it } from 'vitest';
import { list } from '../slack/json.ts';
import { fetchToken } from './bot.ts';
import {
  ANA,
  at,
  attached,
  BEN,
  CLEO,
  CREW,
  call,
  card,
  DOCK,
  execute,
  posted,
  withPeer,
  words,
} from './world.ts';

const code = (body: object): unknown => ('error' in body ? Object(body.error).code : undefined);

describe('the connector', () => {
  it('stores, changes and deletes what the bot sends', () =>
    withPeer(async (teams) => {
      const id = await posted(teams, CREW, attached(card('One')));
      const one = `${at(CREW)}/${id}`;
      expect(await call(teams, 'PUT', one, attached(card('Two')))).toMatchObject({
        status: 200,
        body: { id },
      });
      expect(teams.messages(CREW)).toMatchObject([{ id, edited: true, deleted: false, card: card('Two') }]);
      expect((await call(teams, 'DELETE', one)).status).toBe(200);
      expect(teams.messages(CREW)).toMatchObject([{ id, deleted: true }]);
      for (const method of ['PUT', 'DELETE']) {
        const gone = await call(teams, method, one, words('x'));
        expect([gone.status, code(gone.body)]).toEqual([404, 'ActivityNotFoundInConversation']);
      }
    }));

  // learn.microsoft.com/…/bots/how-to/update-and-delete-bot-messages: own messages only.
  it('lets the bot change nobody else’s message', () =>
    withPeer(async (teams) => {
      const { activityId } = await teams.say(ANA, teams.chat(ANA), 'mine');
      const { status } = await call(teams, 'PUT', `${at(teams.chat(ANA))}/${activityId}`, words('yours'));
      expect(status).toBe(403);
      expect(teams.messages(teams.chat(ANA))).toMatchObject([{ text: 'mine', edited: false }]);
    }));

  // learn.microsoft.com/…/bots/how-to/conversations/conversation-messages: two messages, and no id.
  it('makes two messages of text beside a card, and gives no id', () =>
    withPeer(async (teams) => {
      const both = { ...attached(card('Card')), text: 'Words' };
      const { status, body } = await call(teams, 'POST', at(CREW), both);
      expect([status, body]).toEqual([201, {}]);
      expect(teams.messages(CREW).map((one) => [one.text, one.card])).toEqual([
        ['Words', null],
        ['', card('Card')],
      ]);
    }));

  it('keeps threads apart in a channel', () =>
    withPeer(async (teams) => {
      const root = await posted(teams, DOCK, words('root'));
      const inside = await posted(teams, `${DOCK};messageid=${root}`, words('inside'));
      await posted(teams, DOCK, words('another'));
      const { body } = await call(teams, 'POST', `${at(DOCK)}/${inside}`, words('reply'));
      const threads = teams.messages(DOCK).map((one) => [one.text, one.thread === root]);
      expect(threads).toEqual([
        ['root', true],
        ['inside', true],
        ['another', false],
        ['reply', true],
      ]);
      expect(body.id).toBe(teams.messages(DOCK).at(-1)?.id);
      expect((await call(teams, 'POST', at(`${DOCK};messageid=7`), words('x'))).status).toBe(404);
    }));

  // learn.microsoft.com/…/bots/how-to/format-your-bot-messages: about 100 KB as UTF-16, else 413 MessageSizeTooBig.
  it('takes 100 KB of UTF-16 and no more', () =>
    withPeer(async (teams) => {
      const room = 50 * 1024 - JSON.stringify(words('')).length;
      expect((await call(teams, 'POST', at(CREW), words('x'.repeat(room)))).status).toBe(201);
      const { status, body } = await call(teams, 'POST', at(CREW), words('x'.repeat(room + 1)));
      expect([status, code(body)]).toEqual([413, 'MessageSizeTooBig']);
      expect(teams.messages(CREW).length).toBe(1);
    }));

  it('refuses cards that cannot be shown, and says why', () =>
    withPeer(
      async (teams) => {
        const refresh = {
          action: execute('Look', 'look'),
          userIds: Array.from({ length: 61 }, (_, n) => `29:${n}`),
        };
        const wrong: [object, string][] = [
          [{ ...card('x'), version: '1.6' }, 'over 1.5'],
          [{ ...card('x'), body: [{ type: 'Banner', text: 'x' }] }, 'Banner'],
          [{ ...card('x'), body: [{ type: 'Input.Text' }] }, 'unique Id'],
          [card('x', { type: 'Action.Execute', title: 'Go' }), 'no verb'],
          [{ ...card('x'), refresh }, '60 at most'],
          [
            card('x', ...Array.from({ length: 7 }, (_, n) => execute(`B${n}`, 'go'))),
            'number of actions exceeded (6)',
          ],
          [card('<at>Ana</at>'), 'has no entity'],
        ];
        for (const [content, why] of wrong) {
          const { status, body } = await call(teams, 'POST', at(CREW), attached({ ...content }));
          expect([status, code(body)]).toEqual([400, 'BadArgument']);
          expect(JSON.stringify(body)).toContain(why);
        }
        expect((await call(teams, 'POST', at(CREW), words(''))).status).toBe(400);
        expect((await call(teams, 'POST', at(CREW), '{"type":')).status).toBe(400);
        expect(teams.messages(CREW)).toEqual([]);
        const entity = { type: 'mention', text: '<at>Ana</at>', mentioned: { id: ANA, name: 'Ana' } };
        const named = { ...card('<at>Ana</at>'), msteams: { entities: [entity] } };
        expect((await call(teams, 'POST', at(CREW), attached(named))).status).toBe(201);
        expect((await call(teams, 'POST', at(CREW), { ...words('Ana'), entities: [entity] })).status).toBe(
          400,
        );
        const most = { ...refresh, userIds: refresh.userIds.slice(1) };
        expect((await call(teams, 'POST', at(CREW), attached({ ...card('x'), refresh: most }))).status).toBe(
          201,
        );
      },
      { limits: false },
    ));

  it('lists members, whole, by page, one by one, and of a message', () =>
    withPeer(async (teams) => {
      const base = at(CREW).replace('/activities', '');
      const all = await call(teams, 'GET', `${base}/members`);
      const ids = [{ id: ANA, aadObjectId: 'aad-ana' }, { id: BEN }, { id: CLEO }];
      expect(list(all.body.list)).toMatchObject(ids);
      expect((await call(teams, 'GET', `${base}/members/${BEN}`)).body).toMatchObject({ name: 'Ben' });
      expect((await call(teams, 'GET', `${base}/members/29:nobody`)).status).toBe(404);
      const paged = await call(teams, 'GET', `${base}/pagedmembers?pageSize=50`);
      expect(list(paged.body.members)).toMatchObject(ids);
      const id = await posted(teams, CREW, words('x'));
      expect(list((await call(teams, 'GET', `${at(CREW)}/${id}/members`)).body.list).length).toBe(3);
    }));

  it('pages a big crew', () =>
    withPeer(
      async (teams) => {
        const base = at(CREW).replace('/activities', '/pagedmembers?pageSize=50');
        const first = await call(teams, 'GET', base);
        const second = await call(
          teams,
          'GET',
          `${base}&continuationToken=${String(first.body.continuationToken)}`,
        );
        expect([list(first.body.members).length, list(second.body.members).length]).toEqual([50, 11]);
        expect(second.body.continuationToken).toBeUndefined();
      },
      {
        people: Array.from({ length: 61 }, (_, n) => ({ id: `29:p${n}`, name: `P${n}`, aadId: `aad-p${n}` })),
        teams: [],
        chats: [{ id: CREW, members: Array.from({ length: 61 }, (_, n) => `29:p${n}`) }],
      },
    ));

  // learn.microsoft.com/…/bots/how-to/conversations/send-proactive-messages.
  it('opens chats only where the app is installed, with one member and the tenant', () =>
    withPeer(async (teams) => {
      const { tenantId, id } = teams.bot;
      const open = async (body: object) => {
        const answer = await call(teams, 'POST', '/v3/conversations', { bot: { id }, tenantId, ...body });
        return [answer.status, code(answer.body) ?? answer.body.id];
      };
      expect(await open({ members: [{ id: ANA }] })).toEqual([201, teams.chat(ANA)]);
      expect(await open({ members: [{ id: CLEO }] })).toEqual([403, 'BotNotInConversationRoster']);
      expect(await open({ members: [{ id: 'ana@yard.invalid' }] })).toEqual([400, 'BadArgument']);
      expect(await open({ members: [{ id: ANA }, { id: BEN }] })).toEqual([400, 'BadSyntax']);
      expect(await open({ members: [{ id: ANA }], tenantId: undefined })).toEqual([400, 'BadArgument']);
      expect(await open({ isGroup: true, channelData: { channel: { id: DOCK } } })).toEqual([
        400,
        'BadSyntax',
      ]);
    }));

  it('says why it cannot reach somebody', () =>
    withPeer(async (teams) => {
      const why = async (conversation: string) => {
        const { status, body } = await call(teams, 'POST', at(conversation), words('x'));
        return [status, code(body)];
      };
      await teams.uninstalls(ANA);
      teams.block(BEN, true);
      expect(await why(teams.chat(ANA))).toEqual([403, 'BotNotInConversationRoster']);
      expect(await why(teams.chat(BEN))).toEqual([403, 'ConversationBlockedByUser']);
      expect(await why('19:nowhere@thread.v2')).toEqual([404, 'ConversationNotFound']);
      teams.block(BEN, false);
      expect(await why(teams.chat(BEN))).toEqual([201, undefined]);
      const before = teams.serviceUrl();
      teams.moveService('amer');
      expect(await why(teams.chat(BEN))).toEqual([201, undefined]);
      const { token } = await fetchToken(teams);
      const old = await fetch(`${before}v3/conversations`, {
        method: 'POST',
        headers: { authorization: `Bearer ${token}` },
      });
      expect(old.status).toBe(404);
    }));

  // RFC 6749 section 4.4; the token lives an hour of the peer's clock.
  it('wants a live token of this bot', () =>
    withPeer(async (teams) => {
      const { token } = await fetchToken(teams);
      const status = async (bearer?: string) =>
        (await call(teams, 'POST', at(CREW), words('x'), bearer)).status;
      expect([await status(token), await status(''), await status('not.a.token')]).toEqual([201, 401, 401]);
      teams.clock.advance(3_600_000);
      expect([await status(token), await status()]).toEqual([401, 201]);
      const again = (await fetchToken(teams)).token;
      teams.revokeTokens();
      expect([await status(again), await status()]).toEqual([401, 201]);
      const form = new URLSearchParams({
        grant_type: 'client_credentials',
        client_id: teams.bot.appId,
        scope: teams.scope,
      });
      const refused = await fetch(teams.tokenUrl, { method: 'POST', body: form });
      expect([refused.status, await refused.json()]).toMatchObject([401, { error: 'invalid_client' }]);
    }));
});
