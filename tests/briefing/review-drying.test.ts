import { describe, expect, test } from 'vitest';
import { becauseCoating } from '../../src/briefing/because.ts';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import { fill, readWords } from './caution-md.ts';
import { factsOf, job, without, withSheet } from './days.ts';

const acrylic = factsOf({ jobs: [job({ coating: 'wall-acrylic' })] });
const look = (facts: DayFacts, id: string) =>
  buildBriefing(facts, null).cautions.find((caution) => caution.id === id);
const slow = [{ toC: 40, minHours: 8 }];

describe('a one-pack', () => {
  test('whose sheet gives neither pot life nor recoat time dries nobody knows how fast', () => {
    expect(look(acrylic, 'wash-pot')?.each).toMatchObject([{ coating: 'Wall acrylic', why: 'unknown' }]);
    expect(look(withSheet(acrylic, 'wall-acrylic', { recoat: slow }), 'wash-pot')).toBeUndefined();
  });

  test('with a pot life goes off like a two-pack: its leftovers heat up', () => {
    const moisture = withSheet(acrylic, 'wall-acrylic', { potLife: [{ c: 20, minutes: 240 }] });
    expect(look(acrylic, 'leftover-paint')).toBeUndefined();
    const caution = look(moisture, 'leftover-paint');
    expect(caution?.each).toEqual([{ coating: 'Wall acrylic' }]);
    expect(caution?.because).toEqual([becauseCoating('Wall acrylic', 'potLife.minutes', '240')]);
  });
});

describe('the wash pot of a paint that nobody knows to be slow', () => {
  const said = (facts: DayFacts) => {
    const [row] = look(facts, 'wash-pot')?.each ?? [];
    return fill(readWords('wash-pot').each ?? '', row ?? {});
  };

  test('names its solvent, which is known', () => expect(said(acrylic)).toContain('Clean water'));
  test('says to ask where no solvent is named', () =>
    expect(said(without(factsOf(), 'coatings'))).toMatch(/ask/i));
});
