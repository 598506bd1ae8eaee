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
    // On a finish only another coat of today waits.
    area: coat === 'finish' ? 'Area 0' : `Frame ${i}`,
    coating: ['grey-epoxy', 'white-urethane'][i % 2] ?? 'grey-epoxy',
    coat,
    firstAt: evening - i * 30 * 3_600_000,
    at: evening - i * 30 * 3_600_000 + 3_600_000,
    steel: i === 2 ? [] : [{ at: evening - i * 30 * 3_600_000, c: 9 + i }],
  })),
};

/** Days that together make every branch of every caution's words be said. Read only. */
export function everyDay(): readonly DayFacts[] {
  days ??= made();
  return days;
}

const noSheets = (facts: DayFacts): DayFacts => without(facts, 'coatings');

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
    withSheet(mixed, 'grey-epoxy', { potLife: undefined, hazards: ['H226', 'H999'] }),
    withSheet(mixed, 'grey-epoxy', { hazards: ['EUH204', 'H317'] }),
    withSheet(mixed, 'grey-epoxy', { hazards: ['H226', 'H334'] }),
    withSheet(mixed, 'white-urethane', { hazards: ['H226'] }),
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
      // Early, open, hotter than the table soon and since yesterday, closing, after this shift, closed.
      coats: (
        [
          [1, 20],
          [0.5, 40],
          [20, 20],
          [20, 40],
          [36, 20],
          [45, 20],
          [60, 20],
        ] as const
      ).map(([hours, c], i) => {
        const firstAt = mixed.day.startsAt - hours * 3_600_000;
        return {
          area: `Hull ${i}`,
          coating: 'grey-epoxy',
          coat: 'primer',
          firstAt,
          at: firstAt,
          steel: [{ at: firstAt, c }],
        };
      }),
    },
  });
  const heats = (['woven', 'polyolefin', 'vapour-barrier'] as const).flatMap((coveralls) =>
    [
      { airC: 28, rhPct: 10 },
      { airC: 28, rhPct: 60 },
      { airC: 31, rhPct: 60 },
      { airC: 33, rhPct: 60, wbgtC: 27.5 },
      { airC: 36, rhPct: 55, wbgtC: 30, sun: true },
      { airC: 40, rhPct: 50 },
      { airC: 45, rhPct: 80 },
      { airC: 14, rhPct: 60, wbgtC: 24.05 },
    ].map((weather) => factsOf({ weather: { ...weather, steelC: weather.airC }, policy: { coveralls } })),
  );
  const late = factsOf({ entry: { start: '22:00', end: '06:00' }, policy: { flushFixedMinutes: 60 } });
  const rinsed = factsOf({ left: muchLeft });
  const oddKit = withSheet(factsOf({ jobs: [job({ thinnerPct: 3 })] }), 'grey-epoxy', {
    mixRatio: { a: 10, b: 1 },
    kitLitres: 5,
  });
  const longBreak = factsOf({ entry: { breaks: [{ from: '10:00', to: '14:00' }] }, left: muchLeft });
  const shortOfAir = withRig(factsOf({ jobs: [job({ liftM: -40 })] }), 'rig-1', { compressorLPerMin: 150 });
  const tiny = withSheet(late, 'grey-epoxy', { potLife: [{ c: 20, minutes: 20 }] });
  const aired = [
    { volumeM3: 4, airM3PerMin: 0 },
    { volumeM3: 60, airM3PerMin: 2.35 },
    { volumeM3: 900, airM3PerMin: 4000 },
  ].flatMap((space) => {
    const inside = { entry: { surroundings: 'confined', space } } as const;
    return [
      factsOf(inside),
      factsOf({ ...inside, jobs: [job({ thinnerPct: 5 })] }),
      noSheets(factsOf(inside)),
    ];
  });
  const known = withSheet(
    factsOf({ entry: { surroundings: 'enclosed' }, jobs: [job({ thinnerPct: 5 })] }),
    'grey-epoxy',
    {
      thinner: { name: 'Solvent E', maxPercent: 10, flashPointC: 4 },
      flushFlashPointC: 12.5,
      vapour: {
        paint: { lelPct: 1, vapourDensity: 3.7, densityKgPerL: 0.87 },
        thinner: { lelPct: 1.4, vapourDensity: 2.5, densityKgPerL: 0.81 },
      },
    },
  );
  const onlyFlush = withSheet(
    factsOf({ entry: { surroundings: 'confined' }, jobs: [job({ coating: 'wall-acrylic' })] }),
    'wall-acrylic',
    { flushSolvent: 'Solvent W' },
  );
  const changing = [0, 1].map((i) =>
    factsOf({
      entry: {
        start: ['07:00', '22:00'][i] ?? '07:00',
        end: ['16:00', '06:00'][i] ?? '16:00',
        forecast: [
          { at: ['09:00', '23:00'][i] ?? '09:00', airC: 31, rhPct: 30, steelC: 31.5 },
          { at: ['12:30', '02:00'][i] ?? '12:30', airC: 3.3, rhPct: 92.5 },
        ],
      },
      jobs: [job(), job({ coating: 'zinc-silicate', area: 'Bow' })],
    }),
  );
  const codedOutdoors = factsOf({ jobs: [job({ coating: 'zinc-silicate' })] });
  const nightOut = factsOf({ policy: { surfaceHours: 24 }, jobs: [job({ preparedAt: '2026-05-11 22:00' })] });
  const winds = [2, 5, 9.5].map((windMps) => factsOf({ weather: { windMps } }));
  const lightHose = withRig(factsOf({ weather: { sun: true } }), 'rig-1', { hoseColour: 'light' });
  const bare = [55, 78].map((rhPct) =>
    factsOf({
      weather: { rhPct },
      jobs: ['06:30', '2026-05-11 16:00', '17:30'].map((preparedAt, i) =>
        job({ preparedAt, area: `Girder ${i}`, coat: i === 0 ? 'repair' : 'primer' }),
      ),
    }),
  );
  const plural = withRig(factsOf(), 'rig-1', { components: 2 });
  const finishing = factsOf({ jobs: [job({ coat: 'finish' })] });
  const quick = withSheet(factsOf(), 'wall-acrylic', { recoat: [{ toC: 25, minHours: 0.75 }] });
  const quickDay = {
    ...quick,
    day: { ...quick.day, entry: factsOf({ jobs: [job({ coating: 'wall-acrylic' })] }).day.entry },
  };
  const ran = (coating: string, solvent: string) => ({ rigs: { 'rig-1': { coating, solvent } } });
  const remembered = [
    ran('grey-epoxy', 'Solvent E'),
    ran('mystery', 'Solvent E'),
    ran('white-urethane', 'Solvent U'),
    {
      experience: {
        ada: { coatings: [], rigs: [] },
        bram: { coatings: ['grey-epoxy'], rigs: ['rig-2'] },
        cleo: { coatings: ['mystery'], rigs: ['rig-1'] },
      },
    },
    {
      experience: Object.fromEntries(
        ['ada', 'bram', 'cleo', 'ewa'].map((id) => [id, { coatings: ['grey-epoxy'], rigs: ['rig-1'] }]),
      ),
    },
  ].map((left) => factsOf({ left }));
  return [
    ...changing,
    codedOutdoors,
    nightOut,
    ...winds,
    lightHose,
    ...bare,
    finishing,
    plural,
    quickDay,
    ...remembered,
    ...aired,
    known,
    onlyFlush,
    ...plain,
    ...bad,
    ...weakParts,
    ...limited,
    closing,
    rinsed,
    longBreak,
    shortOfAir,
    oddKit,
    late,
    tiny,
    ...heats,
  ];
}
