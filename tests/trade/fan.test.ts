import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fanWear } from '../../src/trade/fan.ts';
import { TradeRefusal } from '../../src/trade/refusal.ts';

const fan = { widthMm: 240, codeMm: 254, before: [], wornPct: 25 };

test('the first fan is held against the code, 254 mm for 517', () => {
  expect(fanWear(fan)).toMatchObject({ against: { what: 'code', mm: 254 }, worn: false });
  expect(fanWear(fan).narrowerPct).toBeCloseTo(5.512, 3);
  expect(fanWear({ ...fan, widthMm: 191 }).worn).toBe(false);
  expect(fanWear({ ...fan, widthMm: 190 }).worn).toBe(true);
});

test('a quarter narrower to the millimetre is worn', () => {
  expect(fanWear({ ...fan, codeMm: 200, widthMm: 150 })).toMatchObject({ narrowerPct: 25, worn: true });
  expect(fanWear({ ...fan, codeMm: 200, widthMm: 151 }).worn).toBe(false);
});

test('a wider fan before is what it is held against, wherever it stands', () => {
  const worn = { what: 'before', mm: 300 };
  expect(fanWear({ ...fan, widthMm: 220, before: [300, 260] })).toMatchObject({ against: worn, worn: true });
  expect(fanWear({ ...fan, widthMm: 220, before: [260, 300] })).toMatchObject({ against: worn, worn: true });
});

test('a tip that was worn at the first fan already does not pass at the next', () => {
  expect(fanWear({ ...fan, widthMm: 189, before: [190] })).toMatchObject({ worn: true });
});

test('a code that says nothing and no fan before: nothing is known, and nothing said', () => {
  expect(fanWear({ ...fan, codeMm: null })).toEqual({ against: null, narrowerPct: 0, worn: false });
  expect(fanWear({ ...fan, codeMm: null, before: [330] })).toMatchObject({
    against: { mm: 330 },
    worn: true,
  });
});

test('wider than new is not narrower by less than nothing', () => {
  expect(fanWear({ ...fan, widthMm: 300 }).narrowerPct).toBe(0);
});

test('a narrower fan is never less worn', () => {
  const mm = fc.double({ min: 10, max: 1500, noNaN: true });
  fc.assert(
    fc.property(mm, mm, mm, (one, other, before) => {
      const [narrow, wide] = one < other ? [one, other] : [other, one];
      const at = (widthMm: number) => fanWear({ ...fan, widthMm, before: [before] });
      expect(at(narrow).narrowerPct).toBeGreaterThanOrEqual(at(wide).narrowerPct);
      expect(at(narrow).worn || !at(wide).worn).toBe(true);
    }),
    { seed: 7 },
  );
});

test.each([{ widthMm: 5 }, { widthMm: Number.NaN }, { codeMm: 0 }, { before: [9000] }, { wornPct: 0 }])(
  'refuses %j',
  (change) => {
    expect(() => fanWear({ ...fan, ...change })).toThrow(TradeRefusal);
  },
);
