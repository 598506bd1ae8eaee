import { describe, expect, it } from 'vitest';
import { dayOf, mustOnBoard, today } from './day.ts';
import { type ChatKind, type Hands, the, withHands } from './hands.ts';
import { found } from './wrong.ts';

async function withBriefingOut(hands: Hands): Promise<void> {
  await mustOnBoard(hands, 'ines', { type: 'post-day', entry: dayOf(hands) });
  await hands.passTo('07:00');
  await hands.deliver();
}

/** Nobody can be told anything there, and the loops look all the same. */
async function anHour(hands: Hands): Promise<void> {
  for (let minutes = 0; minutes < 60; minutes += 4) {
    hands.pass(4 * 60_000);
    await hands.potbell.host.bells.runDue();
    await hands.potbell.host.outbox.drain();
  }
}

const connection = /^(WebSocket error|Failed to retrieve a new WSS URL)/;

const about = async (hands: Hands) =>
  (await hands.potbell.host.health()).problems
    .filter((one) => one.includes(hands.title) || one.includes('Microsoft'))
    .join(' ');

/** Whatever else is under way may have ended a few turns later. */
async function untilHealthy(hands: Hands): Promise<void> {
  for (let tries = 0; (await about(hands)) !== ''; tries += 1) {
    if (tries > 1_000) throw new Error(`still: ${await about(hands)}`);
    let turns = 0;
    await hands.until(() => {
      turns += 1;
      return turns > 5;
    });
  }
}

export function awayForAnHour(kind: ChatKind): void {
  describe(`${kind.name} is down for an hour while the work goes on`, () => {
    it('bells are said late and say so; health tells until it is back', () =>
      withHands(kind, async (hands) => {
        await withBriefingOut(hands);
        expect(await about(hands)).toBe('');
        const before = hands.channel().length;
        await hands.down(true);
        await mustOnBoard(hands, 'tomas', { type: 'stop-work', text: 'Wind.' });
        await anHour(hands);
        expect((await today(hands)).stop?.text).toBe('Wind.');
        expect((await today(hands)).undelivered).toEqual([]);
        expect(await about(hands)).not.toBe('');
        expect(hands.channel()).toHaveLength(before);

        await hands.down(false);
        await hands.deliver();
        await untilHealthy(hands);
        expect(await found(hands, 'last')).toEqual({ wrong: [], twice: [] });
        const stop = the(
          hands.channel().find(({ summary }) => summary.includes('STOP WORK, called at')),
          'stop-work',
        );
        expect(stop.text).toMatch(/This bell is 6\d min late\. It should have rung at \d\d:\d\d\./);
        expect(hands.turnedAway()).toBe(0);
        // A line arrives again, and is answered.
        expect(await hands.type('ines', 'help')).not.toBe('');
        // That the connection broke is logged by what holds it, and is no fault of Potbell's.
        expect(hands.faults.filter((one) => !connection.test(one))).toEqual([]);
      }));

    it('out of order all the time: the same', () =>
      withHands(kind, async (hands) => {
        await withBriefingOut(hands);
        for (const call of ['post', 'update', 'open'] as const) hands.fault(call, 'out of order', 10_000);
        await mustOnBoard(hands, 'tomas', { type: 'stop-work', text: 'Wind.' });
        await anHour(hands);
        expect((await today(hands)).undelivered).toEqual([]);
        expect(await about(hands)).toContain('HTTP 503');
        hands.faultsOver();
        await hands.deliver();
        const { wrong } = await found(hands, 'last');
        expect(wrong).toEqual([]);
        const stops = hands.channel().filter(({ summary }) => summary.includes('STOP WORK, called at'));
        expect(stops).toHaveLength(1);
        expect(stops[0]?.text).toMatch(/This bell is 6\d min late\. It should have rung at/);
        await untilHealthy(hands);
        expect(hands.faults).toEqual([]);
      }));
  });
}
