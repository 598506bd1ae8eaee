import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  heldSurfaceC,
  type RecoatInput,
  recoatReadingMinutes,
  recoatStateAt,
  recoatTable,
  recoatWindow,
} from '../../src/trade/recoat.ts';
import { TradeRefusal } from '../../src/trade/refusal.ts';
import { type SteelReading, steelSpans, thinnedSteel } from '../../src/trade/steel-history.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const COAT = Date.UTC(2026, 5, 8, 8, 0);
const seed = { seed: 11, numRuns: 400 };

/** Invented. */
const table = [
  { toC: 10, minHours: 16, maxHours: 96 },
  { toC: 20, minHours: 8, maxHours: 48 },
  { toC: 30, minHours: 4, maxHours: 24 },
  { toC: 40, minHours: 2, maxHours: 6 },
];
const h = (hours: number) => COAT + hours * HOUR;
const read = (hours: number, c: number): SteelReading => ({ at: h(hours), c });
const windowOf = (steel: readonly SteelReading[], more: Partial<RecoatInput> = {}) => {
  const window = recoatWindow({ table, firstAt: COAT, lastAt: COAT, steel, ...more });
  if (!window) throw new Error('this table has rows');
  return window;
};
const endOf = (steel: readonly SteelReading[]) => windowOf(steel).closes?.at ?? Number.POSITIVE_INFINITY;

describe('the end', () => {
  test('a warm hour closes it sooner, a warm moment does not', () => {
    expect(windowOf([read(0, 15)]).closes).toEqual({ at: h(48), heldC: 15, maxHours: 48 });
    expect(
      windowOf([read(0, 15), read(3, 15), read(3.5, 25), read(4, 15), read(4.1, 15)]).closes,
    ).toMatchObject({
      at: h(24),
      heldC: 25,
    });
    expect(windowOf([read(0, 15), read(3, 15), read(3.3, 25), read(3.6, 15)]).closes).toMatchObject({
      at: h(48),
      heldC: 15,
    });
  });

  test('between two readings far apart the warmer one counts for all of the time', () => {
    expect(windowOf([read(0, 15), read(15, 25), read(15.1, 15)]).closes?.at).toBe(h(24));
  });

  test('warm late: it closes when the hour is over, not before and not in the past', () => {
    const late = [read(0, 15), read(29.9, 15), read(30, 25)];
    // The last reading holds on. The five minutes before it count as warm as well.
    expect(windowOf(late).closes).toEqual({ at: h(30.9), heldC: 25, maxHours: 24 });
    expect(windowOf([...late, read(30.2, 15)]).closes).toEqual({ at: h(48), heldC: 15, maxHours: 48 });
  });

  test('hotter than the table: nothing is known from the hour on', () => {
    expect(windowOf([read(0, 15), read(1, 15), read(1.5, 45)]).closes).toEqual({
      at: h(2),
      heldC: 45,
      maxHours: null,
    });
  });

  test('a row without an end has none, and does not take back that of a colder row', () => {
    const open = [
      { toC: 10, minHours: 16 },
      { toC: 20, minHours: 8, maxHours: 48 },
      { toC: 30, minHours: 4 },
    ];
    const end = (c: number) => windowOf([read(0, c)], { table: open }).closes;
    expect(end(5)).toBeNull();
    expect(end(15)).toMatchObject({ maxHours: 48 });
    expect(end(25)).toMatchObject({ maxHours: 48 });
  });

  test('it counts from the first of the coat, the start from the last', () => {
    const window = windowOf([read(0, 15)], { lastAt: h(6) });
    expect(window.opensAt).toBe(h(14));
    expect(window.closes?.at).toBe(h(48));
  });

  test('an end under an hour does not wait for an hour of warmth', () => {
    const quick = [{ toC: 40, minHours: 0.1, maxHours: 0.5 }];
    expect(windowOf([read(0, 15)], { table: quick }).closes?.at).toBe(h(0.5));
  });
});

describe('the start', () => {
  test('is by the coldest until the wait is over', () => {
    expect(windowOf([read(0, 25)])).toMatchObject({ opensAt: h(4), minHours: 4, coldestC: 25 });
    expect(windowOf([read(0, 25), read(3, 15)])).toMatchObject({ opensAt: h(8), minHours: 8, coldestC: 15 });
    expect(windowOf([read(0, 25), read(3, 8), read(4, 25)])).toMatchObject({ opensAt: h(16), coldestC: 8 });
  });

  test('once over it stays over: a cold night after it changes nothing', () => {
    expect(windowOf([read(0, 25), read(5, 25), read(12, 3)]).opensAt).toBe(h(4));
  });

  test('between two readings far apart the colder one counts for all of the time', () => {
    expect(windowOf([read(0, 25), read(15, 8)]).opensAt).toBe(h(16));
  });
});

