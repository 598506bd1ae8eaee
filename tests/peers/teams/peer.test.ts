import {
  ActivityHandler,
  type AdaptiveCardInvokeResponse,
  type ConversationParameters,
  TeamsActivityHandler,
  type TurnContext,
} from 'botbuilder';
import { describe, expect, it } from 'vitest';
import { dict, text } from '../slack/json.ts';
import { CARD } from './state.ts';
import { ANA, attached, BEN, CLEO, CREW, card, DOCK, execute, TEAM, withBot } from './world.ts';

/** Asks for a flush with a card, notes who confirmed, and shows each person what concerns that person. */
class YardBot extends TeamsActivityHandler {
  readonly heard: string[] = [];

  constructor() {
    super();
    this.onMessage(async (context, next) => {
      const { activity } = context;
      this.heard.push(activity.value === undefined ? text(activity.text) : JSON.stringify(activity.value));
      if (text(activity.text).endsWith('flush'))
        await context.sendActivity(attached(asked(activity.from.id)));
      else if (activity.value === undefined)
        await context.sendActivity(`heard in ${activity.conversation.id}`);
      await next();
    });
    this.onInstallationUpdateAdd(async (context, next) => {
      await context.sendActivity('hello');
      await next();
    });
    this.onMembersAdded(async (context, next) => {
      this.heard.push(`added ${(context.activity.membersAdded ?? []).map((one) => one.id).join()}`);
      await next();
    });
    this.onMembersRemoved(async (context, next) => {
      this.heard.push(`removed ${(context.activity.membersRemoved ?? []).map((one) => one.id).join()}`);
      await next();
    });
    this.onInstallationUpdateRemove(async (_context, next) => {
      this.heard.push('uninstalled');
      await next();
    });
  }

  protected override async onAdaptiveCardInvoke(context: TurnContext): Promise<AdaptiveCardInvokeResponse> {
    const value = dict(context.activity.value);
    const action = dict(value.action);
    this.heard.push(`${text(value.trigger)} ${text(action.verb)} ${JSON.stringify(action.data)}`);
    if (action.verb === 'look')
      return { statusCode: 200, type: CARD, value: forOne(context.activity.from.name, this.heard.length) };
    if (action.verb === 'odd')
      return { statusCode: 200, type: CARD, value: { type: 'AdaptiveCard', version: '9.9' } };
    const changed = {
      ...attached(card(`Confirmed by ${context.activity.from.name}`)),
      id: text(context.activity.replyToId),
    };
    await context.updateActivity(changed);
    // The package's type asks for an object where the platform wants words.
    return { statusCode: 200, type: 'application/vnd.microsoft.activity.message', value: Object('Noted') };
  }

  protected override async handleTeamsTaskModuleFetch() {
    const body = [
      { type: 'Input.Number', id: 'litres', label: 'Litres', isRequired: true, errorMessage: 'Litres' },
    ];
    const content = { ...card('New batch', { type: 'Action.Submit', title: 'Send' }), body };
    return {
      task: { type: 'continue' as const, value: { title: 'Batch', card: { contentType: CARD, content } } },
    };
  }

  protected override async handleTeamsTaskModuleSubmit(_context: TurnContext, request: { data?: unknown }) {
    this.heard.push(`batch ${JSON.stringify(request.data)}`);
    return { task: { type: 'message' as const, value: 'Batch noted' } };
  }
}

function forOne(name: string, turn: number) {
  return { ...card(`For ${name}, ${turn}`), refresh: { action: { type: 'Action.Execute', verb: 'look' } } };
}

const NOTE = { type: 'Input.Text', id: 'note', label: 'Note' };

function asked(userId: string) {
  const actions = [
    execute('Confirm flush', 'confirm', { line: 'A' }),
    execute('Odd', 'odd'),
    { type: 'Action.Submit', title: 'New batch', data: { msteams: { type: 'task/fetch' } } },
  ];
  const refresh = { action: { type: 'Action.Execute', verb: 'look' }, userIds: [userId] };
  const one = card('Flush?', ...actions);
  return { ...one, refresh, body: [{ type: 'TextBlock', text: 'Flush?' }, NOTE] };
}

