import { describe, expect, it } from 'vitest';
import { flushSteps } from '../../src/model/checks.ts';
import { mustOnBoard, playOnBoard, today } from './day.ts';
import { type ChatKind, type FaultKind, withHands } from './hands.ts';
import { found } from './wrong.ts';

const STEPS = 4;

/** One message that changes faster than the platform lets it be said. */
export function flushUnderFaults(kind: ChatKind): void {
  describe(`the flush goes on while its message cannot be said in ${kind.name}`, () => {
    it.each<{ name: string; faults: readonly FaultKind[] }>([
      { name: 'no fault', faults: [] },
      { name: 'busy', faults: ['busy'] },
      { name: 'taken without an answer', faults: ['dropped after'] },
      { name: 'lost', faults: ['dropped before'] },
      { name: 'lost twice', faults: ['dropped before', 'dropped before'] },
      { name: 'out of order and then taken without an answer', faults: ['out of order', 'dropped after'] },
    ])('$name: one message stands, with the last step', ({ faults }) =>
      withHands(kind, async (hands) => {
        await playOnBoard(hands, () => undefined, '10:06');
        await hands.passTo('10:07');
        for (const fault of faults) hands.fault('post', fault);
        await mustOnBoard(hands, 'duarte', { type: 'start-flush', rig: 'rig-1' });
        // The first words are on their way when the next ones come.
        const underWay = hands.potbell.host.outbox.drain();
        const flush = (await today(hands)).rigs['rig-1']?.flush?.id ?? '';
        for (const step of flushSteps.slice(0, STEPS)) {
          const litres = step.includes('flush') ? { litres: 9.3 } : {};
          await mustOnBoard(hands, 'duarte', { type: 'confirm-step', rig: 'rig-1', flush, step, ...litres });
        }
        await Promise.all([underWay, hands.potbell.host.outbox.drain()]);
        await hands.deliver();
        expect(hands.faultsLeft()).toBe(0);
        const unheardOf = hands.looksBack ? 0 : faults.filter((one) => one === 'dropped after').length;
        const { wrong, twice } = await found(hands);
        expect(wrong).toEqual([]);
        expect(twice.length).toBeLessThanOrEqual(unheardOf);
        const steps = hands.channel().flatMap(({ buttons }) => {
          const step = /"step":"([a-z-]+)/.exec(buttons.map(({ value }) => value).join())?.[1];
          return step === undefined ? [] : [step];
        });
        // What was said once too often without Potbell knowing of it stays as it was.
        expect(steps.length).toBeLessThanOrEqual(1 + unheardOf);
        expect(steps.filter((step) => step === flushSteps[STEPS])).toHaveLength(1);
        expect(hands.faults).toEqual([]);
      }),
    );
  });
}