test('a reading before the coat holds until the next one', () => {
  expect(windowOf([read(-1, 25)])).toMatchObject({ opensAt: h(4), closes: { at: h(24) } });
  expect(windowOf([read(-9, 3), read(-1, 25), read(2, 25)]).opensAt).toBe(h(4));
});

test('without a reading: the longest wait and the earliest end of all rows', () => {
  expect(windowOf([])).toEqual({
    opensAt: h(16),
    minHours: 16,
    coldestC: null,
    closes: { at: h(6), heldC: null, maxHours: 6 },
  });
  expect(heldSurfaceC([], COAT, h(5))).toBeNull();
});

test('without a table there is no window', () => {
  expect(recoatWindow({ table: [], firstAt: COAT, lastAt: COAT, steel: [read(0, 20)] })).toBeNull();
});

test('in the first hour the highest so far counts as held', () => {
  const steel = [read(0, 15), read(0.4, 28), read(0.5, 12), read(5, 12)];
  expect(heldSurfaceC(steel, COAT, h(0))).toBe(15);
  expect(heldSurfaceC(steel, COAT, h(0.5))).toBe(28);
  expect(heldSurfaceC(steel, COAT, h(3))).toBe(12);
});

describe('states, the one that warns more first', () => {
  const window = windowOf([read(0, 15)]); // 8 to 48 h
  test.each([
    [7, 7.9, 'early'],
    [7, 12, 'early'],
    [8, 12, 'open'],
    [40, 48, 'closing'],
    [48, 50, 'closed'],
    [7, 60, 'closing'],
  ])('from %s to %s h: %s', (from, to, state) => {
    expect(recoatStateAt(window, h(from), h(to))).toBe(state);
  });

  test('no table, or hotter than it', () => {
    expect(recoatStateAt(null, h(1), h(2))).toBe('unknown');
    const hot = windowOf([read(0, 55)]);
    expect(recoatStateAt(hot, h(0.5), h(2))).toBe('closing');
    expect(recoatStateAt(hot, h(1), h(2))).toBe('unknown');
  });
});

const anySteel = fc.array(
  fc.record({
    at: fc.integer({ min: h(-3), max: h(120) }),
    c: fc.integer({ min: -50, max: 550 }).map((c) => c / 10),
  }),
  { minLength: 1, maxLength: 25 },
);
const anyTable = fc
  .tuple(
    fc.uniqueArray(fc.integer({ min: 0, max: 50 }), { minLength: 1, maxLength: 5 }),
    fc.array(fc.tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 200 })), {
      minLength: 5,
      maxLength: 5,
    }),
  )
  .map(([ends, hours]) => {
    const mins = hours.map(([min]) => min / 2).sort((x, y) => y - x);
    const longer = hours.map(([, more]) => more / 2).sort((x, y) => y - x);
    return [...ends]
      .sort((x, y) => x - y)
      .map((toC, i) => ({ toC, minHours: mins[i] ?? 0, maxHours: (mins[i] ?? 0) + (longer[i] ?? 0) }));
  });
const shifted = (steel: readonly SteelReading[], by: readonly number[], sign: 1 | -1) =>
  steel.map(({ at, c }, i) => ({ at, c: c + sign * (by[i] ?? 0) }));
const anyRise = fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 25, maxLength: 25 });
const given = (rows: typeof table, steel: readonly SteelReading[]) => windowOf(steel, { table: rows });
const closing = (rows: typeof table, steel: readonly SteelReading[]) =>
  given(rows, steel).closes?.at ?? Number.POSITIVE_INFINITY;

