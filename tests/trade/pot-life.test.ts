import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkedPotLife, potLifeByQ10, potLifeMinutes } from '../../src/trade/pot-life.ts';
import { anyPaintC, anySheet } from './sheets.ts';

const seed = { seed: 7, numRuns: 300 };

const two = [
  { c: 15, minutes: 360 },
  { c: 30, minutes: 120 },
];

describe('where a figure comes from', () => {
  test('on a point', () => {
    expect(potLifeMinutes(two, 15)).toEqual({ minutes: 360, basis: 'point' });
    expect(potLifeMinutes(two, 30)).toEqual({ minutes: 120, basis: 'point' });
  });

  test('between points: straight in ln τ over 1/T, worked by hand', () => {
    const inverse = (c: number) => 1 / (c + 273.15);
    const share = (inverse(22) - inverse(15)) / (inverse(30) - inverse(15));
    const byHand = Math.exp(Math.log(360) + share * (Math.log(120) - Math.log(360)));
    const found = potLifeMinutes(two, 22);
    expect(found.basis).toBe('between');
    expect(found.minutes).toBeCloseTo(byHand, 9);
    expect(found.minutes).toBeCloseTo(212.62, 2);
  });

  test('warmer, where the sheet falls faster than by half: the fitted line governs', () => {
    const steep = [
      { c: 20, minutes: 300 },
      { c: 30, minutes: 100 },
    ];
    const found = potLifeMinutes(steep, 40);
    expect(found.basis).toBe('warmer');
    expect(found.minutes).toBeLessThan(50);
    expect(found.minutes).toBeGreaterThan(100 / 3);
  });

  test('warmer, where the sheet falls slower than by half: halving governs', () => {
    const flat = [
      { c: 20, minutes: 120 },
      { c: 30, minutes: 120 },
    ];
    expect(potLifeMinutes(flat, 40)).toEqual({ minutes: 60, basis: 'warmer' });
  });

  test('one point only, at 20 °C: 2.6 times faster per 10 °C is the early bound, 1.7 the late one', () => {
    const found = potLifeMinutes([{ c: 20, minutes: 260 }], 30);
    expect(found.basis).toBe('one-point');
    expect(found.minutes).toBeCloseTo(100, 9);
    expect(found.lateMinutes).toBeCloseTo(260 / 1.7, 9);
  });

  test('one point only, well below 20 °C: 70 kJ/mol is shorter than 2.6 per 10 °C, and counts', () => {
    const found = potLifeMinutes([{ c: 5, minutes: 600 }], 15);
    // 70 kJ/mol from 5 to 15 °C by hand: 70 000 / 8.314 × (1/278.15 − 1/288.15) = 1.0505, e^1.0505 = 2.859.
    expect(found.minutes).toBeCloseTo(600 / 2.859, 0);
    expect(found.minutes).toBeLessThan(600 / 2.6);
  });

  test('one point only, at its temperature and colder: its own figure, and no late bound', () => {
    expect(potLifeMinutes([{ c: 20, minutes: 260 }], 20)).toEqual({ minutes: 260, basis: 'point' });
    expect(potLifeMinutes([{ c: 20, minutes: 260 }], 12)).toEqual({ minutes: 260, basis: 'colder-held' });
  });

  test('colder than the coldest point: its figure, no credit, and it says so', () => {
    expect(potLifeMinutes(two, 14.9)).toEqual({ minutes: 360, basis: 'colder-held' });
    expect(potLifeMinutes(two, -20)).toEqual({ minutes: 360, basis: 'colder-held' });
  });

  test('the order of the lines does not matter, and the list given is left as it was', () => {
    const reversed = Object.freeze([...two].reverse());
    expect(potLifeMinutes(reversed, 22)).toEqual(potLifeMinutes(two, 22));
    expect(reversed[0]?.c).toBe(30);
  });
});

