import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { assessClimate, dewPointC, rhFromWetBulb } from '../../src/trade/climate.ts';
import { TradeRefusal } from '../../src/trade/refusal.ts';

const seed = { seed: 7 };
const air = fc.double({ min: -40, max: 60, noNaN: true });
const rh = fc.double({ min: 1, max: 100, noNaN: true });

describe('dew point', () => {
  test('is never above the air and equals it at 100 %', () => {
    fc.assert(
      fc.property(air, rh, (airC, rhPct) => dewPointC(airC, rhPct) <= airC + 1e-9),
      seed,
    );
    fc.assert(
      fc.property(air, (airC) => Math.abs(dewPointC(airC, 100) - airC) < 1e-9),
      seed,
    );
  });

  test('rises with humidity', () => {
    fc.assert(
      fc.property(air, rh, rh, (airC, one, other) =>
        one <= other ? dewPointC(airC, one) <= dewPointC(airC, other) : true,
      ),
      seed,
    );
  });
});

describe('wet bulb', () => {
  test('a wet bulb at the dry bulb is 100 %, and drier air has a colder one', () => {
    expect(rhFromWetBulb(20, 20)).toBe(100);
    const wetBelowDry = fc.double({ min: 0, max: 60, noNaN: true });
    fc.assert(
      fc.property(wetBelowDry, wetBelowDry, wetBelowDry, (x, y, z) => {
        const [low = 0, mid = 0, dry = 0] = [x, y, z].sort((p, q) => p - q);
        const drier = readOrRefused(() => rhFromWetBulb(dry, low));
        const wetter = readOrRefused(() => rhFromWetBulb(dry, mid));
        return drier === undefined || (wetter !== undefined && drier <= wetter + 1e-9);
      }),
      seed,
    );
  });

  test.each([
    { dry: 20, wet: 21, field: 'wetC', says: 'never warmer' },
    { dry: 5, wet: -1, field: 'wetC', says: 'ice' },
    { dry: -3, wet: -4, field: 'airC', says: 'ice' },
    { dry: 45, wet: 5, field: 'wetC', says: 'wet the wick' },
  ])('$dry °C dry and $wet °C wet are refused', ({ dry, wet, field, says }) => {
    const refused = refusal(() => rhFromWetBulb(dry, wet));
    expect(refused.field).toBe(field);
    expect(refused.why).toContain(says);
  });
});

describe('limits', () => {
  const wet = { airC: 4, rhPct: 90, steelC: 3 };
  const hot = { airC: 45, rhPct: 20, steelC: 60 };
  const all = {
    marginMinC: 3,
    rhMaxPct: 85,
    rhMinPct: 30,
    steelMinC: 5,
    steelMaxC: 50,
    airMinC: 5,
    airMaxC: 40,
  };

  test('every missed limit is named with its value and what was allowed', () => {
    const { failures, dewPointC: dewPoint, marginC } = assessClimate(wet, all);
    expect(marginC).toBe(3 - dewPoint);
    expect(failures).toEqual([
      { limit: 'margin', value: marginC, allowed: 3 },
      { limit: 'rh-max', value: 90, allowed: 85 },
      { limit: 'steel-min', value: 3, allowed: 5 },
      { limit: 'air-min', value: 4, allowed: 5 },
    ]);
    expect(assessClimate(hot, all).failures).toEqual([
      { limit: 'rh-min', value: 20, allowed: 30 },
      { limit: 'steel-max', value: 60, allowed: 50 },
      { limit: 'air-max', value: 45, allowed: 40 },
    ]);
  });

  test('a limit that is not given is not checked', () => {
    const few = { marginMinC: 3, rhMaxPct: 85, rhMinPct: undefined, steelMaxC: undefined };
    expect(assessClimate(hot, few).failures).toEqual([]);
  });

  test('a reading exactly on its limits meets them', () => {
    const reading = { airC: 20, rhPct: 50, steelC: 20 };
    const margin = 20 - dewPointC(20, 50);
    const exact = {
      marginMinC: margin,
      rhMaxPct: 50,
      rhMinPct: 50,
      steelMinC: 20,
      steelMaxC: 20,
      airMinC: 20,
      airMaxC: 20,
    };
    expect(assessClimate(reading, exact).failures).toEqual([]);
  });

  test('steel below the dew point has a negative margin', () => {
    expect(assessClimate({ airC: 25, rhPct: 80, steelC: 15 }, all).marginC).toBeLessThan(0);
  });

  test.each([
    { rhMinPct: 90, field: 'limits.rhMinPct' },
    { steelMinC: 60, field: 'limits.steelMinC' },
    { airMinC: 45, field: 'limits.airMinC' },
  ])('a minimum above its maximum is refused: $field', ({ field, ...change }) => {
    expect(refusal(() => assessClimate(wet, { ...all, ...change })).field).toBe(field);
  });
});

function refusal(call: () => unknown): TradeRefusal {
  try {
    call();
  } catch (error) {
    if (error instanceof TradeRefusal) return error;
    throw error;
  }
  throw new Error('nothing was refused');
}

function readOrRefused(call: () => number): number | undefined {
  try {
    return call();
  } catch (error) {
    if (error instanceof TradeRefusal) return undefined;
    throw error;
  }
}
