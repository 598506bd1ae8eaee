import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildBriefing, needsToSign } from '../../src/briefing/build.ts';
import { factsOf, job } from './days.ts';
import { everyDay } from './every-day.ts';

const idsOf = (cautions: readonly { readonly id: string }[]) => cautions.map(({ id }) => id);
const signedAll = (briefing: ReturnType<typeof buildBriefing>) =>
  Object.fromEntries(briefing.cautions.map(({ id, fingerprint }) => [id, fingerprint]));

describe('buildBriefing', () => {
  it('starts at revision 1 with everything changed and the crew to sign', () => {
    const facts = factsOf();
    const briefing = buildBriefing(facts, null);
    expect(briefing.revision).toBe(1);
    expect(briefing.changed).toEqual(idsOf(briefing.cautions));
    expect(briefing.mustSign).toEqual(facts.day.crew);
  });

  it('is the same for the same day', () => {
    for (const facts of everyDay()) expect(buildBriefing(facts, null)).toEqual(buildBriefing(facts, null));
  });

  it('survives being stored as JSON, so that the journal replays to it', () => {
    for (const facts of everyDay()) {
      const briefing = buildBriefing(facts, null);
      expect(JSON.parse(JSON.stringify(briefing))).toStrictEqual(briefing);
    }
  });

  it('puts stop before must before watch', () => {
    const rank = { stop: 0, must: 1, watch: 2 };
    for (const facts of everyDay()) {
      const grades = buildBriefing(facts, null).cautions.map(({ grade }) => rank[grade]);
      expect(grades).toEqual([...grades].sort());
    }
  });

  it('does not look at the order in which the jobs were entered', () => {
    const jobs = [
      job(),
      job({ rig: 'rig-2', coating: 'white-urethane', area: 'Deck' }),
      job({ coating: 'zinc-silicate', area: 'Bow' }),
    ];
    const weather = { airC: 12, rhPct: 83 };
    const forward = buildBriefing(factsOf({ jobs, weather }), null);
    const backward = buildBriefing(factsOf({ jobs: [...jobs].reverse(), weather }), forward);
    expect(forward.cautions.length).toBeGreaterThan(8);
    expect(backward.changed).toEqual([]);
  });
});

describe('a new revision', () => {
  const first = buildBriefing(factsOf(), null);

  it('has nothing changed when the day says the same', () => {
    const second = buildBriefing(factsOf({ entry: { notes: 'bring the ladder' } }), first);
    expect(second.revision).toBe(2);
    expect(second.changed).toEqual([]);
    expect(needsToSign(second, signedAll(first))).toEqual([]);
  });

  it('asks again only for what a new pressure changes', () => {
    const second = buildBriefing(factsOf({ jobs: [job({ airBar: 5.4 })] }), first);
    expect(second.changed).toEqual(['injection']);
    expect(idsOf(needsToSign(second, signedAll(first)))).toEqual(['injection']);
  });

  it('asks for a caution that was not there before', () => {
    const second = buildBriefing(factsOf({ weather: { airC: 18, steelC: 11.5 } }), first);
    expect(second.changed).toEqual(['weather']);
    expect(idsOf(first.cautions)).not.toContain('weather');
  });

  it('lets a caution go without asking anybody', () => {
    const wet = buildBriefing(factsOf({ weather: { rhPct: 90 } }), null);
    const dry = buildBriefing(factsOf(), wet);
    expect(idsOf(wet.cautions)).toContain('weather');
    expect(idsOf(dry.cautions)).not.toContain('weather');
    expect(dry.changed).toEqual([]);
  });

  it('does not ask again for a change that nobody can read', () => {
    // 18.04 °C is read as 18 °C, and no pot life changes by a minute; 55 to 57 % humidity is not told at all.
    const second = buildBriefing(factsOf({ weather: { airC: 18.004, rhPct: 57 } }), first);
    expect(second.changed).toEqual([]);
  });

  it('asks again when a change comes back', () => {
    const second = buildBriefing(factsOf({ jobs: [job({ airBar: 6 })] }), first);
    const third = buildBriefing(factsOf(), second);
    expect(third.revision).toBe(3);
    expect(third.changed).toEqual(['injection']);
    // Who signed the first revision and not the second has signed exactly what the third says.
    expect(needsToSign(third, signedAll(first))).toEqual([]);
    expect(idsOf(needsToSign(third, signedAll(second)))).toEqual(['injection']);
  });

  it('asks for everything when nothing was signed, and for a wrong fingerprint', () => {
    expect(needsToSign(first, {})).toEqual(first.cautions);
    expect(idsOf(needsToSign(first, { ...signedAll(first), flush: 'old' }))).toEqual(['flush']);
  });

  it('changed and needsToSign agree for a person who signed the revision before', () => {
    fc.assert(
      fc.property(
        fc.record({ airC: fc.integer({ min: -10, max: 40 }), rhPct: fc.integer({ min: 20, max: 100 }) }),
        fc.record({ airC: fc.integer({ min: -10, max: 40 }), rhPct: fc.integer({ min: 20, max: 100 }) }),
        (one, two) => {
          const before = buildBriefing(factsOf({ weather: one }), null);
          const after = buildBriefing(factsOf({ weather: two }), before);
          expect(idsOf(needsToSign(after, signedAll(before)))).toEqual(after.changed);
        },
      ),
      { numRuns: 60 },
    );
  });
});
