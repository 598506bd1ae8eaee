import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { TradeRefusal } from '../../src/trade/refusal.ts';
import { AHEAD_MS, APART_MS, TREND_WINDOW_MS, type TrendPoint, trendOf } from '../../src/trade/trend.ts';

const seed = { seed: 7, numRuns: 400 };
const MIN = 60_000;
const HOUR = 60 * MIN;
/** Readings by minute and value. */
const at = (...points: readonly (readonly [minute: number, value: number])[]): readonly TrendPoint[] =>
  points.map(([minute, value]) => ({ at: minute * MIN, value }));
const least3 = { least: 3 } as const;

describe('two readings', () => {
  test('the slope between them, carried on to the limit', () => {
    // 5.0 to 4.2 in an hour: 0.8 an hour; 1.2 left to 3.0 takes another hour and a half.
    expect(trendOf(at([0, 5], [60, 4.2]), least3)).toEqual({
      perHour: expect.closeTo(-0.8, 9),
      pairPerHour: expect.closeTo(-0.8, 9),
      linePerHour: expect.closeTo(-0.8, 9),
      goneAt: expect.closeTo(150 * MIN, -1),
      taken: at([0, 5], [60, 4.2]),
    });
  });

  test('humidity is held against its most in the same way', () => {
    const found = trendOf(at([0, 70], [60, 75]), { most: 85 });
    expect(found?.perHour).toBeCloseTo(5, 9);
    expect(found?.goneAt).toBe(3 * HOUR);
  });

  test('a figure that moves away from its limit or stands still is never gone', () => {
    expect(trendOf(at([0, 4], [60, 5]), least3)).toMatchObject({
      perHour: expect.closeTo(1, 9),
      goneAt: null,
    });
    expect(trendOf(at([0, 4], [60, 4]), least3)).toMatchObject({ perHour: 0, goneAt: null });
    expect(trendOf(at([0, 75], [60, 70]), { most: 85 })).toMatchObject({
      perHour: expect.closeTo(-5, 9),
      goneAt: null,
    });
  });

  test('nearer than ten minutes they are one reading', () => {
    expect(trendOf(at([0, 5], [9, 4]), least3)).toBeNull();
    expect(trendOf(at([0, 5], [10, 4]), least3)).toMatchObject({ taken: { length: 2 } });
    // The last one stands for both: 5.0 to 4.4 in twenty minutes.
    expect(trendOf(at([0, 5], [12, 1], [20, 4.4]), least3)?.perHour).toBeCloseTo(-1.8, 9);
  });

  test('further apart than the window they are two weathers', () => {
    const old = TREND_WINDOW_MS / MIN;
    expect(trendOf(at([0, 9], [old, 5]), least3)).toMatchObject({ taken: { length: 2 } });
    expect(trendOf(at([0, 9], [old + 1, 5]), least3)).toBeNull();
  });

  test('one reading or none is no trend', () => {
    expect(trendOf([], least3)).toBeNull();
    expect(trendOf(at([0, 5]), least3)).toBeNull();
  });
});

describe('how far it is believed', () => {
  test('up to four hours after the last reading, not a minute longer', () => {
    // One an hour: four hours from 7.0 to 3.0.
    expect(trendOf(at([0, 8], [60, 7]), least3)?.goneAt).toBe(HOUR + AHEAD_MS);
    expect(trendOf(at([0, 8.1], [60, 7.1]), least3)).toMatchObject({ goneAt: null });
  });

  test('on its limit and falling it is gone now; under it, it is no trend but a fact', () => {
    expect(trendOf(at([0, 4], [60, 3]), least3)?.goneAt).toBe(HOUR);
    expect(trendOf(at([0, 4], [60, 2.9]), least3)?.goneAt).toBeNull();
  });
});

describe('three and more readings: the faster of the last pair and of the line', () => {
  test('a fall that begins late is not averaged away', () => {
    // The line falls 0.9 an hour, the last pair 2.0.
    const found = trendOf(at([0, 6], [60, 6.2], [120, 4.2]), least3);
    expect(found?.perHour).toBeCloseTo(-2, 9);
    expect(found?.goneAt).toBeCloseTo(120 * MIN + 0.6 * HOUR, -1);
  });

  test('a last reading that happens to be higher does not call off a fall', () => {
    const found = trendOf(at([0, 8], [60, 6], [120, 4.5], [140, 4.6]), least3);
    // Least squares by hand: means 80 min and 5.775; sum of products −304, of squares 12 000: −1.52 an hour.
    expect(found?.perHour).toBeCloseTo(-1.52, 9);
    expect(found?.goneAt).toBeLessThan(140 * MIN + 1.1 * HOUR);
  });
});

