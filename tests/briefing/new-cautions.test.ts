import { describe, expect, it } from 'vitest';
import { loadSitePack } from '../../adapters/files/site-pack.ts';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { Caution } from '../../src/briefing/caution.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import { cautionRules } from '../../src/briefing/rules/index.ts';
import { bareSteelTime } from '../../src/facts/surface-time.ts';
import { resolveDay } from '../../src/flow/resolve-day.ts';
import type { CarryOver } from '../../src/model/day.ts';
import { dayEntrySchema } from '../../src/model/day-entry.ts';
import { fill, readWords } from './caution-md.ts';
import { factsOf, job, without, withRig, withSheet } from './days.ts';

function look(facts: DayFacts, id: string): Caution | undefined {
  return buildBriefing(facts, null).cautions.find((one) => one.id === id);
}
function found(facts: DayFacts, id: string): Caution {
  const caution = look(facts, id);
  if (!caution) throw new Error(`${id} is not in this briefing`);
  return caution;
}
const rowsSaid = (caution: Caution) => caution.each.map((row) => fill(readWords(caution.id).each ?? '', row));
const said = (caution: Caution) => {
  const { why, steps } = readWords(caution.id);
  return [why, ...steps].map((text) => fill(text, caution.params)).join(' ');
};

describe('wind on a bridge', () => {
  const day = (windMps: number | undefined, policy = {}) => factsOf({ weather: { windMps }, policy });

  it('is a must from the limit on, and says both figures', () => {
    const caution = found(day(9), 'wind');
    expect(caution.grade).toBe('must');
    expect(said(caution)).toMatch(/^Wind 9 m\/s expected\. The site's limit outdoors is 6\.7 m\/s\./);
    expect(said(caution)).toContain('Do not spray outdoors.');
  });

  it('is to watch from half the limit on, silent under it, and a must exactly at it', () => {
    expect(found(day(6.6), 'wind').grade).toBe('watch');
    expect(found(day(6.7), 'wind').grade).toBe('must');
    expect(found(day(3.4), 'wind').params).toMatchObject({ state: 'fresh', mps: 3.4 });
    expect(look(day(3.3), 'wind')).toBeUndefined();
  });

  it('counts what is shown at the limit as at the limit', () => {
    expect(found(day(6.61), 'wind')).toMatchObject({ grade: 'must', params: { mps: 6.7, limit: 6.7 } });
  });

  it('wind that nobody wrote down is a must, never taken as calm', () => {
    const caution = found(day(undefined), 'wind');
    expect(caution.grade).toBe('must');
    expect(said(caution)).toContain('Nobody wrote down the wind.');
    expect(caution.because).toContainEqual({ from: 'day', of: '', field: 'weather.windMps', value: null });
  });

  it('a site may ask for less', () => {
    expect(found(day(5, { windMaxMps: 5 }), 'wind').grade).toBe('must');
  });

  it('15 mph is 6.7056 m/s (1 mile = 1609.344 m exactly); the default lies under it', () => {
    const mph15 = (15 * 1609.344) / 3600;
    expect(mph15).toBeCloseTo(6.7056, 4);
    expect(factsOf().day.policy.windMaxMps).toBeLessThanOrEqual(mph15);
  });

  it.each(['enclosed', 'confined'] as const)('is not said %s', (surroundings) => {
    expect(look(factsOf({ entry: { surroundings }, weather: { windMps: 20 } }), 'wind')).toBeUndefined();
  });
});

describe('a girder blasted at 06:00', () => {
  const girder = (more: Parameters<typeof job>[0] = {}) =>
    job({ area: 'Girder 4', preparedAt: '06:00', ...more });
  const rows = (facts: DayFacts) => rowsSaid(found(facts, 'surface-time'));

  it('has its first coat by 10:00 in dry air: 11:30 is too late', () => {
    expect(rows(factsOf({ jobs: [girder()] }))).toEqual([
      'Girder 4: first coat on by 10:00 (prepared 06:00)',
    ]);
  });

  it('by 08:00 when the air is damper than 70 %, and not at 70 %', () => {
    expect(rows(factsOf({ jobs: [girder()], weather: { rhPct: 71 } }))).toEqual([
      'Girder 4: first coat on by 08:00, air at the steel is damp, 71 % (prepared 06:00)',
    ]);
    expect(rows(factsOf({ jobs: [girder()], weather: { rhPct: 70 } }))[0]).toContain('by 10:00 ');
  });

  it('counts the damper air on cold steel: 60 % at 20 °C over steel of 15 °C is 82 %', () => {
    // Vapour pressure over water, CRC handbook tables, from memory: 23.39 hPa at 20 °C, 17.06 hPa at 15 °C; 60 × 23.39 ÷ 17.06 = 82.3.
    const facts = factsOf({ jobs: [girder()], weather: { airC: 20, rhPct: 60, steelC: 15 } });
    expect(found(facts, 'surface-time').each[0]).toMatchObject({ state: 'damp', rh: 83, by: '08:00' });
    const time = bareSteelTime(facts.day, facts.day.entry.jobs[0] as never);
    if (time.kind !== 'known' || time.damp === null || time.damp === 'night') throw new Error('not damp');
    expect(time.damp.pct).toBeCloseTo((60 * 23.39) / 17.06, 0);
  });

  it('gives warm steel no credit', () => {
    const facts = factsOf({ jobs: [girder()], weather: { rhPct: 75, steelC: 40 } });
    expect(found(facts, 'surface-time').each[0]).toMatchObject({ state: 'damp', rh: 75 });
  });

  it('looks at the hours in which the steel stands, not at the evening', () => {
    const forecast = [
      { at: '05:00', airC: 18, rhPct: 60, steelC: 18 },
      { at: '13:00', airC: 12, rhPct: 95, steelC: 12 },
    ];
    expect(rows(factsOf({ jobs: [girder()], entry: { forecast } }))[0]).toContain('by 10:00 ');
    expect(rows(factsOf({ jobs: [girder({ preparedAt: '10:00' })], entry: { forecast } }))[0]).toContain(
      'by 12:00, air at the steel is damp, 95 %',
    );
  });

  it('says by the site how long, and never longer than the minute', () => {
    const jobs = [girder()];
    expect(rows(factsOf({ jobs, policy: { surfaceHours: 2 } }))[0]).toContain('by 08:00 ');
    expect(rows(factsOf({ jobs, policy: { surfaceHours: 1.99 } }))[0]).toContain('by 07:59 ');
  });

  it('yesterday is over, and comes first', () => {
    const jobs = [girder(), girder({ area: 'Web 2', preparedAt: '2026-05-11 16:00' })];
    expect(rows(factsOf({ jobs }))[0]).toBe(
      'Web 2: time ran out at 2026-05-11 20:00 (prepared 2026-05-11 16:00)',
    );
    // In the evening before a time alone is not this morning's: 19:30 is nearer to yesterday.
    // Half the time, because it ran into the night.
    expect(rows(factsOf({ jobs: [girder({ preparedAt: '19:30' })] }))[0]).toContain(
      'time ran out at 2026-05-11 21:30',
    );
  });

  it('is one row for two coats of one area', () => {
    expect(rows(factsOf({ jobs: [girder(), girder({ coat: 'stripe' })] }))).toEqual([
      'Girder 4: first coat on by 10:00 (prepared 06:00)',
    ]);
  });

  describe('and left out over night', () => {
    const policy = { surfaceHours: 24 };
    const evening = [girder({ preparedAt: '2026-05-11 17:00' })];
    const dry = [
      { at: '03:00', airC: 10, rhPct: 50, steelC: 10 },
      { at: '12:00', airC: 18, rhPct: 55, steelC: 18 },
    ];
    const row = (entry: Parameters<typeof factsOf>[0]) =>
      found(factsOf({ policy, jobs: evening, ...entry }), 'surface-time').each[0];

    it('the night counts as damp where nobody gave its humidity, whatever was posted for the day', () => {
      const caution = found(factsOf({ policy, jobs: evening }), 'surface-time');
      // 17:00 and half of 24 hours.
      expect(caution.each[0]).toMatchObject({ state: 'late', by: '05:00' });
      expect(caution.because).toContainEqual({ from: 'day', of: '', field: 'forecast.rhPct', value: null });
      const untold = [{ at: '03:00', airC: 10, steelC: 10 }];
      expect(row({ entry: { forecast: untold } })).toMatchObject({ state: 'late', by: '05:00' });
    });

    it('a humidity for that night is believed, dry or damp', () => {
      expect(row({ entry: { forecast: dry } })).toMatchObject({ state: 'dry', by: '17:00', rh: '-' });
      const damp = dry.map((line) => ({ ...line, rhPct: 90 }));
      const caution = found(factsOf({ policy, jobs: evening, entry: { forecast: damp } }), 'surface-time');
      expect(caution.each[0]).toMatchObject({ state: 'late', by: '05:00' });
      expect(caution.because).toContainEqual({ from: 'day', of: '', field: 'forecast.rhPct', value: 90 });
    });

    it('is said so while there is time left', () => {
      const jobs = [girder({ preparedAt: '2026-05-11 22:00' })];
      expect(rows(factsOf({ policy, jobs }))).toEqual([
        'Girder 4: first coat on by 10:00, a night without a forecast counts as damp (prepared 2026-05-11 22:00)',
      ]);
    });

    it('the night of a night shift is what was posted, the evening before it is not', () => {
      const night = { start: '22:00', end: '06:00' };
      const given = (preparedAt: string) => row({ entry: night, jobs: [girder({ preparedAt })], policy: {} });
      expect(given('22:00')).toMatchObject({ state: 'dry', by: '2026-05-13 02:00' });
      expect(given('21:00')).toMatchObject({ state: 'night', by: '23:00' });
    });

    it('the night after the shift counts as well', () => {
      const jobs = [girder({ preparedAt: '15:00' })];
      expect(row({ policy: { surfaceHours: 4 }, jobs })).toMatchObject({ state: 'dry', by: '19:00' });
      expect(row({ policy: { surfaceHours: 6 }, jobs })).toMatchObject({ state: 'night', by: '18:00' });
    });
  });

  it('a time after the shift gives no figure', () => {
    const [row] = rows(factsOf({ jobs: [girder({ preparedAt: '16:30' })] }));
    expect(row).toBe('Girder 4: 16:30 lies after this shift, ask when it was prepared');
  });

  it('in the night a time alone is that night', () => {
    const facts = factsOf({
      entry: { start: '22:00', end: '06:00' },
      jobs: [girder({ preparedAt: '01:00' })],
    });
    expect(rows(facts)[0]).toBe('Girder 4: first coat on by 2026-05-13 05:00 (prepared 2026-05-13 01:00)');
  });

  it('a primer is told without its time, every other coat only with it', () => {
    expect(rows(factsOf({ jobs: [girder({ preparedAt: undefined })] }))).toEqual([
      'Girder 4: nobody wrote down when it was prepared',
    ]);
    const coats = (['repair', 'stripe', 'intermediate', 'finish'] as const).map((coat) => job({ coat }));
    expect(look(factsOf({ jobs: coats }), 'surface-time')).toBeUndefined();
    for (const { coat } of coats)
      expect(rows(factsOf({ jobs: [girder({ coat })] }))).toEqual([
        'Girder 4: first coat on by 10:00 (prepared 06:00)',
      ]);
  });

  it.each(['6:00', '25:00', '2026-13-01 06:00', '2026-05-12T06:00', '06:00 2026-05-12', ''])(
    'cannot be written "%s"',
    (preparedAt) => {
      const { entry } = factsOf().day;
      const parsed = dayEntrySchema.safeParse({ ...entry, jobs: [girder({ preparedAt })] });
      expect(parsed.error?.issues.map(({ path }) => path.join('.'))).toContain('jobs.0.preparedAt');
    },
  );
});

describe('paint that dries in the tip', () => {
  it('zinc silicate dries fast on any day', () => {
    const caution = found(factsOf({ jobs: [job({ coating: 'zinc-silicate' })] }), 'wash-pot');
    expect(caution.grade).toBe('watch');
    expect(rowsSaid(caution)).toEqual(['Rig 1: Zinc silicate dries as its solvent leaves. Pot of Solvent Z']);
  });

  it('urethane with 120 min at 23 °C and 50 at 35 °C does in a hot hour, not on a mild day', () => {
    const jobs = [job({ coating: 'white-urethane' })];
    expect(look(factsOf({ jobs }), 'wash-pot')).toBeUndefined();
    const hot = factsOf({ jobs, entry: { forecast: [{ at: '12:00', airC: 35 }] } });
    expect(rowsSaid(found(hot, 'wash-pot'))[0]).toContain('sets within 50 min when warm. Pot of Solvent U');
    const sunny = factsOf({ jobs, weather: { airC: 24, sun: true, steelC: 35 } });
    expect(look(sunny, 'wash-pot')).toBeDefined();
  });

  it('a recoat time of an hour at the warmest counts, the row of a hotter day does not', () => {
    const given = (airC: number) =>
      withSheet(
        factsOf({ weather: { airC, steelC: airC }, jobs: [job({ coating: 'wall-acrylic' })] }),
        'wall-acrylic',
        {
          recoat: [
            { toC: 20, minHours: 3 },
            { toC: 35, minHours: 1 },
          ],
        },
      );
    expect(look(given(20), 'wash-pot')).toBeUndefined();
    expect(rowsSaid(found(given(21), 'wash-pot'))[0]).toContain('is dry within 1 h');
    // Hotter than the table: its hottest row.
    expect(look(given(40), 'wash-pot')).toBeDefined();
  });

  it('without a sheet it counts as fast', () => {
    expect(rowsSaid(found(without(factsOf(), 'coatings'), 'wash-pot'))[0]).toContain('count it as fast');
  });
});

describe('the gun and the hose of every rig', () => {
  const jobs = [job(), job({ rig: 'rig-2', area: 'Deck' })];

  it('every gun is named, whatever it sprays', () => {
    const caution = found(factsOf({ jobs }), 'gun-inspection');
    expect(caution.grade).toBe('must');
    expect(rowsSaid(caution)).toEqual(['Rig 1, Rig 2: before the first batch, and after every fall']);
    expect(said(caution)).toContain('Relieve the pressure first.');
  });

  it('every hose is a must, with its length, and a stop as soon as one rig is', () => {
    const caution = found(factsOf({ jobs }), 'hose-and-fittings');
    expect(caution.grade).toBe('must');
    expect(rowsSaid(caution)).toEqual(['Rig 1: 30 m of hose, one piece', 'Rig 2: 15 m of hose, one piece']);
    expect(said(caution)).toMatch(/Walk every hose, pressure off.*Never repair it/);
    const weak = withRig(factsOf({ jobs }), 'rig-2', { ratings: [{ part: 'hose', bar: 100 }] });
    expect(found(weak, 'hose-and-fittings').grade).toBe('stop');
    expect(found(weak, 'hose-and-fittings').because).toContainEqual({
      from: 'rig',
      of: 'Rig 2',
      field: 'ratings',
      value: 'hose 100',
    });
  });

  it('adds the pieces and says the sun on a dark hose', () => {
    const hoses = [
      { boreMm: 10, lengthM: 30 },
      { boreMm: 6.4, lengthM: 2.5 },
    ];
    const rows = (hoseColour: 'dark' | 'light') =>
      rowsSaid(
        found(
          withRig(factsOf({ weather: { sun: true } }), 'rig-1', { hoses, hoseColour }),
          'hose-and-fittings',
        ),
      );
    expect(rows('dark')).toEqual(['Rig 1: 32.5 m of hose, 2 pieces; dark, keep it out of the sun']);
    expect(rows('light')).toEqual(['Rig 1: 32.5 m of hose, 2 pieces; keep it out of the sun']);
  });
});

describe('what ran in a rig before', () => {
  const facts = (left: Partial<CarryOver>, given = factsOf) => given({ left });
  const rows = (left: Partial<CarryOver>) => rowsSaid(found(facts(left), 'suction-and-siphon'));
  const ran = (coating: string, solvent: string) => ({ rigs: { 'rig-1': { coating, solvent } } });

  it('the same coating says nothing, whatever is written as its solvent', () => {
    expect(look(facts(ran('grey-epoxy', 'Solvent E')), 'suction-and-siphon')).toBeUndefined();
    expect(look(facts(ran('grey-epoxy', '')), 'suction-and-siphon')).toBeUndefined();
  });

  it('another solvent is said with both names, another coating in the same solvent too', () => {
    expect(rows(ran('white-urethane', 'Solvent U'))).toEqual([
      'Rig 1: flushed with Solvent U before, Solvent E today',
    ]);
    expect(rows(ran('mystery', 'solvent e '))).toEqual(['Rig 1: Mystery paint before, Grey epoxy today']);
  });

  it('a coating that the pack no longer has, flushed with nobody knows what, is said by its id', () => {
    expect(rows(ran('old-lead', ''))).toEqual(['Rig 1: old-lead before, Grey epoxy today']);
  });

  it('not known is said, on the first day and for a rig nobody has written of', () => {
    const unknown = ['Rig 1: what ran in it before is not known'];
    expect(rows({})).toEqual(unknown);
    expect(rows({ rigs: { 'rig-2': { coating: 'grey-epoxy', solvent: 'Solvent E' } } })).toEqual(unknown);
    expect(rowsSaid(found(factsOf(), 'suction-and-siphon'))).toEqual(unknown);
  });

  it('settled solvent and an unflushed line tell it where nothing else does', () => {
    const settled = (solvent: string) => ({ settledSolvent: [{ rig: 'rig-1', solvent, litres: 4 }] });
    expect(look(facts(settled('Solvent E')), 'suction-and-siphon')).toBeUndefined();
    expect(rows(settled('Solvent Z'))).toEqual(['Rig 1: flushed with Solvent Z before, Solvent E today']);
    const unflushed = (coating: string) => ({ unflushed: [{ rig: 'rig-1', coating, mixedAt: 0 }] });
    expect(look(facts(unflushed('grey-epoxy')), 'suction-and-siphon')).toBeUndefined();
    expect(rows(unflushed('white-urethane'))).toEqual([
      'Rig 1: flushed with Solvent U before, Solvent E today',
    ]);
  });

  it('a second coating later in the day is a change too', () => {
    const jobs = [job(), job({ coating: 'white-urethane', area: 'Deck' })];
    const two = factsOf({ jobs, left: ran('grey-epoxy', 'Solvent E') });
    expect(rowsSaid(found(two, 'suction-and-siphon'))).toEqual([
      'Rig 1: flushed with Solvent E before, Solvent U today',
    ]);
  });
});

describe('who is new today', () => {
  const all = { coatings: ['grey-epoxy'], rigs: ['rig-1'] };
  const given = (experience: CarryOver['experience'], jobs = [job()]) =>
    factsOf({ jobs, left: experience ? { experience } : {} });
  const rows = (facts: DayFacts) => rowsSaid(found(facts, 'new-today'));

  it('is not said where nobody has kept count, nor when nobody is new', () => {
    expect(look(factsOf(), 'new-today')).toBeUndefined();
    expect(look(given(undefined), 'new-today')).toBeUndefined();
    expect(
      look(given({ bram: all, cleo: all, ewa: { coatings: [], rigs: [] } }), 'new-today'),
    ).toBeUndefined();
  });

  it('names a starter once, and what is new to the others', () => {
    const facts = given({
      bram: { coatings: ['grey-epoxy'], rigs: ['rig-2'] },
      cleo: { coatings: ['mystery'], rigs: ['rig-1'] },
    });
    expect(rows(facts)).toEqual([
      'Bram: first day on Rig 1',
      'Cleo: first day with Grey epoxy',
      'Ewa: first day on this crew',
    ]);
    expect(found(facts, 'new-today').grade).toBe('must');
    expect(found(facts, 'new-today').because).toContainEqual({
      from: 'yesterday',
      of: 'Ewa',
      field: 'experience',
      value: null,
    });
  });

  it('looks only at the jobs that somebody is on', () => {
    const jobs = [job(), job({ rig: 'rig-2', coating: 'mystery', area: 'Deck', sprayers: ['dov'] })];
    const facts = given({ bram: all, cleo: all, dov: all, ewa: all }, jobs);
    // Cleo mixes for both.
    expect(rows(facts)).toEqual([
      'Cleo: first day with Mystery paint',
      'Cleo: first day on Rig 2',
      'Dov: first day with Mystery paint',
      'Dov: first day on Rig 2',
    ]);
  });

  it('does not shame: no word of blame in it', () => {
    const { why, steps, more, questions } = readWords('new-today');
    expect(JSON.stringify([why, steps, more, questions])).not.toMatch(
      /inexperienced|careless|unskilled|slow|wrong/i,
    );
  });
});

describe('the demo site', () => {
  const demo = (file: string): DayFacts => {
    const loaded = loadSitePack('templates/demo-site');
    const entry = loaded.ok ? loaded.days[file] : undefined;
    if (!loaded.ok || !entry) throw new Error(`the demo site has no ${file}`);
    const resolved = resolveDay(entry, loaded.pack);
    if ('refused' in resolved) throw new Error(resolved.text);
    return { day: resolved.day, carriedIn: null };
  };
  const ruled = (id: string, facts: DayFacts) =>
    cautionRules.find((rule) => rule.id === id)?.find(facts) ?? null;

  it('shows the wind on both days and bare steel on the second: yesterday too late, this morning by 11:00', () => {
    expect(ruled('wind', demo('day-1.yaml'))?.params).toEqual({ state: 'fresh', mps: 5, limit: 6.7 });
    expect(ruled('wind', demo('day-2.yaml'))?.params).toMatchObject({ state: 'fresh', mps: 4.5 });
    expect(ruled('surface-time', demo('day-1.yaml'))).toBeNull();
    expect(ruled('surface-time', demo('day-2.yaml'))?.each.map(({ state, by }) => [state, by])).toEqual([
      // 16:30 and four hours run into the night: half of them.
      ['late', '2026-06-08 18:30'],
      ['dry', '11:00'],
    ]);
  });
});
