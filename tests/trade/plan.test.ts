import { describe, expect, test } from 'vitest';
import { planRig } from '../../src/trade/plan/plan-rig.ts';
import type { PlanBatch, PlanInput } from '../../src/trade/plan/types.ts';
import { potLifeMinutes } from '../../src/trade/pot-life.ts';
import { TradeRefusal } from '../../src/trade/refusal.ts';
import { checkPlan } from './check-plan.ts';
import { anInput, aPlanJob, at, MIN, START } from './plan-input.ts';

/** "07:15", so that a wrong time reads as one. */
const clock = (ms: number | null) => (ms === null ? null : new Date(ms).toISOString().slice(11, 16));

/** A plan that has been walked through by the checker. */
function planned(given: Partial<PlanInput>) {
  const input = anInput(given);
  const plan = planRig(input);
  expect(checkPlan(plan, input)).toEqual([]);
  return plan;
}

describe('one kit, worked out by hand', () => {
  // 07:00 start, 15 min to set up; mixing 10 min; 20 L at 1 L/min; 120 min at 20 °C, a quarter kept; flush 14 min.
  const { batches, flushes, totals, feasible, limits } = planned({});
  test('is mixed so that it is ready when the rig is', () => {
    const [one] = batches;
    expect(batches).toHaveLength(1);
    expect([clock(one?.mixFrom ?? 0), clock(one?.ready ?? 0)]).toEqual(['07:05', '07:15']);
    expect([clock(one?.sprayFrom ?? 0), clock(one?.sprayTo ?? 0)]).toEqual(['07:15', '07:35']);
  });
  test('has the times of every other clock: use by 90 of 120 min, flush begun 14 min before the end', () => {
    const [one] = batches;
    expect([one?.useBy, one?.startFlushBy, one?.deadAt].map((ms) => clock(ms ?? null))).toEqual([
      '08:35',
      '08:51',
      '09:05',
    ]);
  });
  test('is 16 L to 4 L, one full kit, nothing measured', () => {
    expect(batches[0]).toMatchObject({ aL: 16, bL: 4, kits: 1, measuredL: 0, thinnerL: 0 });
    expect(totals.coatings).toEqual([{ coating: 'epoxy', litres: 20, kits: 1, thinnerL: 0 }]);
  });
  test('is flushed at once, with the solvent of one flush', () => {
    expect(flushes).toEqual([
      { from: at('07:35'), to: at('07:49'), job: 0, why: 'end', primaryL: 12, secondaryL: 6 },
    ]);
    expect(totals).toMatchObject({ primaryL: 12, secondaryL: 6, coveredM2: 80, areaM2: 80 });
  });
  test('all of it is sprayed: the paint is the first limit', () => {
    expect(feasible).toBe(true);
    expect(limits[0]?.kind).toBe('paint');
  });
});

describe('the size of batches', () => {
  test('as many full kits as fit into the pot and the use-by, the rest measured in the last one', () => {
    const { batches } = planned({ jobs: [aPlanJob({ litres: 70 })] });
    expect(batches.map(({ litres, kits, measuredL }) => [litres, kits, measuredL])).toEqual([
      [40, 2, 0],
      [30, 1, 10],
    ]);
  });
  test('a pot life that two kits would outlast makes it one kit a batch', () => {
    // 10 min to mix, 40 to spray and 14 to flush are 64: inside 75 usable minutes of 100, not inside 60 of 80.
    const two = planned({ jobs: [aPlanJob({ litres: 80, potLife: [{ c: 20, minutes: 100 }] })] });
    expect(two.batches[0]?.kits).toBe(2);
    const one = planned({ jobs: [aPlanJob({ litres: 80, potLife: [{ c: 20, minutes: 80 }] })] });
    expect(one.batches.map(({ kits }) => kits)).toEqual([1, 1, 1, 1]);
  });
  test('one full kit larger than the largest pot is still mixed whole', () => {
    const { batches } = planned({ jobs: [aPlanJob({ litres: 60, kitLitres: 60 })], mostPotLitres: 40 });
    expect(batches.map(({ kits }) => kits)).toEqual([1]);
  });
  test('without a kit size the batches are measured', () => {
    const { batches } = planned({ jobs: [aPlanJob({ litres: 100, kitLitres: null })] });
    expect(batches.reduce((sum, { litres }) => sum + litres, 0)).toBeCloseTo(100, 6);
    expect(batches.every(({ kits, measuredL }) => kits === null && measuredL > 0)).toBe(true);
  });
});