describe('a bot of botbuilder 4.23.3, unmodified', () => {
  it('hears people in their own chat, and in channels and group chats when it is named', () =>
    withBot(new YardBot(), async (teams) => {
      expect(await teams.say(ANA, teams.chat(ANA), 'hi')).toMatchObject({ status: 200 });
      expect(teams.messages(teams.chat(ANA)).map((one) => [one.from, one.text])).toEqual([
        [ANA, 'hi'],
        [teams.bot.id, `heard in ${teams.chat(ANA)}`],
      ]);
      const said = await teams.say(BEN, DOCK, 'hi');
      expect(said.status).toBe(200);
      const [first, second] = teams.messages(DOCK);
      expect(first?.text).toBe('<at>Loopback</at> hi');
      expect(second).toMatchObject({
        thread: said.activityId,
        text: `heard in ${DOCK};messageid=${said.activityId}`,
      });
      expect(await teams.say(BEN, DOCK, 'not to you', { mention: false })).toMatchObject({
        status: 'not_heard',
      });
      expect(await teams.say(CLEO, CREW, 'hi')).toMatchObject({ status: 200 });
      expect(teams.messages(CREW).at(-1)).toMatchObject({ thread: null, from: teams.bot.id });
      await expect(teams.say(CLEO, DOCK, 'hi')).rejects.toThrow('29:cleo is not in');
    }));

  it('changes its card when a button is pressed, and answers the person alone', () => {
    const bot = new YardBot();
    return withBot(bot, async (teams) => {
      await teams.say(ANA, DOCK, 'flush');
      const { id = '' } = teams.messages(DOCK).at(-1) ?? {};
      const where = { conversation: DOCK, activityId: id };
      const typed = { note: 'clear' };
      const outcome = await teams.press(BEN, { ...where, title: 'Confirm flush', typed });
      expect(outcome).toMatchObject({ status: 200, body: { statusCode: 200 } });
      expect(outcome.problem).toBeUndefined();
      expect(bot.heard.at(-1)).toBe('manual confirm {"line":"A","note":"clear"}');
      expect(teams.messages(DOCK).at(-1)).toMatchObject({ id, edited: true, card: card('Confirmed by Ben') });
      expect([teams.notes(BEN), teams.notes(ANA)]).toEqual([['Noted'], []]);
      await expect(teams.press(BEN, { ...where, verb: 'confirm' })).rejects.toThrow('is 0 buttons');
    });
  });

  it('hears an old client through the fallback of the same button', () => {
    const bot = new YardBot();
    return withBot(bot, async (teams) => {
      await teams.say(ANA, teams.chat(ANA), 'flush');
      const { id = '' } = teams.messages(teams.chat(ANA)).at(-1) ?? {};
      const where = { conversation: teams.chat(ANA), activityId: id };
      expect(await teams.press(ANA, { ...where, verb: 'confirm', oldClient: true })).toMatchObject({
        status: 200,
      });
      expect(bot.heard.at(-1)).toBe('{"line":"A","verb":"confirm","note":""}');
    });
  });

  // …/universal-actions-for-adaptive-cards/user-specific-views: userIds, and once a minute.
  it('shows a card of one person to that person, by itself once a minute and by hand at any time', () =>
    withBot(new YardBot(), async (teams) => {
      await teams.say(ANA, DOCK, 'flush');
      const { id = '' } = teams.messages(DOCK).at(-1) ?? {};
      const where = { conversation: DOCK, activityId: id };
      expect(await teams.looks(BEN, where)).toMatchObject({ status: 'no_refresh' });
      expect(await teams.looks(ANA, where)).toMatchObject({ status: 200 });
      expect(teams.cardSeen(ANA, where)).toEqual(forOne('Ana', 2));
      expect(teams.cardSeen(BEN, where)).toEqual(asked(ANA));
      teams.clock.advance(59_999);
      expect(await teams.looks(ANA, where)).toMatchObject({ status: 'no_refresh' });
      teams.clock.advance(1);
      expect(await teams.looks(ANA, where)).toMatchObject({ status: 200 });
      expect(teams.cardSeen(ANA, where)).toEqual(forOne('Ana', 3));
      expect(await teams.looks(BEN, where, 'manual')).toMatchObject({ status: 200 });
      expect(teams.cardSeen(BEN, where)).toEqual(forOne('Ben', 4));
      expect(teams.messages(DOCK).at(-1)).toMatchObject({ card: asked(ANA), edited: false });
    }));

  it('says so when the bot answers a press with a card that cannot be shown', () =>
    withBot(new YardBot(), async (teams) => {
      await teams.say(ANA, DOCK, 'flush');
      const { id = '' } = teams.messages(DOCK).at(-1) ?? {};
      const outcome = await teams.press(ANA, { conversation: DOCK, activityId: id, verb: 'odd' });
      expect(outcome.status).toBe(200);
      expect(outcome.problem).toContain('version 9.9 is over 1.5');
      expect(teams.cardSeen(ANA, { conversation: DOCK, activityId: id })).toEqual(asked(ANA));
    }));

  it('opens a dialog and takes what was typed', () => {
    const bot = new YardBot();
    return withBot(bot, async (teams) => {
      await teams.say(ANA, DOCK, 'flush');
      const { id = '' } = teams.messages(DOCK).at(-1) ?? {};
      const where = { conversation: DOCK, activityId: id };
      expect((await teams.press(ANA, { ...where, title: 'New batch' })).problem).toBeUndefined();
      expect(teams.dialog(ANA)).toMatchObject({ title: 'Batch' });
      await expect(teams.submitDialog(ANA)).rejects.toThrow('"Litres" (litres) is required and empty');
      await expect(teams.submitDialog(ANA, { litres: 'ten' })).rejects.toThrow('not a number');
      expect(await teams.submitDialog(ANA, { litres: '10' })).toMatchObject({ status: 200 });
      expect(bot.heard.at(-1)).toBe('batch {"litres":"10"}');
      expect([teams.dialog(ANA), teams.notes(ANA)]).toEqual([null, ['Batch noted']]);
    });
  });

  it('is told when the app comes and goes, and when people do', () => {
    const bot = new YardBot();
    return withBot(bot, async (teams) => {
      expect(await teams.installs(CLEO)).toMatchObject({ status: 200 });
      expect(teams.messages(teams.chat(CLEO)).map((one) => one.text)).toEqual(['hello']);
      expect(await teams.uninstalls(BEN, TEAM)).toMatchObject({ status: 200 });
      await teams.joins(CLEO, TEAM);
      await teams.leaves(BEN, TEAM);
      const { id } = teams.bot;
      const all = [`added ${id}`, `removed ${id}`, 'uninstalled', `added ${CLEO}`, `removed ${BEN}`];
      expect(bot.heard).toEqual(all);
    });
  });

  it('reaches people first: a person, and a new thread in a channel', () =>
    withBot(new ActivityHandler(), async (teams, { adapter }) => {
      const { appId, tenantId, id, name } = teams.bot;
      const scope = text(teams.settings.ToChannelFromBotOAuthScope);
      const bot = { id, name };
      const open = (given: object): Promise<void> => {
        // The package's type wants an activity even where none is to be sent.
        const parameters: ConversationParameters = JSON.parse(JSON.stringify({ bot, tenantId, ...given }));
        return adapter.createConversationAsync(
          appId,
          'msteams',
          teams.serviceUrl(),
          scope,
          parameters,
          async (context) => {
            await context.sendActivity('second');
          },
        );
      };
      await open({ members: [{ id: ANA, name: '' }] });
      expect(teams.messages(teams.chat(ANA)).map((one) => one.text)).toEqual(['second']);
      await open({
        isGroup: true,
        channelData: { channel: { id: DOCK } },
        activity: attached(card('First')),
      });
      const [first, second] = teams.messages(DOCK);
      expect(first?.card).toEqual(card('First'));
      expect(second).toMatchObject({ text: 'second', thread: first?.id });
      await expect(open({ members: [{ id: CLEO, name: '' }] })).rejects.toMatchObject({ statusCode: 403 });
    }));
});
