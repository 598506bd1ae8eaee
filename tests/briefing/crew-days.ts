import type { Grade, Params } from '../../src/briefing/caution.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import type { Rig } from '../../src/model/rig.ts';
import { factsOf, job, withRig, withSheet } from './days.ts';
import { muchLeft } from './every-day.ts';

/** A day somebody could have, and what its crew must and must not be told. */
export interface CrewDay {
  readonly facts: DayFacts;
  /** In this order; others may stand between them. */
  readonly says: readonly string[];
  readonly never: readonly string[];
  /** Figures and cases, in the reason or in one of the rows. */
  readonly figures: readonly (readonly [id: string, figures: Params])[];
  readonly grades?: Readonly<Record<string, Grade>>;
}

const evening = Date.UTC(2026, 4, 11, 15, 0);
const tank = { surroundings: 'confined' } as const;
const alkyd = withSheet(
  factsOf({ jobs: [job({ coating: 'wall-acrylic', areaM2: 60 })], weather: { windMps: 8 } }),
  'wall-acrylic',
  {
    family: 'alkyd',
    flashPointC: 38,
    hazards: ['H226', 'H336', 'EUH066'],
    flushSolvent: 'Solvent A',
    flushFlashPointC: 41,
  },
);
const noRatio = (() => {
  const base = factsOf();
  const { ratio: _ratio, ...rest } = base.day.rigs['rig-1'] as Rig;
  return { ...base, day: { ...base.day, rigs: { ...base.day.rigs, 'rig-1': rest as Rig } } };
})();
const twoPack = ['leftover-paint', 'pot-life', 'mixing'];
const fire = ['ignition', 'earthing'];
const closed = ['confined-space', 'vapour'];

