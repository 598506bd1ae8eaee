import { describe, expect, it } from 'vitest';
import type { Fault } from '../peers/slack/types.ts';
import { CHANNEL, type Crew, type CrewOptions, crewOnSlack } from './crew.ts';
import { dayOf, mustOnBoard, playOnBoard, wrongIn } from './faults.ts';

async function withCrew(test: (crew: Crew) => Promise<void>, options: CrewOptions = {}): Promise<void> {
  const crew = await crewOnSlack(options);
  try {
    await test(crew);
  } finally {
    await crew.close();
  }
}

const posted = (crew: Crew) => mustOnBoard(crew, 'ines', { type: 'post-day', entry: dayOf(crew) });

/** Slack's own words for being out of order; docs.slack.dev/reference/methods/chat.postMessage, "Errors". */
const refusals: readonly (Fault & { kind: 'error' })[] = [
  { kind: 'error', error: 'fatal_error' },
  { kind: 'error', error: 'service_unavailable' },
];
/** And as every platform and network have them. */
const kinds: readonly Fault[] = [
  ...refusals,
  { kind: '429', retryAfter: 7 },
  { kind: 'status', status: 503 },
  { kind: 'drop' },
  { kind: 'accept-then-drop' },
];

describe("a whole day in Slack, with Slack's own faults", () => {
  it.each([0, 3])(
    'in turn, at every step of the day and when it is looked for there (from the kind %i): nothing lost, nothing twice',
    (from) =>
      withCrew(async (crew) => {
        await playOnBoard(crew, (turn) => {
          const fault = kinds[(turn + from) % kinds.length];
          if (fault === undefined) throw new Error('no fault');
          crew.slack.fault(turn % 3 === 2 ? 'chat.update' : 'chat.postMessage', fault);
          if (turn === 0) crew.slack.fault('conversations.open', fault);
          if (turn % 5 === 4) crew.slack.fault('conversations.history', fault);
        });
        expect(await wrongIn(crew)).toEqual([]);
        expect(crew.faults).toEqual([]);
      }),
  );

  it.each(refusals.flatMap((fault) => [0, 1, 2].map((after) => ({ ...fault, fault, after }))))(
    'the briefing goes out in four parts, and $error meets the one after $after of them',
    ({ fault, after }) =>
      withCrew(async (crew) => {
        await posted(crew);
        crew.pass(30 * 60_000);
        await crew.potbell.host.bells.runDue();
        for (let turns = 0; crew.channel().length < after; turns += 1) {
          if (turns > 20) throw new Error('the briefing does not go out');
          await crew.potbell.host.outbox.drain();
          crew.pass(1_000);
        }
        crew.slack.fault('chat.postMessage', fault, 3);
        await crew.deliver();
        expect(crew.slack.faultsLeft()).toBe(0);
        expect(crew.channel()).toHaveLength(4);
        expect(await wrongIn(crew)).toEqual([]);
        expect(crew.faults).toEqual([]);
      }),
  );

  it('one channel that is asked to wait does not hold up the others', () =>
    withCrew(async (crew) => {
      await posted(crew);
      crew.pass(30 * 60_000);
      await crew.potbell.host.bells.runDue();
      crew.slack.fault('chat.postMessage', { kind: '429', retryAfter: 120 });
      for (let seconds = 0; seconds < 20; seconds += 1) {
        await crew.potbell.host.outbox.drain();
        crew.pass(1_000);
      }
      const posts = () => crew.slack.callsOf('chat.postMessage');
      const refused = posts().find(({ response }) => JSON.stringify(response).includes('ratelimited'));
      const held = String(refused?.args.channel);
      const places = [CHANNEL, ...crew.site.pack.people.map(({ id }) => crew.slack.dm(crew.member(id)))];
      expect(places).toContain(held);
      expect(places.filter((place) => crew.slack.messages(place).length === 0)).toEqual([held]);
      await crew.deliver();
      const times = posts().filter(({ args }) => args.channel === held);
      expect(times.map(({ at }) => at >= (refused?.at ?? 0) + 120_000)[0]).toBe(false);
      expect(times.slice(1).every(({ at }) => at >= (refused?.at ?? 0) + 120_000)).toBe(true);
      expect(await wrongIn(crew)).toEqual([]);
    }));
});