describe('standing time', () => {
  test('runs from the end of mixing, at the coldest it may be, and uses up pot life', () => {
    const { batches } = planned({
      jobs: [
        aPlanJob({
          induction: [
            { c: 10, minutes: 30 },
            { c: 20, minutes: 20 },
          ],
        }),
      ],
      coldC: [{ at: START, c: 15 }],
    });
    // Half way between 30 and 20 min. Mixing begins with the shift.
    expect([batches[0]?.mixFrom, batches[0]?.mixTo, batches[0]?.ready].map((ms) => clock(ms ?? 0))).toEqual([
      '07:00',
      '07:10',
      '07:35',
    ]);
    expect(clock(batches[0]?.useBy ?? 0)).toBe('08:30');
    expect(batches[0]?.standsLonger).toBe(false);
  });
  test('colder than the sheet it says that nobody knows how long', () => {
    const { batches } = planned({
      jobs: [aPlanJob({ induction: [{ c: 15, minutes: 10 }] })],
      coldC: [{ at: START, c: 8 }],
    });
    expect(batches[0]?.standsLonger).toBe(true);
  });
});

describe('breaks and the end', () => {
  const breaks = [{ from: at('08:00'), to: at('08:30') }];
  test('a line whose paint lasts over the break is kept, and fresh paint pushes it out after', () => {
    const { batches, flushes } = planned({
      breaks,
      jobs: [aPlanJob({ litres: 60, potLife: [{ c: 20, minutes: 300 }] })],
      mostPotLitres: 20,
    });
    const over = batches.find(({ sprayTo, outAt }) => sprayTo <= at('08:00') && outAt > at('08:30'));
    expect(over).toBeDefined();
    expect(flushes.map(({ why }) => why)).toEqual(['end']);
  });
  test('one whose paint would not last is flushed before the break', () => {
    const { flushes } = planned({
      breaks: [{ from: at('08:00'), to: at('09:00') }],
      jobs: [aPlanJob({ litres: 40, potLife: [{ c: 20, minutes: 80 }] })],
    });
    expect(flushes.map(({ why }) => why)).toEqual(['break', 'end']);
    expect(flushes[0]?.to).toBeLessThanOrEqual(at('08:00'));
  });
  test('sun on a standing hose makes the difference', () => {
    const day = {
      breaks,
      jobs: [
        aPlanJob({
          litres: 40,
          potLife: [
            { c: 20, minutes: 120 },
            { c: 30, minutes: 60 },
          ],
        }),
      ],
    };
    const shade = planned({ ...day, mostPotLitres: 20 });
    const sun = planned({
      ...day,
      mostPotLitres: 20,
      hose: { towardsC: [{ at: START, c: 60 }], timeConstantMinutes: 10 },
    });
    expect(shade.flushes.map(({ why }) => why)).toEqual(['end']);
    expect(sun.flushes.map(({ why }) => why)).toEqual(['break', 'end']);
  });
  test('a batch longer than the whole stretch is sprayed over the break; a shorter one waits for after it', () => {
    const slow = { kitLitres: 20, potLife: [{ c: 20, minutes: 600 }], sprayLPerMin: 0.2 };
    const over = planned({ breaks, jobs: [aPlanJob(slow)] });
    expect(over.batches[0]?.sprayFrom).toBeLessThan(at('08:00'));
    expect(over.batches[0]?.sprayTo).toBeGreaterThan(at('08:30'));
    const waits = planned({ breaks, jobs: [aPlanJob({ ...slow, sprayLPerMin: 0.4, litres: 20 })] });
    expect(waits.batches[0]?.sprayFrom).toBeGreaterThanOrEqual(at('08:30'));
  });
  test('the last mixing time is the latest from which one kit is sprayed, and at the end flushed, in time', () => {
    const { lastMixes } = planned({ breaks });
    // Break 08:00: 20 min to spray, 10 to mix: 07:30. The line lasts over the break (30 + 30 + 14 of 90 min).
    // End 16:00: 14 min to flush, 20 to spray, 10 to mix: 15:16.
    expect(lastMixes.map(({ before, mixBy, litres }) => [before, clock(mixBy), litres])).toEqual([
      ['break', '07:30', 20],
      ['end', '15:16', 20],
    ]);
  });
  test('where no batch fits before a break there is no last mixing time', () => {
    const { lastMixes } = planned({ breaks: [{ from: at('07:20'), to: at('07:40') }] });
    expect(lastMixes[0]).toMatchObject({ before: 'break', mixBy: null });
  });
});

