import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { feltHeat, heatBandOf, heatBands, heatIndexC, SUN_ADDS_C } from '../../src/trade/heat.ts';
import { TradeRefusal } from '../../src/trade/refusal.ts';
import {
  assessWbgt,
  COVERALLS_ADD_C,
  type Coveralls,
  wbgtLimits,
  wbgtShadeC,
  wbgtSunC,
} from '../../src/trade/wbgt.ts';

const seed = { seed: 7, numRuns: 1000 };
const air = fc.double({ min: 20, max: 50, noNaN: true });
const rh = fc.double({ min: 1, max: 100, noNaN: true });

/** Heat index for comparing: off the chart is hotter than anything on it. */
function index(airC: number, rhPct: number): number {
  const felt = feltHeat(airC, rhPct);
  return felt.kind === 'index' ? felt.indexC : felt.kind === 'cool' ? -100 : 1000;
}

// Where the formula changes over at 80 °F the NWS figure itself falls by up to 1.4 °C in dry air.
const STARTS_C = 26.67;

describe('heat index', () => {
  test('wetter air never feels cooler, except over the change of formula', () => {
    fc.assert(
      fc.property(air, rh, rh, (airC, one, other) => {
        const [drier, wetter] = one <= other ? [one, other] : [other, one];
        const before = index(airC, drier);
        const after = index(airC, wetter);
        return after >= before - 1e-9 || (before < STARTS_C && after > STARTS_C - 1.4);
      }),
      seed,
    );
  });

  test('warmer air never feels cooler, except over the change of formula', () => {
    fc.assert(
      fc.property(air, air, rh, (one, other, rhPct) => {
        const [cooler, warmer] = one <= other ? [one, other] : [other, one];
        const before = index(cooler, rhPct);
        const after = index(warmer, rhPct);
        return after >= before - 1e-9 || (before < STARTS_C && after > STARTS_C - 1.4);
      }),
      seed,
    );
  });

  test('it is refused off the chart and outside 20 to 50 °C, each time naming what is wrong', () => {
    expect(() => heatIndexC(45, 80)).toThrow(/off the chart.*extreme danger/);
    expect(() => heatIndexC(19.9, 50)).toThrow('from 20 to 50 °C');
    expect(() => heatIndexC(50.1, 10)).toThrow(TradeRefusal);
  });

  test('whatever the weather there is an answer, and hot beyond the chart is the worst band', () => {
    expect(feltHeat(5, 90)).toEqual({ kind: 'cool' });
    expect(feltHeat(19.99, 90)).toEqual({ kind: 'cool' });
    expect(feltHeat(20, 50)).toMatchObject({ kind: 'index', band: null });
    expect(feltHeat(45, 80)).toEqual({ kind: 'off-chart', band: 'extreme-danger' });
    expect(feltHeat(55, 5)).toEqual({ kind: 'off-chart', band: 'extreme-danger' });
    fc.assert(
      fc.property(fc.double({ min: -60, max: 60, noNaN: true }), rh, (airC, rhPct) => {
        const felt = feltHeat(airC, rhPct);
        return felt.kind !== 'index' || (felt.indexC <= 58.4 && Number.isFinite(felt.indexC));
      }),
      seed,
    );
  });
});

describe('bands', () => {
  test('a figure exactly where a band begins is in it', () => {
    const f = (value: number) => (value - 32) / 1.8;
    expect([79.99, 80, 89.99, 90, 102.99, 103, 124.99, 125].map((value) => heatBandOf(f(value)))).toEqual([
      null,
      'caution',
      'caution',
      'extreme-caution',
      'extreme-caution',
      'danger',
      'danger',
      'extreme-danger',
    ]);
  });

  test('hotter is never a milder band', () => {
    const rank = (c: number) => heatBands.indexOf(heatBandOf(c) ?? ('none' as never));
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 70, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        (c, more) => rank(c + more) >= rank(c),
      ),
      seed,
    );
  });

  test('full sun adds fifteen Fahrenheit degrees, not a temperature of fifteen', () => {
    expect(SUN_ADDS_C).toBeCloseTo(8.333, 3);
  });
});

const suits = Object.keys(COVERALLS_ADD_C) as Coveralls[];

describe('WBGT', () => {
  test('with every figure the same it is that figure, in sun and in shade', () => {
    fc.assert(
      fc.property(fc.double({ min: -10, max: 60, noNaN: true }), (c) => {
        expect(wbgtShadeC(c, c)).toBeCloseTo(c, 9);
        expect(wbgtSunC(c, c, c)).toBeCloseTo(c, 9);
      }),
      seed,
    );
  });

  test('harder work and denser coveralls are never milder', () => {
    const rank = { under: 0, 'over-new': 1, over: 2 } as const;
    const work = fc.double({ min: 117, max: 520, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: 0, max: 45, noNaN: true }), work, work, (c, one, other) => {
        const [light, hard] = one <= other ? [one, other] : [other, one];
        const states = suits.map((suit) => rank[assessWbgt(c, suit, light).state]);
        expect(states).toEqual([...states].sort());
        for (const suit of suits)
          expect(rank[assessWbgt(c, suit, hard).state]).toBeGreaterThanOrEqual(
            rank[assessWbgt(c, suit, light).state],
          );
      }),
      seed,
    );
  });

  test('at a limit is over it, and people new to heat come first', () => {
    const { usedC, newC } = wbgtLimits(300);
    expect(newC).toBeLessThan(usedC);
    expect(assessWbgt(usedC, 'woven', 300).state).toBe('over');
    expect(assessWbgt(newC, 'woven', 300).state).toBe('over-new');
    expect(assessWbgt(newC - 0.01, 'woven', 300).state).toBe('under');
    expect(assessWbgt(newC - 11, 'vapour-barrier', 300)).toMatchObject({ state: 'over-new', wornC: newC });
  });
});
