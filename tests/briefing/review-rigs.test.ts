import { describe, expect, test } from 'vitest';
import { becauseDay, becauseRig } from '../../src/briefing/because.ts';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import type { Rig } from '../../src/model/rig.ts';
import { factsOf, job, withRig } from './days.ts';

const look = (facts: DayFacts, id: string) =>
  buildBriefing(facts, null).cautions.find((caution) => caution.id === id);

describe('a line with old film in it', () => {
  const ran = (solvent: string) =>
    look(factsOf({ left: { rigs: { 'rig-1': { coating: 'grey-epoxy', solvent } } } }), 'suction-and-siphon');

  test('is loosened by another solvent under the same paint', () => {
    expect(ran('Old thinner')?.each).toEqual([
      { rig: 'Rig 1', state: 'solvent', before: 'Old thinner', now: 'Solvent E' },
    ]);
  });

  test('is not by the same solvent, however it is spelt', () => {
    expect(ran('Solvent E')).toBeUndefined();
    expect(ran(' solvent e ')).toBeUndefined();
  });

  test('is not by the same paint where nobody wrote the solvent down', () => {
    expect(ran('')).toBeUndefined();
  });
});

describe('a pressure that nobody knows', () => {
  function withoutField(field: 'ratio' | 'maxFluidBar', rig: string, facts: DayFacts): DayFacts {
    const { [field]: _gone, ...rest } = facts.day.rigs[rig] as Rig;
    return { ...facts, day: { ...facts.day, rigs: { ...facts.day.rigs, [rig]: rest as Rig } } };
  }

  test('is blamed on the figure that is missing and on no other', () => {
    expect(look(withoutField('ratio', 'rig-1', factsOf()), 'hose-and-fittings')?.because).toEqual([
      becauseRig('Rig 1', 'ratio', null),
    ]);
    const electric = factsOf({ jobs: [job({ rig: 'rig-2' })] });
    const unplanned = { ...electric.day.entry.jobs[0], fluidBar: undefined };
    const facts = withoutField('maxFluidBar', 'rig-2', electric);
    const jobs = [unplanned] as DayFacts['day']['entry']['jobs'];
    const day = { ...facts.day, entry: { ...facts.day.entry, jobs } };
    expect(look({ ...facts, day }, 'hose-and-fittings')?.because).toEqual([
      becauseDay('jobs.fluidBar', null),
    ]);
  });

  test('does not hide a rating that is missing as well', () => {
    const unrated = withRig(factsOf(), 'rig-1', { ratings: [{ part: 'pump', bar: 350 }] });
    expect(look(withoutField('ratio', 'rig-1', unrated), 'hose-and-fittings')?.because).toEqual([
      becauseRig('Rig 1', 'ratings', 'pump 350'),
      becauseRig('Rig 1', 'ratio', null),
    ]);
  });
});

test('the order of two jobs with one coating changes nothing that is signed for', () => {
  const jobs = [job({ tip: '517' }), job({ tip: '421', area: 'Deck' })];
  const print = (given: typeof jobs) => {
    const caution = look(factsOf({ jobs: given }), 'tip-and-filters');
    return [caution?.fingerprint, caution?.because];
  };
  expect(print([...jobs].reverse())).toEqual(print(jobs));
});
