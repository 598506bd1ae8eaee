import type { DayFacts } from '../../src/briefing/rule.ts';
import { flushSteps } from '../../src/model/checks.ts';
import type { CarryOver } from '../../src/model/day.ts';
import { factsOf, job, without, withRig, withSheet } from './days.ts';

const evening = Date.UTC(2026, 4, 11, 15, 0);

/** One of everything a shift can leave behind. */
export const muchLeft: Partial<CarryOver> = {
  tags: [
    // As the rig check writes it: the ids of the failed checks, then the person's own words.
    { rig: 'rig-2', cause: 'check', text: 'earth-lead, filters: earth lead frayed', since: evening },
    { rig: 'rig-1', cause: 'report', text: '', since: evening },
    { rig: 'rig-3', cause: 'not-flushed', text: '', since: evening },
    { rig: 'rig-9', cause: 'flush', text: 'crack in the gun body', since: evening },
  ],
  unflushed: [
    { rig: 'rig-3', coating: 'grey-epoxy', mixedAt: evening },
    { rig: 'rig-1', coating: 'white-urethane', mixedAt: evening },
  ],
  skippedSteps: flushSteps.map((step) => ({ rig: 'rig-1', step, reason: 'rain' })),
  settledSolvent: [
    { rig: 'rig-1', solvent: 'Solvent E', litres: 6.25 },
    { rig: 'rig-2', solvent: 'Solvent E', litres: 3 },
    { rig: 'rig-3', solvent: 'Solvent Z', litres: 0.5 },
  ],
  concerns: [
    { by: 'cleo', person: 'cleo', text: 'the ladder at frame 12 is loose' },
    { by: 'somebody', person: 'somebody', text: 'the fan was off over night' },
  ],
  coats: (['primer', 'stripe', 'intermediate', 'finish', 'repair'] as const).map((coat, i) => ({
    area: `Frame ${i}`,
    coating: ['grey-epoxy', 'white-urethane'][i % 2] ?? 'grey-epoxy',
    coat,
    at: evening - i * 30 * 3_600_000,
    steelC: i === 2 ? null : 14 + i,
    coldestSteelC: i === 2 ? null : 9 + i,
  })),
};

/** Days that together make every branch of every caution's words be said. Read only. */
export function everyDay(): readonly DayFacts[] {
  days ??= made();
  return days;
}

let days: readonly DayFacts[] | null = null;

function made(): readonly DayFacts[] {
  const oneOfEach = ['grey-epoxy', 'white-urethane', 'zinc-silicate', 'wall-acrylic', 'mystery'];
  const places = ['open-air', 'enclosed', 'confined'] as const;
  const climates = [
    { airC: 18, rhPct: 55, steelC: 18 },
    { airC: -7.25, rhPct: 92, steelC: -11 },
    { airC: 34.04, rhPct: 30, steelC: 52, sun: true },
    { airC: 20, rhPct: 82, steelC: undefined },
    { airC: 5, rhPct: 80.5, steelC: 11 },
  ];
  const jobs = oneOfEach.map((coating, i) =>
    job({ coating, rig: `rig-${(i % 3) + 1}`, area: `Area ${i}`, coat: i === 1 ? 'finish' : 'primer' }),
  );
  const plain = places.flatMap((surroundings) =>
    climates.flatMap((weather, i) => [
      factsOf({ entry: { surroundings }, weather, jobs, ...(i === 0 ? {} : { left: muchLeft }) }),
      factsOf({ entry: { surroundings }, weather, jobs: [job({ thinnerPct: 5, airBar: 6.5 })] }),
      factsOf({ entry: { surroundings }, weather, jobs: [job({ coating: 'wall-acrylic', rig: 'rig-2' })] }),
    ]),
  );
  const mixed = factsOf({ jobs, left: muchLeft });
  const bad = [
    without(mixed, 'rigs'),
    without(mixed, 'coatings'),
    without(mixed, 'people'),
    withRig(mixed, 'rig-1', { ratings: [], wheels: 'none' }),
    withRig(mixed, 'rig-1', { mayHoldSettledSolvent: false, drive: 'engine', maxFluidBar: 260 }),
    withSheet(mixed, 'white-urethane', { isocyanate: false, hazards: ['H226'] }),
    withSheet(mixed, 'mystery', { hazards: ['H227'] }),
    withSheet(mixed, 'mystery', { flashPointC: 150, hazards: ['H412'] }),
    withSheet(factsOf({ jobs: [job({ thinnerPct: 5 })] }), 'grey-epoxy', { kitLitres: undefined as never }),
  ];
  const weakParts = (['pump', 'filter', 'swivel', 'gun', 'tip-guard'] as const).map((part) =>
    withRig(mixed, 'rig-1', { ratings: [{ part, bar: 100.5 }] }),
  );
  const limited = [20, 40].map((c) =>
    withSheet(factsOf({ weather: { airC: c, steelC: c, rhPct: 45 } }), 'grey-epoxy', {
      limits: { airMinC: 30, airMaxC: 35, steelMaxC: 35 },
    }),
  );
  const closing = factsOf({
    entry: { others: [] },
    left: {
      coats: [20, 45].map((hours) => ({
        area: 'Hull',
        coating: 'grey-epoxy',
        coat: 'primer',
        at: mixed.day.startsAt - hours * 3_600_000,
        steelC: 20,
        coldestSteelC: 20,
      })),
    },
  });
  const late = factsOf({ entry: { start: '22:00', end: '06:00' }, policy: { flushFixedMinutes: 60 } });
  const rinsed = factsOf({ left: muchLeft });
  const oddKit = withSheet(factsOf({ jobs: [job({ thinnerPct: 3 })] }), 'grey-epoxy', {
    mixRatio: { a: 10, b: 1 },
    kitLitres: 5,
  });
  const tiny = withSheet(late, 'grey-epoxy', { potLife: [{ c: 20, minutes: 20 }] });
  return [...plain, ...bad, ...weakParts, ...limited, closing, rinsed, oddKit, late, tiny];
}
