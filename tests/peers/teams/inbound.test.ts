import { type ActivityHandler, ActivityHandler as Handler, type TurnContext } from 'botbuilder';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { dict, list, text } from '../slack/json.ts';
import type { Forgery } from './peer.ts';
import { ANA, attached, card, withBot, withPeer, withTurn } from './world.ts';

/** Hears what people write. */
function ears(): { bot: ActivityHandler; heard: string[] } {
  const heard: string[] = [];
  const bot = new Handler();
  bot.onMessage(async ({ activity }, next) => {
    heard.push(`${activity.id} ${activity.text} ${activity.serviceUrl}`);
    await next();
  });
  return { bot, heard };
}

/** Statuses of the stock CloudAdapter, measured: a broken signature or algorithm ends as 500, the rest as 401. */
const FORGERIES: readonly (readonly [Forgery, number])[] = [
  ['unsigned', 401],
  ['not-bearer', 401],
  ['garbage', 401],
  ['alg-none', 500],
  ['HS256', 500],
  ['wrong-key', 500],
  ['unknown-key', 401],
  ['expired', 401],
  ['not-yet-valid', 500],
  ['wrong-audience', 401],
  ['wrong-issuer', 401],
  ['wrong-service-url', 401],
  ['no-service-url', 401],
  ['missing-endorsement', 401],
];

// The adapter prints keys and errors when it refuses.
beforeEach(() => {
  vi.spyOn(console, 'error').mockImplementation(() => {});
});
afterEach(() => {
  vi.restoreAllMocks();
});

// learn.microsoft.com/azure/bot-service/rest-api/bot-framework-rest-connector-authentication.
describe('forged requests', () => {
  it.each(FORGERIES)('%s: the bot answers %i and runs nothing', (forgery, status) => {
    const { bot, heard } = ears();
    return withBot(bot, async (teams) => {
      teams.forgeNext(forgery);
      expect(await teams.say(ANA, teams.chat(ANA), 'forged')).toMatchObject({ status });
      expect(heard).toEqual([]);
      expect(await teams.say(ANA, teams.chat(ANA), 'true')).toMatchObject({ status: 200 });
      expect(heard.length).toBe(1);
    });
  });

  it('are checked against keys from the issuer’s own documents, and wait while it is away', () => {
    const { bot, heard } = ears();
    return withBot(bot, async (teams) => {
      teams.fault('openid', { kind: 'status', status: 503 });
      expect(await teams.say(ANA, teams.chat(ANA), 'one')).toMatchObject({ status: 401 });
      expect(await teams.say(ANA, teams.chat(ANA), 'two')).toMatchObject({ status: 200 });
      expect([teams.callsOf('openid').length, teams.callsOf('keys').length]).toEqual([2, 1]);
      const [known] = list(dict(teams.callsOf('keys')[0]?.response).keys);
      expect(dict(known)).toMatchObject({ kty: 'RSA', use: 'sig', endorsements: ['msteams'] });
      expect(heard.length).toBe(1);
    });
  });
});

describe('deliveries', () => {
  it('come again to the byte, or as copies with the same id', () => {
    const { bot, heard } = ears();
    return withBot(bot, async (teams) => {
      const { activityId } = await teams.say(ANA, teams.chat(ANA), 'one');
      expect(await teams.replayLast()).toMatchObject({ status: 200, activityId });
      teams.duplicate(2);
      const second = await teams.say(ANA, teams.chat(ANA), 'two');
      const ids = heard.map((one) => one.split(' ')[0]);
      expect(ids).toEqual([activityId, activityId, second.activityId, second.activityId, second.activityId]);
    });
  });

  // MicrosoftDocs/msteams-docs: a turn over 15 s is delivered again.
  it('come again when a turn takes over 15 s of the peer’s clock, with the same id and a new time', () => {
    const turns: { id: string; time: string; go: () => void }[] = [];
    return withTurn(
      (context) =>
        new Promise((resolve) => {
          turns.push({
            id: text(context.activity.id),
            time: String(context.activity.timestamp),
            go: resolve,
          });
        }),
      async (teams) => {
        const said = teams.say(ANA, teams.chat(ANA), 'slow');
        await teams.until(() => turns.length === 1);
        teams.clock.advance(15_000);
        expect(await said).toMatchObject({ status: 'timeout' });
        await teams.until(() => turns.length === 2);
        for (const one of turns) one.go();
        await teams.settled();
        expect(teams.deliveries.map((one) => one.outcome.status)).toEqual(['timeout', 200]);
        expect(turns[1]?.id).toBe(turns[0]?.id);
        expect(turns[1]?.time).not.toBe(turns[0]?.time);
      },
    );
  });

  // learn.microsoft.com/…/respond-to-task-module-submit: 5 s, and then the client asks twice more.
  it('ask for a dialog three times, 5 s each', () => {
    const opens = { type: 'Action.Submit', title: 'Open', data: { msteams: { type: 'task/fetch' } } };
    const asked: (() => void)[] = [];
    const turn = async (context: TurnContext): Promise<void> => {
      if (context.activity.type === 'invoke') await new Promise<void>((resolve) => asked.push(resolve));
      else await context.sendActivity(attached(card('Batch', opens)));
    };
    return withTurn(turn, async (teams) => {
      const conversation = teams.chat(ANA);
      await teams.say(ANA, conversation, 'x');
      const { id: activityId = '' } = teams.messages(conversation).at(-1) ?? {};
      const pressed = teams.press(ANA, { conversation, activityId, title: 'Open' });
      for (let tries = 1; tries <= 3; tries += 1) {
        await teams.until(() => asked.length === tries);
        teams.clock.advance(5000);
      }
      expect(await pressed).toMatchObject({ status: 'timeout' });
      await teams.settled();
      expect(asked.length).toBe(3);
      expect(teams.dialog(ANA)).toBeNull();
      for (const one of asked) one();
    });
  });

  it('carry the newest service URL', () => {
    const { bot, heard } = ears();
    return withBot(bot, async (teams) => {
      await teams.say(ANA, teams.chat(ANA), 'one');
      teams.moveService('amer');
      await teams.say(ANA, teams.chat(ANA), 'two');
      expect(heard.map((one) => /\/(\w+)\/$/.exec(one)?.[1])).toEqual(['emea', 'amer']);
    });
  });

  it('go nowhere when no bot is there', () =>
    withPeer(async (teams) => {
      expect(await teams.say(ANA, teams.chat(ANA), 'x')).toMatchObject({ status: 'no_bot' });
      teams.httpTo('http://127.0.0.1:9/');
      expect(await teams.say(ANA, teams.chat(ANA), 'x')).toMatchObject({ status: 'refused' });
    }));
});
