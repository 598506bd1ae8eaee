import { describe, expect, it } from 'vitest';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import { solventPerHour } from '../../src/facts/paint-per-hour.ts';
import { dayVapour, solventLoadLPerHour } from '../../src/facts/vapour.ts';
import type { DayEntryInput } from '../../src/model/day-entry.ts';
import { commonSolvents } from '../../src/trade/solvents.ts';
import { vapourPct } from '../../src/trade/vapour.ts';
import { fill, readWords } from './caution-md.ts';
import { factsOf, job, without, withSheet } from './days.ts';

const find = (facts: DayFacts, id: string) =>
  buildBriefing(facts, null).cautions.find((one) => one.id === id) ?? null;
const said = (facts: DayFacts) => {
  const caution = find(facts, 'vapour');
  if (!caution) throw new Error('no vapour caution');
  const words = readWords('vapour');
  return {
    caution,
    why: fill(words.why, caution.params),
    rows: caution.each.map((row) => fill(words.each ?? '', row)),
    steps: words.steps.map((step) => fill(step, caution.params)),
  };
};

/** A tip that no code is known of: the mean of the day is all there is to go by. */
const noTip = (facts: DayFacts) => withSheet(facts, 'grey-epoxy', { tip: 'worn' });
const data = { lelPct: 1, vapourDensity: 3.7, densityKgPerL: 0.87 };
const inTank = (space?: DayEntryInput['space'], jobs = [job()]) =>
  factsOf({ entry: { surroundings: 'confined', ...(space ? { space } : {}) }, jobs });
const withData = (facts: DayFacts) =>
  withSheet(facts, 'grey-epoxy', { vapour: { paint: data, thinner: data, flush: data } });
const load = ({ day }: DayFacts) => solventLoadLPerHour(day) ?? Number.NaN;

describe('where it is said', () => {
  it('is a stop in a confined space and in an enclosed one, and nothing in the open', () => {
    const grade = (surroundings: 'open-air' | 'enclosed' | 'confined') =>
      find(factsOf({ entry: { surroundings } }), 'vapour')?.grade ?? null;
    expect(['open-air', 'enclosed', 'confined'].map((place) => grade(place as 'enclosed'))).toEqual([
      null,
      'stop',
      'stop',
    ]);
  });

  it('has to be signed again when the place becomes a confined one, although no figure changes', () => {
    const space = { volumeM3: 900, airM3PerMin: 4000 };
    const inside = (surroundings: 'enclosed' | 'confined') => factsOf({ entry: { surroundings, space } });
    const enclosed = buildBriefing(inside('enclosed'), null);
    const confined = buildBriefing(inside('confined'), enclosed);
    expect(find(inside('enclosed'), 'vapour')?.params).toEqual(find(inside('confined'), 'vapour')?.params);
    expect(confined.changed).toContain('vapour');
  });

  it('is a must in an enclosed place only where the air planned is enough on paper', () => {
    const grade = (airM3PerMin?: number) => {
      const space = airM3PerMin === undefined ? {} : { space: { volumeM3: 900, airM3PerMin } };
      const facts = factsOf({ entry: { surroundings: 'enclosed', ...space } });
      return [find(facts, 'vapour')?.params.given, find(facts, 'vapour')?.grade];
    };
    expect(grade()).toEqual(['unknown', 'stop']);
    expect(grade(0)).toEqual(['none', 'stop']);
    expect(grade(5)).toEqual(['short', 'stop']);
    expect(grade(4000)).toEqual(['enough', 'must']);
    const untold = without(
      factsOf({ entry: { surroundings: 'enclosed', space: { volumeM3: 9, airM3PerMin: 4000 } } }),
      'coatings',
    );
    expect(find(untold, 'vapour')).toMatchObject({ grade: 'stop', params: { given: 'unmatched' } });
  });

  it('stands after fire, with the confined space before both', () => {
    const ids = buildBriefing(inTank(), null).cautions.map(({ id }) => id);
    const places = ['confined-space', 'ignition', 'vapour', 'earthing'].map((id) => ids.indexOf(id));
    expect(places).toEqual([...places].sort((x, y) => x - y));
    expect(places[2]).toBe((places[1] ?? 0) + 1);
  });

  it('is left out where neither paint, thinner nor flush solvent burns', () => {
    const jobs = [job({ coating: 'wall-acrylic' })];
    expect(find(inTank(undefined, jobs), 'vapour')).toBeNull();
  });
});