const values = fc.double({ min: -5, max: 15, noNaN: true });
const minutes = fc.integer({ min: 0, max: 600 });
const readings = fc
  .array(fc.tuple(minutes, values), { minLength: 1, maxLength: 8 })
  .map((list) => at(...[...list].sort(([x], [y]) => x - y)));

/** Instants in order of danger: gone already, a time, not in sight. */
function goneOf(points: readonly TrendPoint[], least = 3): number {
  const last = points.at(-1)?.value ?? 0;
  if (last < least) return Number.NEGATIVE_INFINITY;
  return trendOf(points, { least })?.goneAt ?? Number.POSITIVE_INFINITY;
}

describe('always', () => {
  test('the same reading told twice changes nothing', () => {
    fc.assert(
      fc.property(readings, (points) => {
        const last = points.at(-1);
        if (last) expect(trendOf([...points, last], least3)).toEqual(trendOf(points, least3));
      }),
      seed,
    );
  });

  test('a lower last reading is never gone later', () => {
    fc.assert(
      fc.property(readings, fc.double({ min: 0, max: 5, noNaN: true }), (points, lower) => {
        const last = points.at(-1);
        if (!last) return true;
        const dropped = [...points.slice(0, -1), { at: last.at, value: last.value - lower }];
        return goneOf(dropped) <= goneOf(points) + 1;
      }),
      seed,
    );
  });

  test('a stricter limit is never met later', () => {
    fc.assert(
      fc.property(
        readings,
        fc.double({ min: 0, max: 5, noNaN: true }),
        (points, more) => goneOf(points, 3 + more) <= goneOf(points, 3) + 1,
      ),
      seed,
    );
  });

  test('what is gone is never before the last reading and never out of sight', () => {
    fc.assert(
      fc.property(readings, (points) => {
        const found = trendOf(points, least3);
        const last = points.at(-1)?.at ?? 0;
        if (found === null || found.goneAt === null) return true;
        return found.perHour < 0 && found.goneAt >= last - 1 && found.goneAt <= last + AHEAD_MS;
      }),
      seed,
    );
  });

  test('another time of day, another scale of degrees and a turned-over figure say the same', () => {
    fc.assert(
      fc.property(readings, fc.integer({ min: 0, max: 1e9 }), (points, shift) => {
        const found = trendOf(points, least3);
        const later = trendOf(
          points.map((point) => ({ ...point, at: point.at + shift })),
          least3,
        );
        // A margin in Fahrenheit degrees is 1.8 times the one in Celsius, and so is its limit.
        const scaled = trendOf(
          points.map((point) => ({ ...point, value: point.value * 1.8 })),
          { least: 5.4 },
        );
        const turned = trendOf(
          points.map((point) => ({ ...point, value: -point.value })),
          { most: -3 },
        );
        const sameTime = (one: number | null | undefined, other: number | null | undefined) => {
          if (typeof one !== 'number' || typeof other !== 'number') return one ?? other ?? null;
          return Math.abs(one - other) <= 5 ? null : [one, other];
        };
        const edge = found && nearlyUnsure(points, found.perHour);
        if (edge) return;
        expect(sameTime(found?.goneAt, later?.goneAt && later.goneAt - shift)).toBeNull();
        expect(sameTime(found?.goneAt, scaled?.goneAt)).toBeNull();
        expect(turned?.goneAt ?? null).toBe(found?.goneAt ?? null);
        expect(scaled?.perHour ?? 0).toBeCloseTo((found?.perHour ?? 0) * 1.8, 6);
        expect((turned?.perHour ?? 0) + (found?.perHour ?? 0)).toBeCloseTo(0, 9);
      }),
      seed,
    );
  });
});

/** At the very edges (limit, four hours, standing still) the last digit of a factor decides; those are not the question. */
function nearlyUnsure(points: readonly TrendPoint[], perHour: number): boolean {
  const left = (points.at(-1)?.value ?? 0) - 3;
  const ms = (left / -perHour) * HOUR;
  return Math.abs(left) < 1e-6 || Math.abs(perHour) < 1e-6 || Math.abs(ms - AHEAD_MS) < 100;
}

describe('refused', () => {
  test.each([
    ['a value that is no number', at([0, 5], [60, Number.NaN]), 'points[1].value'],
    ['readings out of order', at([60, 5], [0, 4]), 'points[1].at'],
    ['a time that is none', [{ at: Number.POSITIVE_INFINITY, value: 4 }], 'points[0].at'],
  ])('%s', (_name, points, field) => {
    expect(() => trendOf(points, least3)).toThrow(TradeRefusal);
    expect(() => trendOf(points, least3)).toThrow(field);
  });

  test('a limit that is no number', () => {
    expect(() => trendOf([], { least: Number.NaN })).toThrow('limit');
  });
});

test('the constants are what the documents say', () => {
  expect([TREND_WINDOW_MS / HOUR, APART_MS / MIN, AHEAD_MS / HOUR]).toEqual([5, 10, 4]);
});