describe('whatever the history', () => {
  test('warmer never lengthens the maximum', () => {
    fc.assert(
      fc.property(anyTable, anySteel, anyRise, (rows, steel, rise) => {
        expect(closing(rows, shifted(steel, rise, 1))).toBeLessThanOrEqual(closing(rows, steel));
      }),
      seed,
    );
  });

  test('colder never shortens the minimum', () => {
    fc.assert(
      fc.property(anyTable, anySteel, anyRise, (rows, steel, fall) => {
        expect(given(rows, shifted(steel, fall, -1)).opensAt).toBeGreaterThanOrEqual(
          given(rows, steel).opensAt,
        );
      }),
      seed,
    );
  });

  test('a reading that equals what held there changes nothing', () => {
    fc.assert(
      fc.property(anyTable, anySteel, fc.integer({ min: 0, max: 150 }), (rows, steel, hours) => {
        const last = [...steel].sort((x, y) => x.at - y.at).at(-1);
        if (!last) throw new Error('there is one');
        const again = { at: Math.max(last.at, h(hours)), c: last.c };
        fc.pre(steel.filter(({ at }) => at === last.at).length === 1);
        expect(given(rows, [...steel, again])).toEqual(given(rows, steel));
      }),
      seed,
    );
  });

  test('split into pieces and in another order it gives the same', () => {
    fc.assert(
      fc.property(anyTable, anySteel, fc.nat(25), (rows, steel, cut) => {
        const whole = given(rows, steel);
        expect(given(rows, [...steel.slice(cut), ...steel.slice(0, cut)])).toEqual(whole);
        expect(given(rows, [...steel, ...steel])).toEqual(whole);
      }),
      seed,
    );
  });

  test('never earlier than the shortest wait, never later than the longest end, and whole milliseconds', () => {
    fc.assert(
      fc.property(anyTable, anySteel, (rows, steel) => {
        const window = given(rows, steel);
        const hours = (window.opensAt - COAT) / HOUR;
        expect(hours).toBeGreaterThanOrEqual(Math.min(...rows.map(({ minHours }) => minHours)));
        expect((closing(rows, steel) - COAT) / HOUR).toBeLessThanOrEqual(
          Math.max(
            1,
            ...rows.map(({ maxHours }) => maxHours),
            ...steel.map(({ at }) => (at - COAT) / HOUR + 1),
          ),
        );
        expect(Number.isInteger(window.opensAt) && Number.isInteger(window.closes?.at ?? 0)).toBe(true);
      }),
      seed,
    );
  });

  test('closed at the latest when the hours of the row of the highest held temperature are over', () => {
    fc.assert(
      fc.property(anySteel, fc.integer({ min: 1, max: 120 }), (steel, hours) => {
        const held = heldSurfaceC(steel, COAT, h(hours));
        fc.pre(held !== null && held <= 40);
        const row = table.find(({ toC }) => (held ?? 0) <= toC);
        // Once the row's hours are over, the coat counts as closed, at the latest.
        if (row && row.maxHours <= hours) expect(endOf(steel)).toBeLessThanOrEqual(h(hours));
      }),
      seed,
    );
  });
});

describe('a history to carry', () => {
  const dense = fc.array(
    fc.record({ at: fc.integer({ min: h(-1), max: h(200) }), c: fc.integer({ min: 0, max: 45 }) }),
    { minLength: 1, maxLength: 120 },
  );

  test('is short, never milder, and the same when it is thinned again', () => {
    fc.assert(
      fc.property(anyTable, dense, (rows, steel) => {
        const thin = thinnedSteel(steel, COAT);
        expect(thin.length).toBeLessThanOrEqual(Math.min(steel.length, 4 * (74 + 8)));
        expect(given(rows, thin).opensAt).toBeGreaterThanOrEqual(given(rows, steel).opensAt);
        expect(closing(rows, thin)).toBeLessThanOrEqual(closing(rows, steel));
        expect(thinnedSteel(thin, COAT)).toEqual(thin);
      }),
      seed,
    );
  });

  test('four readings in an hour stay; of five the warmest and the coldest', () => {
    const four = [0, 10, 20, 30].map((minutes) => read(minutes / 60, minutes));
    expect(thinnedSteel(four, COAT)).toEqual(four);
    expect(thinnedSteel([...four, read(0.75, 12)], COAT)).toEqual([
      read(0, 0),
      read(0, 30),
      read(0.75, 0),
      read(0.75, 30),
    ]);
  });

  test('a month of readings every ten minutes is four an hour for three days, then four a day', () => {
    const month = Array.from({ length: 30 * 24 * 6 }, (_, i) => read(i / 6, 10 + (i % 7)));
    expect(thinnedSteel(month, COAT)).toHaveLength(4 * 72 + 4 * 28);
  });
});

describe('what cannot be right is refused by name', () => {
  const row = { toC: 20, minHours: 8, maxHours: 48 };
  test.each([
    ['two rows of one temperature', [row, row], 'recoat'],
    ['an end before its start', [{ ...row, maxHours: 4 }], 'recoat[0].maxHours'],
    ['a warmer row that waits longer', [row, { toC: 30, minHours: 9, maxHours: 40 }], 'recoat'],
    ['a warmer row that closes later', [row, { toC: 30, minHours: 4, maxHours: 60 }], 'recoat'],
    ['no number', [{ ...row, minHours: Number.NaN }], 'recoat[0].minHours'],
    ['an infinity', [{ ...row, maxHours: Number.POSITIVE_INFINITY }], 'recoat[0].maxHours'],
  ])('%s', (_, rows, field) => {
    expect(() => recoatTable(rows)).toThrow(expect.objectContaining({ name: 'TradeRefusal', field }));
  });

  test('temperatures and moments', () => {
    const bad: readonly (() => unknown)[] = [
      () => windowOf([read(0, Number.NaN)]),
      () => windowOf([read(0, 121)]),
      () => windowOf([{ at: Number.NaN, c: 20 }]),
      () => windowOf([read(0, 20)], { lastAt: h(-1) }),
      () => heldSurfaceC([read(0, 20)], COAT, h(-1)),
      () => recoatReadingMinutes(Number.NaN),
      () => steelSpans([], Number.POSITIVE_INFINITY),
    ];
    for (const call of bad) expect(call).toThrow(TradeRefusal);
  });
});
