import { describe, expect, it } from 'vitest';
import { buildBriefing } from '../../src/briefing/build.ts';
import { crewDays } from './crew-days.ts';

describe.each(Object.entries(crewDays))('%s', (_name, { facts, says, never, figures, grades = {} }) => {
  const { cautions } = buildBriefing(facts, null);
  const ids = cautions.map(({ id }) => id);

  it('tells what it must, in order, and nothing of what it must not', () => {
    expect(ids.filter((id) => says.includes(id))).toEqual(says);
    expect(ids.filter((id) => never.includes(id))).toEqual([]);
  });

  it('gives its figures', () => {
    for (const [id, wanted] of figures) {
      const caution = cautions.find((one) => one.id === id);
      expect([caution?.params, ...(caution?.each ?? [])], id).toContainEqual(expect.objectContaining(wanted));
    }
    for (const [id, grade] of Object.entries(grades))
      expect(cautions.find((one) => one.id === id)?.grade, id).toBe(grade);
  });
});
