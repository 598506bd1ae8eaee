import { describe, expect, it } from 'vitest';
import { buildBriefing } from '../../src/briefing/build.ts';
import { strangeCodes } from '../../src/facts/hazard-codes.ts';
import { dayPlan } from '../../src/facts/plan.ts';
import type { CoatingSheet } from '../../src/model/coating-sheet.ts';
import { fill, readWords } from './caution-md.ts';
import { factsOf, job, withRig, withSheet } from './days.ts';

/** One job with a sheet that lacks something or contradicts itself. */
function briefed(change: Partial<CoatingSheet>, coating = 'grey-epoxy') {
  const facts = withSheet(factsOf({ jobs: [job({ coating })] }), coating, change);
  const { cautions } = buildBriefing(facts, null);
  const of = (id: string) => cautions.find((one) => one.id === id);
  const rows = (id: string) => (of(id)?.each ?? []).map((row) => fill(readWords(id).each ?? '', row));
  return { facts, of, rows };
}

describe('a two-pack without pot life', () => {
  const { facts, of, rows } = briefed({ potLife: undefined });

  it('is briefed: said plainly, and a stop', () => {
    expect(rows('not-known')).toEqual(['Grey epoxy: pot life missing']);
    expect(rows('pot-life')).toEqual(['Grey epoxy on Rig 1: pot life not known. Do not mix']);
    expect(of('pot-life')?.grade).toBe('stop');
    expect(of('not-known')?.because).toEqual([
      { from: 'coating', of: 'Grey epoxy', field: 'potLife', value: null },
    ]);
  });

  it('counts as drying in the tip', () => {
    expect(of('wash-pot')?.each).toMatchObject([{ why: 'unknown' }]);
  });

  it('is not planned: the plan says that no batch lasts', () => {
    const [rig] = dayPlan(facts.day, null);
    if (!rig || !('plan' in rig)) throw new Error('rig 1 is not planned');
    expect(rig.plan?.batches).toEqual([]);
  });
});

describe('hazard codes', () => {
  it('a code that does not exist makes the coating one of unknown harm', () => {
    const { of, rows } = briefed({ hazards: ['H412', 'H999'] });
    expect(rows('not-known')).toContain('Grey epoxy: H999, there is no such code');
    expect(of('breathing')?.params).toMatchObject({ air: 'fed' });
    expect(of('skin-and-eyes')?.each).toEqual([{ coating: 'Grey epoxy', codes: 'none' }]);
  });

  it('without the slip the same sheet is what its code says', () => {
    const { of } = briefed({ hazards: ['H412'], flashPointC: 150 });
    expect(of('breathing')?.params).toMatchObject({ air: 'sheet' });
    expect(of('skin-and-eyes')).toBeUndefined();
    expect(of('not-known')).toBeUndefined();
  });

  it.each([
    [
      'EUH204 beside no isocyanate',
      { hazards: ['H226', 'EUH204'] },
      'EUH204 means isocyanate, the entry says none',
    ],
    [
      'H334 beside no isocyanate',
      { hazards: ['H226', 'H334'] },
      'H334 as with isocyanate, entered as free of it',
    ],
    [
      'a polyurethane beside no isocyanate',
      { hazards: ['H226'], family: 'polyurethane' as const },
      'a polyurethane, entered as free of isocyanate',
    ],
    [
      'isocyanate without its codes',
      { hazards: ['H226'], isocyanate: true },
      'isocyanate, but neither H334 nor EUH204',
    ],
  ])('%s is said and counts as isocyanate', (_what, change, words) => {
    const { of, rows } = briefed(change);
    expect(rows('not-known')).toEqual([`Grey epoxy: ${words}`]);
    expect(of('breathing')?.params).toEqual({ air: 'fed', isocyanate: 'yes' });
  });

  it('no codes at all, and a low flash point without its code', () => {
    expect(briefed({ hazards: [] }).rows('not-known')).toEqual(['Grey epoxy: hazard codes missing']);
    const { of, rows } = briefed({ hazards: ['H317'] });
    expect(rows('not-known')).toEqual(['Grey epoxy: a flash point that burns, but no code for it']);
    expect(of('ignition')).toBeDefined();
  });

  it('a sheet that agrees with itself says nothing', () => {
    expect(briefed({}).of('not-known')).toBeUndefined();
    expect(briefed({}, 'white-urethane').of('not-known')).toBeUndefined();
  });

  // UN GHS revision 9, annex 3, and Regulation (EC) No 1272/2008, annexes II and III: some of each, from memory.
  it('knows what exists, letters after the number included', () => {
    expect(
      strangeCodes(['H226', 'H302', 'H334', 'H350i', 'H360FD', 'H420', 'EUH066', 'EUH204', 'EUH209A']),
    ).toEqual([]);
    expect(strangeCodes(['H199', 'H233', 'H321', 'H421', 'H999', 'EUH001', 'EUH226'])).toHaveLength(7);
  });
});

describe('a rig without a hose rating', () => {
  it('is a stop that names the hose', () => {
    const facts = withRig(factsOf(), 'rig-1', { ratings: [{ part: 'gun', bar: 345 }] });
    const caution = buildBriefing(facts, null).cautions.find(({ id }) => id === 'hose-and-fittings');
    expect(caution?.grade).toBe('stop');
    expect(caution?.each).toContainEqual(
      expect.objectContaining({ rig: 'Rig 1', problem: 'rating_unknown', part: 'hose' }),
    );
  });
});