describe('how much solvent', () => {
  // 120 m² × 150 µm ÷ (10 × 70) ÷ 0.7 = 36.735 L of paint, 30 % of it solvent, over nine hours without a break.
  it('is the mean over the working hours where no tip is known, and says so', () => {
    const facts = withData(noTip(inTank()));
    expect(load(facts)).toBeCloseTo((36.7347 * 0.3) / 9, 4);
    expect(said(facts).rows[0]).toMatch(
      /^Grey epoxy: 1\.3 L\/h, .*mean of the day, more while the gun is open$/,
    );
  });

  it('leaves breaks out of the working hours', () => {
    const breaks = [{ from: '12:00', to: '13:30' }];
    const facts = noTip(factsOf({ entry: { surroundings: 'confined', breaks } }));
    expect(load(facts)).toBeCloseTo((36.7347 * 0.3) / 7.5, 4);
  });

  it('is the busiest hour where the tip is known: what it passes in the trigger time, at most the whole job', () => {
    const small = withData(inTank());
    // Half of an hour at over a litre a minute is more than the 36.7 L of the job, so it is all of it.
    expect(load(small)).toBeCloseTo(36.7347 * 0.3, 3);
    const large = inTank(undefined, [job({ areaM2: 1000 })]);
    expect(load(large)).toBeGreaterThan(36.7347 * 0.3);
    expect(load(large)).toBeLessThan(1000);
    expect(said(large).rows[0]).not.toContain('mean of the day');
  });

  it('follows the trigger time of the site', () => {
    const jobs = [job({ areaM2: 1000 })];
    const at = (gunOnPct: number) =>
      load(factsOf({ entry: { surroundings: 'confined' }, jobs, policy: { gunOnPct } }));
    expect(at(60) / at(30)).toBeCloseTo(2, 6);
  });

  it('grows by all of the thinner: 5 % on 36.735 L are 1.837 L', () => {
    const more = load(noTip(inTank(undefined, [job({ thinnerPct: 5 })]))) - load(noTip(inTank()));
    expect(more).toBeCloseTo((36.7347 * 0.05) / 9, 4);
  });

  it('counts two rigs together and two jobs of one rig not twice in one hour', () => {
    const one = inTank(undefined, [job({ areaM2: 1000 })]);
    const same = inTank(undefined, [job({ areaM2: 1000 }), job({ areaM2: 1000, area: 'Deck' })]);
    const other = inTank(undefined, [job({ areaM2: 1000 }), job({ rig: 'rig-2', area: 'Deck' })]);
    expect(load(same)).toBeCloseTo(load(one), 6);
    expect(load(other)).toBeGreaterThan(load(one));
  });
});

describe('several jobs of one rig in one hour', () => {
  const tank = (...jobs: DayEntryInput['jobs']) => inTank(undefined, jobs);

  it('counts small jobs that fall into the same hour together', () => {
    const small = job({ areaM2: 10 });
    const two = load(tank(small, { ...small, area: 'Deck' }));
    expect(two).toBeCloseTo(2 * load(tank(small)), 6);
  });

  it('fills the hour with the job that needs most air first, and never goes past one hour of the tip', () => {
    const large = job({ areaM2: 1000 });
    const thinned = job({ areaM2: 10, area: 'Deck', thinnerPct: 10 });
    const both = load(tank(large, thinned));
    expect(both).toBeGreaterThan(load(tank(large)));
    expect(both).toBeLessThan(load(tank(large)) + load(tank(thinned)));
  });

  it('adds the mean of a job whose tip nobody knows', () => {
    const known = job({ areaM2: 1000 });
    const untold = job({ areaM2: 100, area: 'Deck', tip: 'worn' });
    // 100 m² × 150 µm ÷ 700 ÷ 0.7 = 30.612 L of paint, 30 % solvent, in nine hours.
    expect(load(tank(known, untold)) - load(tank(known))).toBeCloseTo((30.6122 * 0.3) / 9, 4);
  });

  it('is in no hour of the plan of the day less than what the plan sprays', () => {
    const shared = [
      job({ areaM2: 30 }),
      job({ areaM2: 300, area: 'Deck', thinnerPct: 8 }),
      job({ areaM2: 8, area: 'Keel' }),
    ];
    for (const jobs of [
      [job()],
      shared,
      [...shared, job({ rig: 'rig-2', coating: 'white-urethane', tip: '517', areaM2: 90 })],
    ]) {
      const facts = tank(...jobs);
      const hours = solventPerHour(facts.day, null);
      expect(hours.length).toBeGreaterThan(0);
      for (const { litres } of hours) expect(litres).toBeLessThanOrEqual(load(facts) + 1e-6);
    }
  });
});