describe('for every sheet', () => {
  test('warmer never lengthens', () => {
    fc.assert(
      fc.property(anySheet, anyPaintC, anyPaintC, (sheet, x, y) => {
        const [colder, warmer] = x <= y ? [x, y] : [y, x];
        const slack = 1 + 1e-12;
        expect(potLifeMinutes(sheet, warmer).minutes).toBeLessThanOrEqual(
          potLifeMinutes(sheet, colder).minutes * slack,
        );
      }),
      seed,
    );
  });

  test('it is continuous at the points of the sheet, and exact on them', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        for (const point of sheet) {
          expect(potLifeMinutes(sheet, point.c)).toEqual({ minutes: point.minutes, basis: 'point' });
          for (const c of [point.c - 1e-6, point.c + 1e-6])
            expect(Math.abs(potLifeMinutes(sheet, c).minutes / point.minutes - 1)).toBeLessThan(1e-5);
        }
      }),
      seed,
    );
  });

  test('it is never longer than the coldest point, nor than halving beyond the warmest', () => {
    fc.assert(
      fc.property(anySheet, anyPaintC, (sheet, c) => {
        const coldest = sheet[0] ?? { c: 0, minutes: 0 };
        const warmest = sheet[sheet.length - 1] ?? coldest;
        const found = potLifeMinutes(sheet, c).minutes;
        expect(found).toBeLessThanOrEqual(coldest.minutes);
        if (c > warmest.c)
          expect(found).toBeLessThanOrEqual(potLifeByQ10(warmest.minutes, warmest.c, c) * (1 + 1e-12));
      }),
      seed,
    );
  });

  test('a shorter figure at any point never lengthens the pot life between the points', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 360 }),
        fc.double({ min: 15, max: 30, noNaN: true }),
        (shorter, c) => {
          const sheet = [
            { c: 15, minutes: 360 },
            { c: 30, minutes: Math.min(120, shorter) },
          ];
          expect(potLifeMinutes(sheet, c).minutes).toBeLessThanOrEqual(
            potLifeMinutes(two, c).minutes * (1 + 1e-12),
          );
        },
      ),
      seed,
    );
  });
});

describe('sheets that are refused', () => {
  test.each([
    { name: 'empty', sheet: [], field: 'points', says: /at least one/ },
    {
      name: 'not positive',
      sheet: [{ c: 20, minutes: 0 }],
      field: 'points[0].minutes',
      says: /from 1 to 10080 min/,
    },
    { name: 'negative', sheet: [{ c: 20, minutes: -5 }], field: 'points[0].minutes', says: /data sheet/ },
    { name: 'too hot', sheet: [{ c: 280, minutes: 60 }], field: 'points[0].c', says: /-40 to 80 °C/ },
    {
      name: 'two lines for one temperature',
      sheet: [
        { c: 20, minutes: 60 },
        { c: 20, minutes: 50 },
      ],
      field: 'points',
      says: /two lines for 20 °C/,
    },
    {
      name: 'longer when warmer',
      sheet: [
        { c: 30, minutes: 200 },
        { c: 20, minutes: 60 },
      ],
      field: 'points',
      says: /no longer at 30 °C than the 60 min at 20 °C/,
    },
    {
      name: 'a fall no coating has, such as minutes copied as hours',
      sheet: [
        { c: 20, minutes: 480 },
        { c: 30, minutes: 4 },
      ],
      field: 'points',
      says: /20 times faster/,
    },
  ])('$name', ({ sheet, field, says }) => {
    const call = () => checkedPotLife(sheet);
    expect(call).toThrow(expect.objectContaining({ name: 'TradeRefusal', field }));
    expect(call).toThrow(says);
  });

  test('equal figures at two temperatures are a sheet, not a mistake', () => {
    const sheet = [
      { c: 10, minutes: 60 },
      { c: 20, minutes: 60 },
    ];
    expect(potLifeMinutes(sheet, 15).minutes).toBe(60);
  });
});
