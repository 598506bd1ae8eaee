import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { expectedWeather } from '../../src/facts/forecast.ts';
import { paintPerHour, solventPerHour } from '../../src/facts/paint-per-hour.ts';
import { dayPlan, type RigDay } from '../../src/facts/plan.ts';
import { sprayRate } from '../../src/facts/plan-rate.ts';
import { paintTemperatures, weatherGaps } from '../../src/facts/plan-weather.ts';
import { resolveDay } from '../../src/flow/resolve-day.ts';
import type { CarryOver, Day } from '../../src/model/day.ts';
import { type DayEntryInput, dayEntrySchema } from '../../src/model/day-entry.ts';
import { type SitePack, sitePackSchema } from '../../src/model/site.ts';
import { hoseSolAirC } from '../../src/trade/sun.ts';
import { aDay, aJob, aPack, t } from '../flow/pack.ts';
import { checkPlan } from '../trade/check-plan.ts';

/** The test pack with fields of one coating or rig changed. */
function packWith(coating: string, change: object, rigChange: object = {}): SitePack {
  const pack = aPack();
  return sitePackSchema.parse({
    ...pack,
    coatings: pack.coatings.map((sheet) => (sheet.id === coating ? { ...sheet, ...change } : sheet)),
    rigs: pack.rigs.map((rig) => (rig.id === 'rig-1' ? { ...rig, ...rigChange } : rig)),
  });
}

const tipped = packWith('epoxy', { tip: '517', densityKgPerL: 1.2 });

function day(given: Partial<DayEntryInput> = {}, pack: SitePack = tipped): Day {
  const found = resolveDay(dayEntrySchema.parse(aDay(given).entry), pack);
  if ('refused' in found) throw new Error(`the test's day is refused: ${found.text}`);
  return found.day;
}

function dayOrNull(given: Partial<DayEntryInput>): Day | null {
  const entry = dayEntrySchema.safeParse(aDay(given).entry);
  const found = entry.success ? resolveDay(entry.data, tipped) : null;
  return found && 'day' in found ? found.day : null;
}

function planned(one: RigDay | undefined): Extract<RigDay, { readonly plan: object }> {
  if (!one || one.plan === null) throw new Error('nothing is planned in this test');
  return one;
}

const carriedCoat = (given: Partial<CarryOver['coats'][number]> = {}): CarryOver => ({
  fromShift: 'weir:2026-05-11',
  fromDate: '2026-05-11',
  tags: [],
  unflushed: [],
  skippedSteps: [],
  settledSolvent: [],
  concerns: [],
  stop: null,
  coats: [
    {
      area: 'Gate 1',
      coating: 'epoxy',
      coat: 'primer',
      firstAt: t('22:00', '2026-05-11'),
      at: t('23:00', '2026-05-11'),
      steel: [{ at: t('22:00', '2026-05-11'), c: 18 }],
      ...given,
    },
  ],
});

describe('weather', () => {
  const forecast = [
    { at: '06:00', airC: 8, rhPct: 95, steelC: 7 },
    { at: '10:00', airC: 18 },
  ];
  test('the forecast is on the site’s clock; what it leaves out is as posted, steel as warm as the air', () => {
    expect(expectedWeather(day({ forecast }))).toEqual([
      { at: t('03:00'), airC: 20, rhPct: 60, steelC: 20 },
      { at: t('06:00'), airC: 8, rhPct: 95, steelC: 7 },
      { at: t('10:00'), airC: 18, rhPct: 60, steelC: 18 },
    ]);
  });
  test('without a forecast the posted weather holds all day', () => {
    expect(expectedWeather(day())).toEqual([{ at: t('03:00'), airC: 20, rhPct: 60, steelC: 20 }]);
  });
  test('a line before the day that still holds is where the day begins', () => {
    const [first] = expectedWeather(day({ forecast: [{ at: '01:00', airC: 5 }] }));
    expect(first).toMatchObject({ at: t('03:00'), airC: 5 });
  });
  test('the evening of a long day is its own, not the one before', () => {
    const long = day({ end: '20:00', forecast: [{ at: '19:30', airC: 9 }] });
    expect(expectedWeather(long).at(-1)).toMatchObject({ at: t('19:30'), airC: 9 });
  });
  test('hours that miss a limit are closed, with every limit they miss', () => {
    const found = day({ forecast });
    const [gap, ...more] = weatherGaps(found, found.coatings.epoxy as never);
    expect(more).toEqual([]);
    expect([gap?.from, gap?.to]).toEqual([t('06:00'), t('10:00')]);
    expect(gap?.failures.map(({ limit }) => limit).sort()).toEqual(['margin', 'rh-max']);
    const plan = planned(dayPlan(found, null)[0]);
    expect(plan.plan.batches[0]?.mixFrom).toBeGreaterThanOrEqual(t('10:00'));
    expect(plan.plan.limits.map(({ kind }) => kind)).toContain('weather');
  });
  test('in sun the pot is as warm as the steel, and a standing hose warms as the sun makes it', () => {
    const sunny = day({ weather: { airC: 20, rhPct: 60, steelC: 31, sun: true } });
    const rig = sunny.rigs['rig-1'] as never;
    expect(paintTemperatures(sunny, rig)).toMatchObject({
      coldC: [{ c: 20 }],
      paintC: [{ c: 31 }],
      hose: { towardsC: [{ c: hoseSolAirC(20, 'dark') }] },
    });
    expect(paintTemperatures(day(), rig)).toMatchObject({
      paintC: [{ c: 20 }],
      hose: { towardsC: [{ c: 20 }] },
    });
  });
});

