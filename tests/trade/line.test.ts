import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { flushPlan, hoseVolumeL, lowestRating, stallBar } from '../../src/trade/line.ts';
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

describe('pressure', () => {
  test('no air, no pressure; more air or more ratio, more pressure', () => {
    expect(stallBar(45, 0)).toBe(0);
    expect(stallBar(45, 6)).toBeGreaterThan(stallBar(45, 5));
    expect(stallBar(56, 5)).toBeGreaterThan(stallBar(45, 5));
  });

  test('the weakest part is found wherever it stands; of equals the first', () => {
    const parts = [
      { part: 'pump', bar: 500 },
      { part: 'hose', bar: 250 },
      { part: 'gun', bar: 345 },
      { part: 'swivel', bar: 250 },
    ];
    expect(lowestRating(parts)).toEqual({ part: 'hose', bar: 250 });
    expect(lowestRating([...parts].reverse())).toEqual({ part: 'swivel', bar: 250 });
  });

  test('no ratings at all are refused, not taken as no limit', () => {
    expect(() => lowestRating([])).toThrow(TradeRefusal);
  });

  test('a rating out of range is named by its place and part', () => {
    expect(() =>
      lowestRating([
        { part: 'pump', bar: 500 },
        { part: 'hose', bar: 0 },
      ]),
    ).toThrow(/ratings\[1\]\.bar is 0.*hose/);
  });
});

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

  test('hose sections add up in any order', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ boreMm: bore, lengthM: length }), { minLength: 1, maxLength: 6 }),
        (all) => {
          const apart = all.reduce((sum, one) => sum + hoseVolumeL([one]), 0);
          expect(hoseVolumeL(all)).toBeCloseTo(apart, 9);
          expect(hoseVolumeL([...all].reverse())).toBeCloseTo(apart, 9);
        },
      ),
      seed,
    );
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