describe('several jobs', () => {
  test('another coating is sprayed only after a full flush, in the order of entry', () => {
    const { batches, flushes } = planned({
      jobs: [aPlanJob(), aPlanJob({ coating: 'finish', litres: 10, kitLitres: 10 })],
    });
    expect(batches.map(({ job }) => job)).toEqual([0, 1]);
    expect(flushes.map(({ why }) => why)).toEqual(['coating-change', 'end']);
    expect(batches[1]?.sprayFrom).toBeGreaterThanOrEqual(flushes[0]?.to ?? Number.POSITIVE_INFINITY);
  });
  test('the same coating needs none between two jobs', () => {
    const { flushes } = planned({ jobs: [aPlanJob(), aPlanJob({ areaM2: 30 })] });
    expect(flushes.map(({ why }) => why)).toEqual(['end']);
  });
  test('a one-pack has no clock and is flushed all the same', () => {
    const { batches, flushes } = planned({
      jobs: [aPlanJob({ ratio: null, potLife: null, kitLitres: null, litres: 15 })],
    });
    expect(batches[0]).toMatchObject({ useBy: null, deadAt: null, aL: 15, bL: 0 });
    expect(flushes).toHaveLength(1);
  });
});

describe('weather and recoat windows', () => {
  test('nothing is mixed or sprayed while the weather is outside the limits, and it is named as a limit', () => {
    const closed = [{ from: START, to: at('10:00'), why: 'weather' as const }];
    const { batches, limits } = planned({ jobs: [aPlanJob({ closed })] });
    expect(clock(batches[0]?.mixFrom ?? 0)).toBe('10:00');
    expect(limits.map(({ kind }) => kind)).toContain('weather');
  });
  test('a recoat window that opens at ten: mixed before it, sprayed from then on', () => {
    const closed = [{ from: START, to: at('10:00'), why: 'recoat' as const }];
    const { batches, limits } = planned({ jobs: [aPlanJob({ closed })] });
    expect([clock(batches[0]?.mixFrom ?? 0), clock(batches[0]?.sprayFrom ?? 0)]).toEqual(['09:50', '10:00']);
    expect(limits.map(({ kind }) => kind)).toContain('recoat');
  });
  test('closed all day it is not feasible, and the reason is that window', () => {
    for (const why of ['weather', 'recoat'] as const) {
      const plan = planned({ jobs: [aPlanJob({ closed: [{ from: START, to: at('16:00'), why }] })] });
      expect([plan.feasible, plan.reason, plan.batches.length]).toEqual([false, why, 0]);
    }
  });
});

describe('what does not fit', () => {
  test('a pot life shorter than its flush: nothing is planned, and pot life is the reason', () => {
    const plan = planned({ jobs: [aPlanJob({ potLife: [{ c: 20, minutes: 12 }] })] });
    expect([plan.feasible, plan.reason]).toEqual([false, 'pot-life']);
    expect([plan.batches, plan.flushes, plan.changes]).toEqual([[], [], []]);
  });
  test('a flush longer than the shift: nothing is loaded that could not be got out again', () => {
    const plan = planned({ flushMinutes: 700 });
    expect([plan.feasible, plan.batches.length]).toEqual([false, 0]);
  });
  test('a kit too large for its use-by: smaller, measured batches are the nearest change', () => {
    // 40 min usable less 10 to mix and 14 to flush leave 16 L at 1 L/min; a kit is 20.
    const plan = planned({ jobs: [aPlanJob({ potLife: [{ c: 20, minutes: 54 }] })] });
    expect([plan.feasible, plan.reason, plan.changes[0]?.kind]).toEqual([false, 'kits', 'part-kits']);
  });
  test('too much for the shift: later by as much as is missing, or what can be left', () => {
    // 07:15 to 15:46 at 1 L/min with fresh paint on the line throughout is 511 L; 520 L need 15 min more.
    const plan = planned({
      jobs: [aPlanJob({ litres: 520, areaM2: 520, potLife: [{ c: 20, minutes: 600 }] })],
    });
    expect([plan.feasible, plan.reason]).toEqual([false, 'flow']);
    expect(plan.changes[0]).toEqual({ kind: 'earlier', minutes: 15 });
    expect(plan.changes.at(-1)).toEqual({ kind: 'less', leftM2: 20 });
    expect(plan.jobs[0]).toMatchObject({ complete: false, coveredM2: 500 });
  });
  test('each change that is offered does what it says', () => {
    const day: Partial<PlanInput> = {
      jobs: [aPlanJob({ litres: 900, areaM2: 900, potLife: [{ c: 20, minutes: 600 }] })],
    };
    const plan = planned(day);
    const faster = plan.changes.find((change) => change.kind === 'faster');
    expect(faster?.kind).toBe('faster');
    const times = faster?.kind === 'faster' ? faster.factor : 1;
    const with_ = (sprayLPerMin: number) =>
      planned({ jobs: [aPlanJob({ ...day.jobs?.[0], sprayLPerMin })] }).feasible;
    expect(with_(times)).toBe(true);
    expect(with_(1)).toBe(false);
    expect(plan.changes.map(({ kind }) => kind)).toContain('rig');
    expect(planned({ jobs: [aPlanJob({ ...day.jobs?.[0], litres: 450 })] }).feasible).toBe(true);
  });
});

