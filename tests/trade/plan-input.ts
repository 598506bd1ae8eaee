import fc from 'fast-check';
import type { PlanInput, PlanJob } from '../../src/trade/plan/types.ts';

export const MIN = 60_000;
export const HOUR = 60 * MIN;
/** The test day begins at seven in the morning. */
export const START = Date.UTC(2026, 4, 12, 7, 0);
export const at = (time: string): number => {
  const [hours = 0, minutes = 0] = time.split(':').map(Number);
  return Date.UTC(2026, 4, 12, hours, minutes);
};

/** Two hours of pot life at 20 °C, 20 L kits 4 : 1, a litre a minute: figures to work with in the head. */
export const aPlanJob = (given: Partial<PlanJob> = {}): PlanJob => ({
  coating: 'epoxy',
  litres: 20,
  areaM2: 80,
  ratio: { a: 4, b: 1 },
  kitLitres: 20,
  thinnerPct: 0,
  potLife: [
    { c: 20, minutes: 120 },
    { c: 30, minutes: 60 },
  ],
  induction: [],
  sprayLPerMin: 1,
  closed: [],
  ...given,
});

/** 07:00 to 16:00, 20 °C, a flush of 14 min with 12 L and 6 L, three line volumes of 2 L to renew. */
export const anInput = (given: Partial<PlanInput> = {}): PlanInput => ({
  startsAt: START,
  endsAt: at('16:00'),
  breaks: [],
  jobs: [aPlanJob()],
  paintC: [{ at: START, c: 20 }],
  coldC: [{ at: START, c: 20 }],
  hose: { towardsC: [{ at: START, c: 20 }], timeConstantMinutes: 15 },
  reserveFraction: 0.25,
  flushMinutes: 14,
  primaryL: 12,
  secondaryL: 6,
  renewL: 6,
  setupMinutes: 15,
  mixMinutes: 10,
  mostPotLitres: 40,
  ...given,
});

const minutes = (min: number, max: number) => fc.integer({ min, max });

const potLife = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 45 }), fc.integer({ min: 2, max: 700 })), {
    minLength: 1,
    maxLength: 3,
  })
  .map((points) => {
    const byC = new Map(points);
    let last = Number.POSITIVE_INFINITY;
    return [...byC]
      .sort(([x], [y]) => x - y)
      .map(([c, length]) => {
        last = Math.min(last, length);
        return { c, minutes: last };
      });
  })
  .filter((points) =>
    points.every((point, i) => {
      const before = points[i - 1];
      return !before || (before.minutes / point.minutes) ** (10 / (point.c - before.c)) <= 20;
    }),
  );

const steps = fc
  .array(fc.record({ hour: fc.integer({ min: -1, max: 12 }), c: fc.integer({ min: -5, max: 50 }) }), {
    minLength: 1,
    maxLength: 6,
  })
  .map((list) => list.map(({ hour, c }) => ({ at: START + hour * HOUR, c })));

const closed = fc.array(
  fc
    .record({ from: minutes(-60, 600), length: minutes(0, 300), why: fc.constantFrom('weather', 'recoat') })
    .map(({ from, length, why }) => ({ from: START + from * MIN, to: START + (from + length) * MIN, why })),
  { maxLength: 3 },
);

/** What is on the sheet: the same for every job with that coating. */
const sheet = fc.record({
  ratio: fc.record({ a: fc.integer({ min: 1, max: 10 }), b: fc.integer({ min: 1, max: 4 }) }),
  kitLitres: fc.option(fc.constantFrom(0.7, 4, 5, 12, 20, 37, 200), { nil: null }),
  potLife: fc.option(potLife, { nil: null, freq: 6 }),
  induction: fc.oneof(
    fc.constant([]),
    minutes(0, 120).map((length) => [{ c: 15, minutes: length }]),
  ),
});

const work = fc.record({
  second: fc.boolean(),
  litres: fc.double({ min: 0.1, max: 300, noNaN: true }),
  areaM2: fc.double({ min: 1, max: 2000, noNaN: true }),
  thinnerPct: fc.constantFrom(0, 3, 10, 50),
  sprayLPerMin: fc.double({ min: 0.01, max: 4, noNaN: true }),
  closed: closed as fc.Arbitrary<PlanJob['closed']>,
});

const jobs = fc
  .tuple(sheet, sheet, fc.array(work, { minLength: 1, maxLength: 3 }))
  .map(([a, b, list]) =>
    list.map(
      ({ second, ...rest }): PlanJob => ({ coating: second ? 'b' : 'a', ...(second ? b : a), ...rest }),
    ),
  );

const breaks = fc
  .array(fc.record({ from: minutes(0, 500), length: minutes(0, 70) }), { maxLength: 4 })
  .map((list) =>
    list.map(({ from, length }) => ({
      from: START + from * MIN,
      to: START + Math.min(540, from + length) * MIN,
    })),
  );

/** Nine-hour days of every sort, sensible and absurd: flushes longer than the pot life, breaks all day, paint of minutes. */
export const anyInput: fc.Arbitrary<PlanInput> = fc
  .record({
    startsAt: fc.constant(START),
    endsAt: minutes(20, 540).map((length) => START + length * MIN),
    breaks,
    jobs,
    paintC: steps,
    coldC: steps,
    hose: fc.record({ towardsC: steps, timeConstantMinutes: fc.integer({ min: 1, max: 60 }) }),
    reserveFraction: fc.double({ min: 0, max: 0.95, noNaN: true }),
    flushMinutes: fc.oneof(
      fc.double({ min: 0, max: 40, noNaN: true }),
      fc.double({ min: 0, max: 1440, noNaN: true }),
    ),
    primaryL: fc.double({ min: 0, max: 50, noNaN: true }),
    secondaryL: fc.double({ min: 0, max: 50, noNaN: true }),
    renewL: fc.double({ min: 0, max: 40, noNaN: true }),
    setupMinutes: minutes(0, 60),
    mixMinutes: minutes(0, 30),
    mostPotLitres: fc.double({ min: 0.5, max: 100, noNaN: true }),
  })
  .map((input) => ({
    ...input,
    breaks: input.breaks.map((one) => ({
      from: Math.min(one.from, input.endsAt),
      to: Math.min(one.to, input.endsAt),
    })),
  }));
