import { describe, expect, test } from 'vitest';
import { type Because, becauseCoating } from '../../src/briefing/because.ts';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { CoatingSheet } from '../../src/model/coating-sheet.ts';
import { siteCautionsSchema } from '../../src/model/site-cautions.ts';
import { factsOf, withSheet } from './days.ts';

/** Causes of a site's own caution that goes by one hazard code, on a day with a changed grey epoxy; null: silent. */
function causes(wanted: string, change: Partial<CoatingSheet>): readonly Because[] | null {
  const facts = withSheet(factsOf(), 'grey-epoxy', change);
  const cautions = siteCautionsSchema.parse({
    own: [{ id: 'site-air', grade: 'must', when: { hazards: [wanted] }, questions: [], edition: 'w1' }],
  });
  const { cautions: said } = buildBriefing({ ...facts, day: { ...facts.day, cautions } }, null);
  return said.find(({ id }) => id === 'site-air')?.because ?? null;
}

describe('a caution of the site that goes by a hazard code', () => {
  test('holds when a code of the sheet does not exist: it stood for one nobody knows', () => {
    expect(causes('H331', { hazards: ['H226', 'H317'] })).toBeNull();
    expect(causes('H331', { hazards: ['H226', 'H999'] })).toEqual([
      becauseCoating('Grey epoxy', 'hazards', 'H226, H999'),
    ]);
  });

  test.each(['EUH204', 'H334'])('takes isocyanate without a code for %s', (wanted) => {
    expect(causes(wanted, { isocyanate: true, hazards: ['H226'] })).toEqual([
      becauseCoating('Grey epoxy', 'isocyanate', true),
    ]);
    expect(causes('H331', { isocyanate: true, hazards: ['H226'] })).toBeNull();
  });

  test.each(['EUH204', 'H334'])('takes the doubt about isocyanate for %s', (wanted) => {
    expect(causes(wanted, { family: 'polyurethane', hazards: ['H226'] })).toEqual([
      becauseCoating('Grey epoxy', 'family', 'polyurethane'),
    ]);
    expect(causes(wanted, { hazards: ['H226', 'H334'] })).toEqual([
      becauseCoating('Grey epoxy', 'hazards', 'H334'),
    ]);
  });

  test('names the code it looks for rather than the isocyanate', () => {
    expect(causes('H334', { isocyanate: true, hazards: ['H226', 'H334'] })).toEqual([
      becauseCoating('Grey epoxy', 'hazards', 'H334'),
    ]);
  });
});