describe('how much air', () => {
  it('is that of the sheet, worked out by hand', () => {
    const facts = withData(noTip(inTank()));
    // 0.87 × 1000 ÷ (3.7 × 28.96) mol × 23.890 L/mol at 18 °C = 193.97 L; (100 − 0.1) × 193.97 ÷ 0.1 = 193 779 L of air.
    const perHour = (36.7347 * 0.3) / 9;
    expect(dayVapour(facts.day)?.load?.needM3PerMin).toBeCloseTo((193.779 * perHour) / 60, 2);
    expect(said(facts).why).toMatch(/^1\.3 L solvent hourly need 4 m³\/min air\. Planned air: not known\./);
  });

  it('is that of the worst common solvent where the sheet has no vapour data, and says so', () => {
    const bare = noTip(inTank());
    expect(said(bare).rows[0]).toContain('counted as the worst common solvent');
    const need = (facts: DayFacts) => dayVapour(facts.day)?.load?.needM3PerMin ?? Number.NaN;
    for (const { lelPct, vapourDensity, densityKgPerL } of commonSolvents)
      expect(need(bare)).toBeGreaterThanOrEqual(
        need(withSheet(bare, 'grey-epoxy', { vapour: { paint: { lelPct, vapourDensity, densityKgPerL } } })) -
          1e-9,
      );
  });

  it('is said to be missing, none, too little, or enough on paper', () => {
    const why = (airM3PerMin: number) => said(withData(noTip(inTank({ volumeM3: 40, airM3PerMin })))).why;
    expect(said(inTank()).why).toContain('Planned air: not known.');
    expect(why(0)).toContain('Planned: none.');
    expect(why(3.5)).toContain('Planned: 3.5 m³/min, too little.');
    expect(why(12)).toContain('Planned: 12 m³/min, enough on paper.');
  });

  it('is enough only by the figures as they are shown', () => {
    const given = (airM3PerMin: number) => {
      const facts = withData(inTank({ volumeM3: 40, airM3PerMin }));
      return [dayVapour(facts.day)?.load?.needM3PerMin ?? Number.NaN, find(facts, 'vapour')?.params] as const;
    };
    const [need, params] = given(1);
    // Over 10 m³/min the need is shown in whole cubic metres, upward.
    expect(need).toBeGreaterThan(10);
    expect(params?.needM3).toBe(Math.ceil(need));
    expect(Math.ceil(need) - need).toBeGreaterThan(0.2);
    expect(given(need + 0.1)[1]).toMatchObject({ given: 'short', needM3: Math.ceil(need) });
    expect(given(Math.ceil(need))[1]).toMatchObject({ given: 'enough', haveM3: Math.ceil(need) });
    expect(given(0.04)[1]).toMatchObject({ given: 'none', haveM3: 0 });
  });

  it('grows with a stricter fraction, a warmer day and a higher site', () => {
    const need = ({ day }: DayFacts) => dayVapour(day)?.load?.needM3PerMin ?? Number.NaN;
    const base = need(withData(noTip(inTank())));
    const surroundings = { entry: { surroundings: 'confined' } } as const;
    expect(
      need(withData(noTip(factsOf({ ...surroundings, policy: { lelFractionPct: 5 } })))),
    ).toBeGreaterThan(base);
    expect(need(withData(noTip(factsOf({ ...surroundings, weather: { airC: 35 } }))))).toBeGreaterThan(base);
    const facts = withData(noTip(inTank()));
    const high = { ...facts, day: { ...facts.day, site: { ...facts.day.site, altitudeM: 2000 } } };
    expect(need(high)).toBeGreaterThan(base);
  });

  it('takes the warmest air of the forecast', () => {
    const forecast = [{ at: '13:00', airC: 31 }];
    const facts = factsOf({ entry: { surroundings: 'confined', forecast } });
    expect(dayVapour(facts.day)?.place.c).toBe(31);
  });
});

