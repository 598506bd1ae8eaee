import { describe, expect, test } from 'vitest';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import { strangeCodes } from '../../src/facts/hazard-codes.ts';
import type { CoatingSheet } from '../../src/model/coating-sheet.ts';
import { factsOf, job, withSheet } from './days.ts';

/** A water paint that neither burns nor harms by any code: what a test adds is all there is to say about it. */
const mild = factsOf({ jobs: [job({ coating: 'wall-acrylic' })] });
const coded = (...hazards: readonly string[]) => withSheet(mild, 'wall-acrylic', { hazards: [...hazards] });
const look = (facts: DayFacts, id: string) =>
  buildBriefing(facts, null).cautions.find((caution) => caution.id === id);

test('the plain day of these tests has nothing of all this', () => {
  expect(look(mild, 'breathing')?.each).toEqual([{ coating: 'Wall acrylic', basis: 'mist', codes: 'none' }]);
  for (const id of ['skin-and-eyes', 'ignition', 'not-known'])
    expect([id, look(mild, id)]).toEqual([id, undefined]);
});

/** EUH206, 207, 211 and 212: Regulation (EC) No 1272/2008, annex II, from memory. */
test.each(['EUH206', 'EUH207', 'EUH211', 'EUH212'])('%s is breathed', (code) => {
  expect(look(coded(code), 'breathing')?.each).toEqual([
    { coating: 'Wall acrylic', basis: 'code', codes: code },
  ]);
});

/** H320: UN GHS revision 9, chapter 3.3; EUH070 and EUH202: Regulation (EC) No 1272/2008, annex II; from memory. */
test.each(['H320', 'EUH070', 'EUH202'])('%s harms skin or eyes', (code) => {
  expect(look(coded(code), 'skin-and-eyes')?.each).toEqual([{ coating: 'Wall acrylic', codes: code }]);
});

/** Gases, aerosols, solids, self-reactive, pyrophoric, self-heating, gas from water: UN GHS revision 9, annex 3, from memory. */
const burning = ['H220', 'H223', 'H228', 'H240', 'H241', 'H242', 'H250', 'H251', 'H252', 'H260', 'H261'];
/** EUH019: Regulation (EC) No 1272/2008, annex II, from memory. */
test.each([...burning, 'EUH019'])('%s can burn', (code) => {
  const caution = look(coded(code), 'ignition');
  expect(caution?.each).toMatchObject([{ coating: 'Wall acrylic', basis: 'code', codes: code }]);
});

describe('what may hold isocyanate', () => {
  test.each<[string, Partial<CoatingSheet>, string]>([
    ['isocyanate', { isocyanate: true, hazards: ['H226'] }, 'isocyanate'],
    ['a polyurethane without it', { family: 'polyurethane', hazards: ['H226'] }, 'family'],
    ['H334 without it', { hazards: ['H226', 'H334'] }, 'hazards'],
  ])('is a danger for skin and eyes too: %s', (_what, change, field) => {
    const caution = look(withSheet(factsOf(), 'grey-epoxy', change), 'skin-and-eyes');
    expect(caution?.because).toEqual([expect.objectContaining({ of: 'Grey epoxy', field })]);
  });
});

describe('a letter behind a code', () => {
  test('is a slip, except where there are such codes', () => {
    const real = ['H340', 'H350i', 'H360FD', 'H361d', 'EUH201A', 'EUH209A'];
    expect(strangeCodes(real)).toEqual([]);
    const slips = ['H334A', 'H226b', 'H317x', 'H362F', 'EUH204A', 'EUH066B'];
    expect(strangeCodes(slips)).toEqual(slips);
  });

  test('hides neither the doubt about isocyanate nor the slip', () => {
    const caution = look(coded('H334A'), 'breathing');
    expect(caution?.params).toMatchObject({ air: 'fed', isocyanate: 'yes' });
    const gaps = look(coded('H334A'), 'not-known')?.each.map(({ gap }) => gap);
    expect(gaps).toEqual(['strange_code', 'isocyanate_by_h334']);
  });
});

describe('the flash point that is shown', () => {
  const thinned = (thinner: object) =>
    withSheet(factsOf({ jobs: [job({ thinnerPct: 10 })] }), 'grey-epoxy', {
      flashPointC: 58,
      thinner: { name: 'Solvent E', maxPercent: 10, ...thinner },
    });
  const row = (facts: DayFacts) => look(facts, 'ignition')?.each[0];

  test('is not that of the paint when nobody knows the thinner', () => {
    expect(row(thinned({}))).toMatchObject({ basis: 'unknown', flash: '-' });
  });

  test('is the lower one when both are known', () => {
    expect(row(thinned({ flashPointC: 25 }))).toMatchObject({ basis: 'thinned', flash: 25 });
    expect(row(thinned({ flashPointC: 70 }))).toMatchObject({ basis: 'flash', flash: 58 });
  });

  test('is that of the paint when water thins it, and when nothing does', () => {
    expect(row(thinned({ name: 'Water' }))).toMatchObject({ basis: 'flash', flash: 58 });
    const plain = withSheet(factsOf(), 'grey-epoxy', { flashPointC: 58 });
    expect(row(plain)).toMatchObject({ basis: 'flash', flash: 58 });
  });
});
