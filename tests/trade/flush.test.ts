import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CLEAR_SHARE, flushPlan, solventForDay } from '../../src/trade/flush.ts';
import { TradeRefusal } from '../../src/trade/refusal.ts';

const seed = { seed: 7 };
const bore = fc.double({ min: 4, max: 20, noNaN: true });
const length = fc.double({ min: 1, max: 60, noNaN: true });

const rig = {
  hoses: [
    { boreMm: 10, lengthM: 30 },
    { boreMm: 6, lengthM: 2 },
  ],
  pumpAndFilterL: 0.5,
  drainLineL: 0.2,
  lineVolumesPrimary: 3,
  lineVolumesSecondary: 2,
  litresPerCycle: 0.1,
  cyclesPerMinute: 20,
  fixedMinutes: 8,
};

describe('flush', () => {
  test('worked by hand: line 2.9127 L, flow 2 L/min', () => {
    const line = (Math.PI / 4) * (10 ** 2 * 30 + 6 ** 2 * 2) * 1e-3 + 0.5;
    const plan = flushPlan(rig);
    expect(line).toBeCloseTo(2.9127, 4);
    expect(plan.lineL).toBeCloseTo(line, 9);
    expect(plan.primaryL).toBeCloseTo(3 * line + 0.2, 9);
    expect(plan.secondaryL).toBeCloseTo(2 * line + 0.2, 9);
    expect(plan.drainL).toBe(0.2);
    expect(plan.solventL).toBeCloseTo(5 * line + 0.4, 9);
    expect(plan.minutes).toBeCloseTo(8 + (5 * line + 0.4) / 2, 9);
    expect(plan.primaryMinutes).toBeCloseTo(8 + (3 * line + 0.2) / 2, 9);
  });

  test('a longer or wider hose never shortens the flush or saves solvent', () => {
    fc.assert(
      fc.property(bore, length, fc.double({ min: 0, max: 30, noNaN: true }), (boreMm, lengthM, more) => {
        const shorter = flushPlan({ ...rig, hoses: [{ boreMm, lengthM }] });
        const longer = flushPlan({ ...rig, hoses: [{ boreMm, lengthM: lengthM + more }] });
        const wider = flushPlan({ ...rig, hoses: [{ boreMm: boreMm + more, lengthM }] });
        for (const other of [longer, wider])
          for (const figure of ['minutes', 'primaryMinutes', 'solventL', 'primaryL', 'secondaryL'] as const)
            expect(other[figure]).toBeGreaterThanOrEqual(shorter[figure]);
      }),
      seed,
    );
  });

  test('the paint is out before the flush is over, and not before the fixed steps', () => {
    const plan = flushPlan(rig);
    expect(plan.primaryMinutes).toBeLessThan(plan.minutes);
    expect(plan.primaryMinutes).toBeGreaterThan(rig.fixedMinutes);
  });

  test.each([
    { change: { hoses: [] }, field: 'hoses' },
    { change: { hoses: [{ boreMm: 10, lengthM: 0 }] }, field: 'hoses[0].lengthM' },
    { change: { lineVolumesPrimary: 0.5 }, field: 'lineVolumesPrimary' },
    { change: { litresPerCycle: 0 }, field: 'litresPerCycle' },
  ])('refused: $field', ({ change, field }) => {
    expect(() => flushPlan({ ...rig, ...change })).toThrow(expect.objectContaining({ field }));
  });
});

describe('solvent for the day', () => {
  const one = { primaryL: 8.8, secondaryL: 6, flushes: 1, settledL: 0 };

  test('worked by hand: 2 flushes of 14.8 L, 10 L settled of which 8 L are clear', () => {
    expect(solventForDay(one)).toEqual({ settledL: 0, cleanL: 14.8 });
    const two = solventForDay({ ...one, flushes: 2, settledL: 10 });
    expect(two.settledL).toBeCloseTo(8, 9);
    expect(two.cleanL).toBeCloseTo(2 * 14.8 - 8, 9);
  });

  test('settled solvent never goes into a second flush, however much of it there is', () => {
    const much = solventForDay({ ...one, settledL: 500 });
    expect(much.settledL).toBeCloseTo(8.8, 9);
    expect(much.cleanL).toBeCloseTo(6, 9);
  });

  const litres = fc.double({ min: 0, max: 200, noNaN: true });
  const input = fc.record({
    primaryL: litres,
    secondaryL: litres,
    flushes: fc.integer({ min: 1, max: 12 }),
    settledL: litres,
  });

  test('clean and settled together are the flushes; clean is at least every second flush', () => {
    fc.assert(
      fc.property(input, (given) => {
        const { settledL, cleanL } = solventForDay(given);
        expect(settledL + cleanL).toBeCloseTo(given.flushes * (given.primaryL + given.secondaryL), 6);
        expect(cleanL).toBeGreaterThanOrEqual(given.flushes * given.secondaryL - 1e-6);
        expect(settledL).toBeLessThanOrEqual(CLEAR_SHARE * given.settledL);
      }),
      seed,
    );
  });

  test('a flush more never asks for less clean solvent, more settled solvent never for more', () => {
    fc.assert(
      fc.property(input, litres, (given, more) => {
        const { cleanL } = solventForDay(given);
        const flushed = solventForDay({ ...given, flushes: given.flushes + 1 });
        const settled = solventForDay({ ...given, settledL: given.settledL + more });
        expect(flushed.cleanL).toBeGreaterThanOrEqual(cleanL - 1e-9);
        expect(settled.cleanL).toBeLessThanOrEqual(cleanL + 1e-9);
      }),
      seed,
    );
  });

  test.each([0, 1.5, 25])('%s flushes are refused', (flushes) => {
    expect(() => solventForDay({ ...one, flushes })).toThrow(TradeRefusal);
  });
});