describe('how little fills the space', () => {
  it('is what makes the fraction of the limit by the arithmetic of the closed space', () => {
    const facts = withData(inTank({ volumeM3: 20, airM3PerMin: 0 }));
    const found = dayVapour(facts.day);
    const litres = found?.fillL ?? Number.NaN;
    expect(vapourPct({ solvent: data, litres, spaceM3: 20, c: 18 })).toBeCloseTo(0.1, 9);
    expect(said(facts).why).toContain('0.1 L evaporated here: 10 % of the explosive limit.');
  });

  it('takes the worst of paint, thinner and flush solvent', () => {
    const space = { volumeM3: 200, airM3PerMin: 5 };
    const fillL = (facts: DayFacts) => dayVapour(facts.day)?.fillL ?? Number.NaN;
    const mild = { lelPct: 2.5, vapourDensity: 2, densityKgPerL: 0.79 };
    const all = withSheet(inTank(space), 'grey-epoxy', { vapour: { paint: mild, flush: mild } });
    const badFlush = withSheet(inTank(space), 'grey-epoxy', { vapour: { paint: mild, flush: data } });
    expect(fillL(badFlush)).toBeLessThan(fillL(all));
    expect(fillL(inTank(space))).toBeLessThan(fillL(badFlush));
  });

  it('is never said as 0 L, and a space nobody measured counts as small', () => {
    expect(said(inTank({ volumeM3: 2, airM3PerMin: 0 })).why).toContain('Under 0.1 L here: 10 %');
    expect(said(inTank()).why).toContain('Space size not known: count as small.');
  });
});

describe('what to do', () => {
  it('tests the gas before and all the time, sets the alarm by policy, and trusts no meter with lungs', () => {
    const entry = { surroundings: 'confined' } as const;
    const { steps } = said(factsOf({ entry, policy: { lelFractionPct: 5 } }));
    expect(steps).toEqual([
      'Test gas before entry, then always, also low.',
      'Alarm at 5 % or lower.',
      'Gear stays on at any reading.',
      'Mix and flush outside.',
    ]);
    expect(readWords('vapour').more.join(' ')).toContain('A gas meter is no health monitor.');
  });

  it('says nothing can be worked out without a sheet, and does not guess', () => {
    const { why, rows } = said(without(inTank({ volumeM3: 40, airM3PerMin: 30 }), 'coatings'));
    expect(why).toContain('Solvent coming off: not known. Planned: 30 m³/min.');
    expect(rows).toEqual(['grey-epoxy: no sheet, nothing can be worked out']);
  });
});

describe('fire, with the flash points of thinner and flush solvent', () => {
  const cold = { weather: { airC: 5, steelC: 5 } };
  const rows = (facts: DayFacts) => {
    const caution = find(facts, 'ignition');
    return caution?.each.map((row) => fill(readWords('ignition').each ?? '', row)) ?? [];
  };
  const sheet = (change: Parameters<typeof withSheet>[2], jobs = [job()]) =>
    withSheet(factsOf({ ...cold, jobs }), 'grey-epoxy', change);

  it('counts a flush solvent that catches in the cold as warm enough, and prints its flash point', () => {
    const facts = sheet({ flushFlashPointC: 4 });
    expect(find(facts, 'ignition')?.params.warm).toBe('yes');
    expect(rows(facts)).toEqual(['Grey epoxy: flash point 27 °C; flushed with Solvent E (flash point 4 °C)']);
  });

  it('counts a flush solvent of which nobody knows as warm enough, and a known high one not', () => {
    expect(find(sheet({}), 'ignition')?.params.warm).toBe('yes');
    expect(find(sheet({ flushFlashPointC: 40 }), 'ignition')?.params.warm).toBe('no');
  });

  it('prints the flash point with thinner only where thinner goes in and is the lower one', () => {
    const thinner = { name: 'Solvent E', maxPercent: 10, flashPointC: 12 };
    const thinned = [job({ thinnerPct: 5 })];
    expect(rows(sheet({ thinner, flushFlashPointC: 40 }, thinned))[0]).toContain(
      'Grey epoxy with its thinner: flash point 12 °C',
    );
    expect(rows(sheet({ thinner, flushFlashPointC: 40 }))[0]).toContain('Grey epoxy: flash point 27 °C');
    expect(find(sheet({ thinner, flushFlashPointC: 40 }, thinned), 'ignition')?.params.warm).toBe('yes');
  });

  it('leaves fire out when flush solvent and paint are known not to burn', () => {
    const jobs = [job({ coating: 'wall-acrylic' })];
    const flushed = (flushFlashPointC: number) =>
      withSheet(factsOf({ jobs }), 'wall-acrylic', { flushSolvent: 'Cleaner G', flushFlashPointC });
    expect(find(flushed(94), 'ignition')).toBeNull();
    expect(find(flushed(93), 'ignition')).not.toBeNull();
  });
});