describe('spray rate', () => {
  const rateOf = (job: Partial<DayEntryInput['jobs'][number]>, pack: SitePack = tipped) => {
    const found = day({ jobs: [aJob(job)] }, pack);
    const [one] = found.entry.jobs;
    return sprayRate(found, one as never, found.rigs['rig-1'] as never, found.coatings.epoxy as never);
  };
  test('orifice equation at the pump’s pressure, times the trigger’s share, by hand', () => {
    // 0.017 in = 0.4318 mm; 40 × 5 = 200 bar; Cd 0.8: 0.8 × π/4 × 0.4318² × √(2 × 200e5 ÷ 1200) = 21.39e-6 m³/s.
    const rate = rateOf({});
    expect(rate.tipLPerMin).toBeCloseTo(1.2835, 3);
    expect(rate.litresPerMin).toBeCloseTo(1.2835 / 2, 3);
    expect(rate).toMatchObject({ tip: '517', bar: 200, densityKnown: true });
  });
  test('a gun above the pump has less: 1200 kg/m³ × 9.80665 × 50 m = 5.88 bar', () => {
    expect(rateOf({ liftM: 50 }).bar).toBeCloseTo(200 - 5.884, 3);
  });
  test('the pump’s strokes cap it', () => {
    const slow = packWith(
      'epoxy',
      { tip: '531', densityKgPerL: 1.2 },
      { litresPerCycle: 0.05, flushCyclesPerMinute: 20 },
    );
    const rate = rateOf({}, slow);
    expect(rate.tipLPerMin).toBeGreaterThan(1);
    expect(rate.litresPerMin).toBeCloseTo(0.5, 9);
  });
  test('the job’s own tip goes before the sheet’s; no tip and one that nobody can read count as a small one', () => {
    expect(rateOf({ tip: '313' }).tip).toBe('313');
    for (const odd of [rateOf({}, aPack()), rateOf({ tip: 'wide' })]) {
      expect(odd.tip).toBeNull();
      expect(odd.orificeMm).toBeCloseTo(0.3302, 4);
    }
  });
  test('without a density it counts the heavy side, which is the slow one', () => {
    const unknown = rateOf({}, packWith('epoxy', { tip: '517' }));
    expect(unknown).toMatchObject({ densityKnown: false, kgPerL: 1.6 });
    expect(unknown.litresPerMin).toBeLessThan(rateOf({}).litresPerMin);
  });
});

