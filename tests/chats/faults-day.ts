import { describe, expect, it } from 'vitest';
import { memoryStore } from '../../adapters/memory/store.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { dayOf, MORNING, mortal, mustOnBoard, playOnBoard } from './day.ts';
import { type ChatKind, type FaultKind, type Hands, withHands } from './hands.ts';
import { found } from './wrong.ts';

const kinds: readonly FaultKind[] = ['busy', 'out of order', 'dropped before', 'dropped after'];
/** What has been said, but Potbell does not hear that it has. */
const unheard: ReadonlySet<FaultKind> = new Set(['dropped after', 'hangs after']);

const posted = (hands: Hands) => mustOnBoard(hands, 'ines', { type: 'post-day', entry: dayOf(hands) });

async function briefingDue(hands: Hands): Promise<void> {
  await posted(hands);
  hands.pass(30 * 60_000);
  await hands.potbell.host.bells.runDue();
}

/** @param unheardOf how often something was said without Potbell hearing so: that often it may stand twice. */
async function allStands(hands: Hands, unheardOf = 0): Promise<void> {
  const { wrong, twice } = await found(hands);
  expect(wrong).toEqual([]);
  if (hands.looksBack || unheardOf === 0) expect(twice).toEqual([]);
  else expect(twice.length).toBeLessThanOrEqual(unheardOf);
  expect(hands.faults).toEqual([]);
}

export function faultsInADay(kind: ChatKind): void {
  describe(`a whole day in ${kind.name}, with faults`, () => {
    it('without any, all of it stands once: the measure for the others', () =>
      withHands(kind, async (hands) => {
        await playOnBoard(hands, () => undefined);
        await allStands(hands);
        expect(hands.channel().length).toBeGreaterThan(30);
        expect(hands.turnedAway()).toBe(0);
      }));

    it.each([0, 1, 2, 3])(
      'in turn, at every step of the day (from the kind %i): nothing lost, nothing twice',
      (from) =>
        withHands(kind, async (hands) => {
          let unheardOf = 0;
          await playOnBoard(hands, (turn) => {
            const fault = kinds[(turn + from) % kinds.length];
            if (fault === undefined) throw new Error('no fault');
            const call = turn % 3 === 2 ? 'update' : 'post';
            hands.fault(call, fault);
            if (turn === 0) hands.fault('open', fault);
            if (call === 'post' && unheard.has(fault)) unheardOf += 1;
          });
          await allStands(hands, unheardOf);
        }),
    );

    // Teams takes all parts in one turn, so there is no moment between them.
    const moments = kind.allAtOnce ? [0] : [0, 1, 2];
    it.each(kinds.flatMap((fault) => moments.map((after) => ({ fault, after }))))(
      'the briefing goes out in parts, and "$fault" meets the one after $after of them',
      ({ fault, after }) =>
        withHands(kind, async (hands) => {
          await briefingDue(hands);
          for (let turns = 0; hands.channel().length < Math.min(after, parts(hands) - 1); turns += 1) {
            if (turns > 20) throw new Error('the briefing does not go out');
            await hands.potbell.host.outbox.drain();
            hands.pass(1_000);
          }
          hands.fault('post', fault, 3);
          await hands.deliver();
          expect(hands.faultsLeft()).toBe(0);
          if (hands.looksBack) expect(hands.channel()).toHaveLength(parts(hands));
          await allStands(hands, unheard.has(fault) ? 3 : 0);
        }),
    );

    it.each(['hangs', 'hangs after'] as const)('it %s in the middle of the briefing', (fault) =>
      withHands(
        kind,
        async (hands) => {
          await briefingDue(hands);
          hands.fault('post', fault, 3);
          await hands.deliver();
          expect(hands.faultsLeft()).toBe(0);
          if (hands.looksBack) expect(hands.channel()).toHaveLength(parts(hands));
          await allStands(hands, unheard.has(fault) ? 3 : 0);
        },
        { timeoutMs: 500 },
      ),
    );
  });
}

const placeOf = (finding: string): string => finding.slice(0, finding.indexOf(':'));

/** How many messages the demo day's briefing takes in the channel: by what the platforms take in one. */
const parts = ({ surface }: Hands): number => ({ slack: 4, teams: 2 })[surface];

export function dyingInTheBriefing(kind: ChatKind): void {
  describe(`the process dies in the middle of the briefing going out in ${kind.name}`, () => {
    async function untilDeath(dieAt: number) {
      // The crew's own time: what is stamped long ago would be forgotten at the second start.
      let time = () => MORNING;
      const kept = { store: memoryStore(), memory: memorySurfaceMemory({ now: () => time() }) };
      const life = mortal(kept.store, kept.memory, dieAt);
      const first = await kind.open({ store: life.store, memory: life.memory });
      time = first.now;
      life.begins();
      await posted(first);
      first.pass(30 * 60_000);
      await first.potbell.host.bells.runDue();
      for (let turns = 0; turns < 20 && !life.isDead(); turns += 1) {
        await first.potbell.host.outbox.drain().catch(() => undefined);
        first.pass(1_000);
      }
      return { first, life, kept };
    }

    it('at whichever write: what was half said is completed, nothing stands twice', async () => {
      const whole = await untilDeath(Number.POSITIVE_INFINITY);
      await allStands(whole.first);
      const writes = whole.life.writes();
      await whole.first.close();
      expect(writes).toBeGreaterThan(30);
      for (let dieAt = 0; dieAt < writes; dieAt += dieAt < 6 ? 1 : 13) {
        const { first, life, kept } = await untilDeath(dieAt);
        expect(life.isDead()).toBe(true);
        await first.stop();
        const second = await kind.open({ ...mortal(kept.store, kept.memory), after: first, at: '07:01' });
        await second.potbell.store.releaseClaims();
        await second.deliver();
        const { wrong, twice } = await found(second);
        expect({ dieAt, wrong }).toEqual({ dieAt, wrong: [] });
        // What was on its way when the process died: one message in each conversation, of which nobody heard that it stands.
        if (second.looksBack) expect(twice).toEqual([]);
        else expect(new Set(twice.map(placeOf)).size).toBe(twice.length);
        if (second.looksBack) expect(second.channel()).toHaveLength(parts(second));
        expect(second.faults).toEqual([]);
        await second.close();
      }
    });
  });
}