describe('warmth', () => {
  test('a forecast that warms the paint shortens the use-by by the sheet', () => {
    const cool = planned({});
    const warm = planned({ paintC: [{ at: START, c: 30 }] });
    expect(potLifeMinutes([{ c: 30, minutes: 60 }], 30).minutes).toBe(60);
    // 45 of 60 min from 07:05.
    expect(clock(warm.batches[0]?.useBy ?? 0)).toBe('07:50');
    expect(warm.batches[0]?.useBy).toBeLessThan(cool.batches[0]?.useBy ?? 0);
  });
});

describe('input that cannot be', () => {
  const bad: readonly (readonly [string, Partial<PlanInput>])[] = [
    ['endsAt', { endsAt: START - MIN }],
    ['startsAt', { startsAt: Number.NaN }],
    ['jobs', { jobs: [] }],
    ['jobs[0].litres', { jobs: [aPlanJob({ litres: 0 })] }],
    ['jobs[0].sprayLPerMin', { jobs: [aPlanJob({ sprayLPerMin: 0 })] }],
    ['jobs[0].kitLitres', { jobs: [aPlanJob({ kitLitres: -1 })] }],
    [
      'jobs[0].closed[0].to',
      { jobs: [aPlanJob({ closed: [{ from: START, to: START - 1, why: 'recoat' }] })] },
    ],
    ['jobs[1].potLife', { jobs: [aPlanJob(), aPlanJob({ potLife: [{ c: 20, minutes: 90 }] })] }],
    ['paintC', { paintC: [] }],
    ['coldC[0].c', { coldC: [{ at: START, c: 400 }] }],
    ['hose.timeConstantMinutes', { hose: { towardsC: [{ at: START, c: 20 }], timeConstantMinutes: 0 } }],
    ['reserveFraction', { reserveFraction: 1 }],
    ['flushMinutes', { flushMinutes: -1 }],
    ['breaks[0].from', { breaks: [{ from: START - MIN, to: START }] }],
    ['mostPotLitres', { mostPotLitres: Number.POSITIVE_INFINITY }],
  ];
  test.each(bad)('%s is refused by its name', (field, given) => {
    let caught: unknown;
    try {
      planRig(anInput(given));
    } catch (error) {
      caught = error;
    }
    expect(caught).toBeInstanceOf(TradeRefusal);
    expect((caught as TradeRefusal).field).toBe(field);
  });
});

describe('the checker', () => {
  const input = anInput({ jobs: [aPlanJob({ litres: 60 })] });
  const good = planRig(input);
  const [first, second] = good.batches as readonly [PlanBatch, PlanBatch];
  test('finds nothing in a good plan', () => {
    expect(checkPlan(good, input)).toEqual([]);
  });
  test.each([
    ['paint left in the line', { ...good, flushes: [] }],
    [
      'a flush after the use-by',
      {
        ...good,
        flushes: good.flushes.map((flush) => ({
          ...flush,
          from: flush.from + 90 * MIN,
          to: flush.to + 90 * MIN,
        })),
      },
    ],
    ['a wrong ratio', { ...good, batches: [{ ...first, aL: 33, bL: 7 }, second] }],
    [
      'a batch sprayed before it is ready',
      {
        ...good,
        batches: [{ ...first, ready: first.sprayFrom + MIN }, second],
      },
    ],
    ['work called done that is not', { ...good, batches: [first] }],
  ])('finds %s', (_what, broken) => {
    expect(checkPlan(broken, input)).not.toEqual([]);
  });
});