describe('recoat windows', () => {
  const table = { tip: '517', densityKgPerL: 1.2, recoat: [{ toC: 30, minHours: 12, maxHours: 14 }] };
  const pack = packWith('epoxy', table);
  test('the coat the last shift left is not covered before its window opens, nor after it closes', () => {
    // Last of it at 23:00, 12 h: 11:00. First of it at 22:00, 14 h: 12:00.
    const found = planned(dayPlan(day({}, pack), carriedCoat())[0]);
    const recoat = found.input.jobs[0]?.closed.filter(({ why }) => why === 'recoat') ?? [];
    expect(recoat.map(({ from, to }) => [from, to])).toEqual([
      [-8e15, t('11:00')],
      [t('12:00'), 8e15],
    ]);
    for (const { sprayFrom, sprayTo } of found.plan.batches) {
      expect(sprayFrom).toBeGreaterThanOrEqual(t('11:00'));
      expect(sprayTo).toBeLessThanOrEqual(t('12:00'));
    }
    expect(found.plan.batches.length).toBeGreaterThan(0);
  });
  test('another area is not held up', () => {
    const found = planned(dayPlan(day({}, pack), carriedCoat({ area: 'Gate 2' }))[0]);
    expect(found.input.jobs[0]?.closed).toEqual([]);
  });
  test('a coat whose sheet has no recoat times is flagged, not guessed at', () => {
    const found = planned(dayPlan(day(), carriedCoat())[0]);
    expect(found.jobs[0]?.recoatUnknown).toBe(true);
  });
  test('two coats of one day: the second waits for the first, also on another rig', () => {
    const soon = packWith('epoxy', { ...table, recoat: [{ toC: 30, minHours: 2 }] });
    const jobs = [
      aJob({ coat: 'primer' }),
      aJob({ coating: 'finish', coat: 'finish', dftUm: 60, rig: 'rig-2', area: '  gate   1' }),
    ];
    const [first, second] = dayPlan(day({ jobs }, soon), null).map(planned);
    const done = first?.plan.batches.at(-1)?.sprayTo ?? Number.NaN;
    expect(second?.plan.batches[0]?.sprayFrom).toBeGreaterThanOrEqual(done + 2 * 3_600_000);
    expect(second?.plan.feasible).toBe(true);
  });
  test('over a first coat that cannot be finished nothing is planned', () => {
    const jobs = [aJob({ areaM2: 9000, coat: 'primer' }), aJob({ coat: 'intermediate', areaM2: 10 })];
    const found = planned(dayPlan(day({ jobs }, pack), null)[0]);
    expect(found.plan.jobs[1]).toMatchObject({ litres: 0, complete: false });
  });
});

describe('the plan of a day', () => {
  test('needs the litres of area, film, solids and loss, thinner on top', () => {
    // 60 m² × 150 µm ÷ (10 × 80) ÷ 0.7 = 16.07 L, to be had as 16.1 L; 5 % thinner of it.
    const found = planned(dayPlan(day({ jobs: [aJob({ thinnerPct: 5 })] }), null)[0]);
    expect(found.plan.totals.coatings[0]).toMatchObject({ litres: 16.1, kits: 1 });
    expect(found.plan.totals.coatings[0]?.thinnerL).toBeCloseTo(0.805, 9);
  });
  test('is for each rig in the order of the jobs', () => {
    const jobs = [
      aJob({ coating: 'finish', coat: 'finish', dftUm: 60, rig: 'rig-2' }),
      aJob({ area: 'Gate 2' }),
    ];
    expect(dayPlan(day({ jobs }), null).map(({ rig }) => rig)).toEqual(['rig-2', 'rig-1']);
  });
  test('a figure nothing can be planned with is named, and the other rigs are planned', () => {
    const absurd = packWith('epoxy', { tip: '517' }, { litresPerCycle: 0.001, flushCyclesPerMinute: 1 });
    const jobs = [
      aJob(),
      aJob({ coating: 'finish', coat: 'finish', dftUm: 60, rig: 'rig-2', area: 'Gate 2' }),
    ];
    const [one, other] = dayPlan(day({ jobs }, absurd), null);
    expect(one?.plan).toBeNull();
    if (one?.plan === null) expect(one.refusal.field).toBe('flushMinutes');
    expect(other?.plan).not.toBeNull();
  });
  test('over a change of the clocks it is in real minutes', () => {
    // Lisbon puts the clock back at 02:00 on 25 October 2026: 22:00 to 06:00 is nine hours.
    const pack = { ...tipped, site: { ...tipped.site, timeZone: 'Europe/Lisbon' } };
    const night = day({ date: '2026-10-24', start: '22:00', end: '06:00' }, pack);
    const found = planned(dayPlan(night, null)[0]);
    expect(found.input.endsAt - found.input.startsAt).toBe(9 * 3_600_000);
    expect(found.plan.feasible).toBe(true);
  });
});