/** Everything in them is invented. */
export const crewDays: Readonly<Record<string, CrewDay>> = {
  'epoxy outdoors in winter': {
    facts: factsOf({ weather: { airC: 2, rhPct: 80, steelC: 0 } }),
    says: ['injection', 'pressure-relief', ...fire, 'breathing', 'pot-life', 'weather', 'cold'],
    never: ['heat-for-people', ...closed],
    figures: [
      ['weather', { limit: 'steel_min', state: 'missed', value: 0, allowed: 10 }],
      ['cold', { airC: 2 }],
      // No credit for the cold: the coldest line of the sheet.
      ['pot-life', { minutes: 300, useBy: 225 }],
    ],
  },
  'polyurethane in a tank in summer': {
    facts: factsOf({
      entry: tank,
      jobs: [job({ coating: 'white-urethane', coat: 'finish' })],
      weather: { airC: 33, rhPct: 60, steelC: 36 },
    }),
    says: ['confined-space', 'injection', 'ignition', 'vapour', 'earthing', 'breathing', 'heat-for-people'],
    never: ['cold', 'wind', 'surface-time'],
    figures: [
      ['breathing', { air: 'fed', isocyanate: 'yes' }],
      ['ignition', { warm: 'yes', place: 'confined' }],
      ['ignition', { flash: 24 }],
      ['heat-for-people', { airC: 33, place: 'confined' }],
      ['tip-and-filters', { finish: 'yes' }],
    ],
    grades: { vapour: 'stop' },
  },
  'zinc silicate in dry air': {
    facts: factsOf({
      jobs: [job({ coating: 'zinc-silicate' })],
      weather: { airC: 24, rhPct: 32, steelC: 24 },
    }),
    says: ['earthing', 'breathing', 'weather', 'wash-pot'],
    never: ['heat-for-people', ...closed],
    figures: [
      ['weather', { limit: 'rh_min', state: 'missed', value: 32, allowed: 50 }],
      ['earthing', { air: 'dry', rh: 32 }],
      ['breathing', { air: 'mask', isocyanate: 'no' }],
    ],
  },
  'a tank lining with a plural-component rig': {
    facts: withRig(factsOf({ entry: tank, jobs: [job({ rig: 'rig-2' })] }), 'rig-2', { components: 2 }),
    says: ['confined-space', 'injection', 'pressure-relief', 'vapour'],
    never: ['rig-tagged', 'wind'],
    figures: [
      ['pressure-relief', { rig: 'Rig 2', about: 'power', drive: 'electric' }],
      ['pressure-relief', { rig: 'Rig 2', about: 'sides' }],
      ['injection', { rig: 'Rig 2', bar: 180 }],
    ],
  },
  'two rigs with different coatings': {
    facts: factsOf({ jobs: [job(), job({ rig: 'rig-2', coating: 'white-urethane', area: 'Deck' })] }),
    says: ['injection', 'pressure-relief', 'earthing', 'pot-life', 'flush'],
    never: ['rig-tagged', 'unflushed-line', ...closed],
    figures: [
      ['injection', { rig: 'Rig 1', bar: 225 }],
      ['injection', { rig: 'Rig 2', bar: 180 }],
      ['earthing', { rig: 'Rig 2', wheels: 'metal' }],
      ['flush', { rig: 'Rig 2', solvent: 'Solvent U', state: 'known' }],
    ],
  },
  'a night shift': {
    facts: factsOf({ entry: { start: '22:00', end: '06:00' }, weather: { airC: 8, rhPct: 60, steelC: 12 } }),
    says: ['injection', 'pot-life', 'flush'],
    never: ['cold', 'heat-for-people', 'weather'],
    figures: [['flush', { startBy: '2026-05-13 05:47' }]],
  },
  'one-pack alkyd on a windy bridge': {
    facts: alkyd,
    says: [...fire, 'breathing', 'skin-and-eyes', 'flush', 'wind'],
    never: [...twoPack, ...closed],
    figures: [
      ['wind', { state: 'strong', mps: 8, limit: 6.7 }],
      ['ignition', { flash: 38, flushC: 41 }],
      ['breathing', { codes: 'H336' }],
      ['skin-and-eyes', { codes: 'EUH066' }],
    ],
    grades: { wind: 'must' },
  },
  'waterborne acrylic in a hall': {
    facts: factsOf({ entry: { surroundings: 'enclosed' }, jobs: [job({ coating: 'wall-acrylic' })] }),
    says: ['confined-space', 'injection', 'breathing', 'flush'],
    never: [...fire, 'vapour', ...twoPack, 'wind'],
    figures: [['breathing', { air: 'fed', isocyanate: 'no' }]],
  },
  'hot steel in the sun': {
    facts: withSheet(factsOf({ weather: { airC: 30, rhPct: 40, steelC: 48, sun: true } }), 'grey-epoxy', {
      limits: { steelMinC: 10, steelMaxC: 40 },
    }),
    says: ['ignition', 'heat-for-people', 'pot-life', 'weather'],
    never: ['cold', ...closed],
    figures: [
      ['weather', { limit: 'steel_max', state: 'missed', value: 48, allowed: 40 }],
      ['pot-life', { minutes: 90, sun: 'yes' }],
      ['heat-for-people', { airC: 30, sun: 'yes' }],
      ['hose-and-fittings', { rig: 'Rig 1', sun: 'dark' }],
    ],
  },
  'a gun 60 m above the pump': {
    facts: factsOf({ jobs: [job({ liftM: 60 })] }),
    says: ['injection', 'hose-and-fittings'],
    never: ['rig-tagged'],
    // The pump end has the full pressure, however high the gun is.
    figures: [['injection', { bar: 225 }]],
    grades: { 'hose-and-fittings': 'must' },
  },
  'a gun 80 m below the pump': {
    facts: factsOf({ jobs: [job({ airBar: 6, liftM: -80 })] }),
    says: ['injection', 'hose-and-fittings', 'pressure-relief'],
    never: ['rig-tagged'],
    // 45 × 6 = 270 bar; 1600 kg/m³ × 9.80665 m/s² × 80 m = 12.6 bar of paint on top.
    figures: [['hose-and-fittings', { problem: 'over', part: 'hose', bar: 283, rating: 280 }]],
    grades: { 'hose-and-fittings': 'stop' },
  },
  'more air than the hose is rated for': {
    facts: factsOf({ jobs: [job({ airBar: 6.5 })] }),
    says: ['injection', 'hose-and-fittings', 'pressure-relief'],
    never: ['unflushed-line'],
    figures: [['hose-and-fittings', { problem: 'over', bar: 293, rating: 280 }]],
    grades: { 'hose-and-fittings': 'stop' },
  },
  'a hose without a stamp': {
    facts: factsOf({ jobs: [job({ rig: 'rig-3' })] }),
    says: ['injection', 'hose-and-fittings', 'pressure-relief'],
    never: ['rig-tagged'],
    figures: [['hose-and-fittings', { rig: 'Rig 3', problem: 'rating_unknown', part: 'hose', bar: 340 }]],
    grades: { 'hose-and-fittings': 'stop' },
  },
  'a rig whose ratio nobody wrote down': {
    facts: noRatio,
    says: ['injection', 'hose-and-fittings'],
    never: ['rig-tagged'],
    figures: [['injection', { rig: 'Rig 1', state: 'unknown' }]],
    grades: { 'hose-and-fittings': 'stop' },
  },
  'a tagged rig carried over': {
    facts: factsOf({ left: { tags: muchLeft.tags?.slice(0, 1) ?? [] } }),
    says: ['injection', 'rig-tagged', 'pressure-relief'],
    never: ['unflushed-line', 'missed-steps', 'open-concerns'],
    figures: [['rig-tagged', { rig: 'Rig 2', cause: 'check', text: 'earth lead frayed' }]],
  },
  'a line left full of paint': {
    facts: factsOf({ left: { unflushed: [{ rig: 'rig-1', coating: 'grey-epoxy', mixedAt: evening }] } }),
    says: ['injection', 'unflushed-line', 'pressure-relief'],
    never: ['rig-tagged', 'missed-steps'],
    // 15:00 UTC is 16:00 in Lisbon in May.
    figures: [['unflushed-line', { rig: 'Rig 1', coating: 'Grey epoxy', when: '2026-05-11 16:00' }]],
  },
  'a step of the flush left out yesterday': {
    facts: factsOf({ left: { skippedSteps: [{ rig: 'rig-1', step: 'secondary', reason: 'rain' }] } }),
    says: ['injection', 'missed-steps', 'flush'],
    never: ['unflushed-line', 'rig-tagged'],
    figures: [['missed-steps', { rig: 'Rig 1', step: 'secondary', reason: 'rain' }]],
  },
  'concerns that nobody answered': {
    facts: factsOf({ left: { concerns: muchLeft.concerns ?? [] } }),
    says: ['injection', 'first-response', 'open-concerns', 'flush'],
    never: ['rig-tagged', 'unflushed-line'],
    figures: [
      ['open-concerns', { count: 2 }],
      ['open-concerns', { by: 'Cleo', text: 'the ladder at frame 12 is loose' }],
    ],
  },
  'a crew that is new here': {
    facts: factsOf({ left: { experience: { ada: { coatings: [], rigs: [] } } } }),
    says: ['injection', 'first-response', 'new-today', 'flush'],
    never: ['open-concerns'],
    figures: [
      ['new-today', { person: 'Bram', state: 'starter' }],
      ['new-today', { person: 'Cleo', state: 'starter' }],
    ],
  },
  'settled solvent of the right kind': {
    facts: factsOf({ left: { settledSolvent: [{ rig: 'rig-1', solvent: 'Solvent E', litres: 6.25 }] } }),
    says: ['flush', 'solvent-carry-over', 'waste'],
    never: ['unflushed-line'],
    figures: [
      ['solvent-carry-over', { use: 'rinse', litres: 6.3 }],
      ['flush', { settled: 'all' }],
    ],
  },
  'settled solvent of the wrong kind': {
    facts: factsOf({ left: { settledSolvent: [{ rig: 'rig-1', solvent: 'Solvent U', litres: 6 }] } }),
    says: ['flush', 'solvent-carry-over'],
    never: ['unflushed-line'],
    figures: [
      ['solvent-carry-over', { use: 'wrong' }],
      ['flush', { settled: 'none' }],
    ],
  },
  'paint with a sheet that says nothing': {
    facts: factsOf({ jobs: [job({ coating: 'mystery' })] }),
    says: [...fire, 'breathing', 'skin-and-eyes'],
    never: [...twoPack, ...closed],
    figures: [
      ['breathing', { air: 'fed' }],
      ['ignition', { warm: 'yes' }],
      ['ignition', { basis: 'unknown' }],
    ],
  },
  'a polyurethane entered without isocyanate': {
    facts: withSheet(factsOf({ jobs: [job({ coating: 'white-urethane' })] }), 'white-urethane', {
      isocyanate: false,
      hazards: ['H226'],
    }),
    says: ['breathing', 'not-known', 'skin-and-eyes', 'pot-life'],
    never: closed,
    figures: [
      ['breathing', { air: 'fed', isocyanate: 'yes' }],
      ['breathing', { basis: 'doubt' }],
      ['skin-and-eyes', { codes: 'none' }],
    ],
  },
  'a hall with no fan': {
    facts: factsOf({ entry: { surroundings: 'enclosed', space: { volumeM3: 900, airM3PerMin: 0 } } }),
    says: ['confined-space', 'injection', 'ignition', 'vapour', 'breathing'],
    never: ['wind'],
    figures: [['vapour', { given: 'none', size: 'known' }]],
    grades: { vapour: 'stop' },
  },
  'a tank whose size nobody wrote down': {
    facts: factsOf({ entry: tank }),
    says: ['confined-space', 'ignition', 'vapour', 'breathing'],
    never: ['wind'],
    figures: [['vapour', { given: 'unknown', size: 'unknown' }]],
    grades: { vapour: 'stop' },
  },
  'as much thinner as the sheet allows': {
    facts: factsOf({ jobs: [job({ thinnerPct: 10 })] }),
    says: [...fire, 'mixing'],
    never: closed,
    // Ten per cent of a 20 L kit.
    figures: [['mixing', { thinner: 'litres', thinnerL: 2, aL: 16, bL: 4 }]],
  },
  'a break longer than the paint lasts': {
    facts: factsOf({ jobs: [job({ areaM2: 600 })], entry: { breaks: [{ from: '10:00', to: '14:00' }] } }),
    says: ['pot-life', 'flush', 'waste'],
    never: closed,
    figures: [['flush', { state: 'bring', flushes: 2, cleanL: 30 }]],
  },
  'a mild morning before a hot noon and a wet evening': {
    facts: factsOf({
      entry: {
        forecast: [
          { at: '08:00', airC: 34, rhPct: 30, steelC: 50 },
          { at: '12:00', airC: 2, rhPct: 95 },
        ],
      },
    }),
    says: ['ignition', 'earthing', 'heat-for-people', 'pot-life', 'mixing', 'weather', 'cold'],
    never: closed,
    figures: [
      ['pot-life', { airC: 34 }],
      ['weather', { limit: 'rh_max', state: 'missed', value: 95, allowed: 85, at: '12:00' }],
      ['weather', { limit: 'steel_min', state: 'missed', value: 2, allowed: 10, at: '12:00' }],
      ['cold', { airC: 2 }],
      ['ignition', { warm: 'yes' }],
      ['earthing', { air: 'dry', rh: 30 }],
      ['mixing', { stand: 'longer', wait: 20 }],
    ],
  },
  'a one-pack with a pot life': {
    facts: withSheet(factsOf({ jobs: [job({ coating: 'wall-acrylic' })] }), 'wall-acrylic', {
      potLife: [{ c: 20, minutes: 240 }],
    }),
    says: ['injection', 'leftover-paint', 'pot-life', 'flush'],
    never: [...fire, 'mixing', ...closed],
    figures: [['pot-life', { coating: 'Wall acrylic', state: 'known', minutes: 240 }]],
    grades: { 'pot-life': 'must' },
  },
  'paint that goes off before the line is flushed': {
    facts: withSheet(factsOf({ policy: { flushFixedMinutes: 60 } }), 'grey-epoxy', {
      potLife: [{ c: 20, minutes: 40 }],
    }),
    says: ['injection', 'breathing', 'pot-life', 'mixing'],
    never: closed,
    figures: [['pot-life', { state: 'short', minutes: 40 }]],
    grades: { 'pot-life': 'stop' },
  },
  'a hall with air enough on paper': {
    facts: factsOf({ entry: { surroundings: 'enclosed', space: { volumeM3: 900, airM3PerMin: 4000 } } }),
    says: ['confined-space', 'ignition', 'breathing', 'vapour'],
    never: ['wind'],
    figures: [
      ['vapour', { given: 'enough' }],
      ['breathing', { air: 'fed' }],
    ],
    grades: { vapour: 'must' },
  },
  'steel that stood through a night nobody has a figure for': {
    facts: factsOf({
      jobs: [job({ coat: 'stripe', preparedAt: '2026-05-11 16:00' })],
      policy: { surfaceHours: 24 },
    }),
    says: ['injection', 'surface-time'],
    never: closed,
    // Half of 24 hours.
    figures: [['surface-time', { state: 'late', by: '04:00', prepared: '2026-05-11 16:00' }]],
    grades: { 'surface-time': 'must' },
  },
  'a damp morning': {
    facts: factsOf({ weather: { airC: 12, rhPct: 88, steelC: 12 } }),
    says: ['flush', 'weather'],
    never: ['cold', 'heat-for-people'],
    figures: [
      ['weather', { limit: 'rh_max', state: 'missed', value: 88, allowed: 85 }],
      ['weather', { limit: 'margin', state: 'missed', allowed: 3 }],
    ],
  },
  'a primer that has waited too long': {
    facts: factsOf({
      left: {
        coats: [60].map((hours) => {
          const at = evening - hours * 3_600_000;
          const steel = [{ at, c: 20 }];
          return { area: 'Hull', coating: 'grey-epoxy', coat: 'primer', firstAt: at, at, steel };
        }),
      },
    }),
    says: ['mixing', 'flush', 'recoat-window'],
    never: ['missed-steps'],
    figures: [['recoat-window', { area: 'Hull', state: 'closed' }]],
  },
  'a compressor that is too small': {
    facts: withRig(factsOf(), 'rig-1', { compressorLPerMin: 600 }),
    says: ['flush', 'tip-and-filters'],
    never: closed,
    // 45 × 2.275 L/min × (5 + 1.01325) ÷ 1.01325, see scenarios.test.ts.
    figures: [['tip-and-filters', { air: 'short', needL: 608, haveL: 600 }]],
  },
  'the first aider is off shift': {
    facts: factsOf({ entry: { others: [] } }),
    says: ['injection', 'first-response'],
    never: closed,
    figures: [['first-response', { firstAider: 'Ewa', aider: 'away', call: '112' }]],
    grades: { 'first-response': 'must' },
  },
};