describe('any day that can be posted', () => {
  const clock = (from: number, to: number) =>
    fc.integer({ min: from, max: to }).map((minute) => {
      const [hours, minutes] = [Math.floor(minute / 60), minute % 60];
      return `${String(hours).padStart(2, '0')}:${String(minutes).padStart(2, '0')}`;
    });
  const job = fc
    .record({
      coating: fc.constantFrom('epoxy', 'finish', 'one-pack'),
      rig: fc.constantFrom('rig-1', 'rig-2'),
      area: fc.constantFrom('Gate 1', 'Gate 2', 'Gate 3'),
      areaM2: fc.double({ min: 0.01, max: 3000, noNaN: true }),
      dftUm: fc.integer({ min: 1, max: 2000 }),
      tip: fc.constantFrom(undefined, '309', '517', '631', 'odd'),
      liftM: fc.integer({ min: -150, max: 150 }),
      lossPct: fc.integer({ min: 0, max: 80 }),
    })
    .map((given) => aJob(given));
  const weather = fc.record({
    airC: fc.integer({ min: -5, max: 48 }),
    rhPct: fc.integer({ min: 20, max: 95 }),
    steelC: fc.integer({ min: -5, max: 70 }),
  });
  const anyDay = fc.record({
    jobs: fc.array(job, { minLength: 1, maxLength: 4 }),
    weather: fc.tuple(weather, fc.boolean()).map(([found, sun]) => ({ ...found, sun })),
    forecast: fc.array(
      fc.tuple(clock(240, 1100), weather).map(([at, found]) => ({ at, ...found })),
      { maxLength: 5 },
    ),
    breaks: fc.constantFrom<{ from: string; to: string }[]>(
      [],
      [{ from: '10:00', to: '10:20' }],
      [
        { from: '09:30', to: '10:00' },
        { from: '12:00', to: '13:00' },
      ],
    ),
    end: clock(480, 1260),
  });
  test('no plan ever contains a batch whose use-by passes unflushed', () => {
    let batches = 0;
    const coat = carriedCoat();
    fc.assert(
      fc.property(anyDay, fc.boolean(), (given, carried) => {
        const found = dayOrNull(given);
        fc.pre(found !== null);
        if (!found) return;
        for (const one of dayPlan(found, carried ? coat : null)) {
          if (one.plan === null) continue;
          batches += one.plan.batches.length;
          expect(checkPlan(one.plan, one.input)).toEqual([]);
        }
      }),
      { numRuns: 200, seed: 42 },
    );
    expect(batches).toBeGreaterThan(100);
  });
});

describe('paint per hour', () => {
  test('adds up to what is planned, in hours of the site’s clock', () => {
    const found = day({ start: '07:30', jobs: [aJob({ areaM2: 300, thinnerPct: 4 })] });
    const plan = planned(dayPlan(found, null)[0]).plan;
    const hours = paintPerHour(found, null);
    expect(hours[0]?.from).toBe(t('07:00'));
    expect(hours.at(-1)?.to).toBe(t('16:00'));
    const sum = (of: 'paintL' | 'thinnerL') =>
      hours.flatMap(({ coatings }) => coatings).reduce((all, one) => all + one[of], 0);
    expect(sum('paintL')).toBeCloseTo(plan.totals.coatings[0]?.litres ?? Number.NaN, 6);
    expect(sum('thinnerL')).toBeCloseTo(plan.totals.coatings[0]?.thinnerL ?? Number.NaN, 6);
  });
  test('its solvent is what is not solids, and the thinner: 100 − volume solids of the sheet', () => {
    const found = day({ start: '07:30', jobs: [aJob({ areaM2: 300, thinnerPct: 4 })] });
    const plan = planned(dayPlan(found, null)[0]).plan;
    const [total] = plan.totals.coatings;
    const solids = found.coatings[total?.coating ?? '']?.volumeSolids ?? Number.NaN;
    const sum = solventPerHour(found, null).reduce((all, { litres }) => all + litres, 0);
    expect(sum).toBeCloseTo(((total?.litres ?? 0) * (100 - solids)) / 100 + (total?.thinnerL ?? 0), 6);
  });
  test('an hour in which nothing is sprayed has nothing in it', () => {
    const hours = paintPerHour(day(), null);
    expect(hours.at(-1)?.coatings).toEqual([]);
    // A litre a minute at the most goes through this gun.
    for (const { coatings } of hours)
      for (const { paintL } of coatings) expect(paintL).toBeLessThanOrEqual(60);
  });
});
