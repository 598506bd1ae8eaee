import type { DayFacts } from '../../src/briefing/rule.ts';
import { resolveDay } from '../../src/flow/resolve-day.ts';
import { type CoatingSheet, coatingSheetSchema } from '../../src/model/coating-sheet.ts';
import type { CarryOver, Day } from '../../src/model/day.ts';
import { type DayEntryInput, dayEntrySchema } from '../../src/model/day-entry.ts';
import { type Rig, rigSchema } from '../../src/model/rig.ts';
import { type Policy, type SitePack, sitePackSchema } from '../../src/model/site.ts';

/** Everything here is invented: people, place, coatings and rigs. */
const people = [
  { id: 'ada', name: 'Ada', roles: ['foreman'] },
  { id: 'bram', name: 'Bram', roles: ['sprayer', 'mixer'] },
  { id: 'cleo', name: 'Cleo', roles: ['mixer'] },
  { id: 'dov', name: 'Dov', roles: ['sprayer'] },
  { id: 'ewa', name: 'Ewa', roles: ['standby', 'helper'] },
];

const coatings = [
  {
    id: 'grey-epoxy',
    name: 'Grey epoxy',
    family: 'epoxy',
    parts: 2,
    mixRatio: { a: 4, b: 1 },
    kitLitres: 20,
    volumeSolids: 70,
    potLife: [
      { c: 10, minutes: 300 },
      { c: 20, minutes: 180 },
      { c: 30, minutes: 90 },
    ],
    induction: [{ c: 15, minutes: 20 }],
    thinner: { name: 'Solvent E', maxPercent: 10 },
    flushSolvent: 'Solvent E',
    flashPointC: 27,
    limits: { steelMinC: 10 },
    recoat: [
      { toC: 15, minHours: 16, maxHours: 96 },
      { toC: 25, minHours: 8, maxHours: 48 },
    ],
    hazards: ['H226', 'H315', 'H317', 'H411'],
    isocyanate: false,
    filterMesh: 60,
    tip: '521',
  },
  {
    id: 'white-urethane',
    name: 'White urethane',
    family: 'polyurethane',
    parts: 2,
    mixRatio: { a: 6, b: 1 },
    kitLitres: 14,
    volumeSolids: 55,
    potLife: [
      { c: 23, minutes: 120 },
      { c: 35, minutes: 50 },
    ],
    thinner: { name: 'Solvent U', maxPercent: 5 },
    flushSolvent: 'Solvent U',
    flashPointC: 24,
    hazards: ['H226', 'H332', 'H334', 'H317', 'H335'],
    isocyanate: true,
    filterMesh: 100,
  },
  {
    id: 'zinc-silicate',
    name: 'Zinc silicate',
    family: 'zinc-silicate',
    parts: 2,
    mixRatio: { a: 3, b: 1 },
    volumeSolids: 62,
    potLife: [{ c: 20, minutes: 240 }],
    flushSolvent: 'Solvent Z',
    flashPointC: 13,
    limits: { rhMinPct: 50 },
    hazards: ['H225', 'H319', 'H336'],
    isocyanate: false,
  },
  {
    id: 'wall-acrylic',
    name: 'Wall acrylic',
    family: 'acrylic',
    parts: 1,
    volumeSolids: 40,
    flushSolvent: 'Clean water',
    flashPointC: 100,
    hazards: ['H412'],
    isocyanate: false,
  },
  {
    id: 'mystery',
    name: 'Mystery paint',
    family: 'other',
    parts: 1,
    volumeSolids: 50,
    flushSolvent: 'Solvent E',
    isocyanate: false,
  },
];

const rigs = [
  {
    id: 'rig-1',
    name: 'Rig 1',
    drive: 'air',
    ratio: 45,
    maxAirBar: 7,
    ratings: [
      { part: 'pump', bar: 350 },
      { part: 'hose', bar: 280 },
      { part: 'gun', bar: 345 },
    ],
    hoses: [{ boreMm: 10, lengthM: 30 }],
    litresPerCycle: 0.1,
    flushCyclesPerMinute: 30,
  },
  {
    id: 'rig-2',
    name: 'Rig 2',
    drive: 'electric',
    maxFluidBar: 210,
    ratings: [
      { part: 'hose', bar: 250 },
      { part: 'gun', bar: 250 },
    ],
    hoses: [{ boreMm: 6, lengthM: 15 }],
    litresPerCycle: 0.03,
    flushCyclesPerMinute: 60,
    wheels: 'metal',
  },
  {
    id: 'rig-3',
    name: 'Rig 3',
    drive: 'air',
    ratio: 68,
    maxAirBar: 6,
    ratings: [{ part: 'gun', bar: 400 }],
    hoses: [{ boreMm: 10, lengthM: 20 }],
    litresPerCycle: 0.12,
    flushCyclesPerMinute: 30,
  },
];

const pack: SitePack = sitePackSchema.parse({
  site: {
    id: 'quay',
    name: 'The invented quay',
    timeZone: 'Europe/Lisbon',
    prestart: '06:40',
    emergency: {
      call: '112',
      address: 'Gate 3, North Quay',
      hospital: 'Harbour Hospital',
      firstAider: 'ewa',
      assembly: 'the flagpole',
      eyewash: 'the wash stand at the store',
    },
  },
  people,
  coatings,
  rigs,
  policy: {},
});

/** One job of an invented day; what is not given is Bram and Cleo with grey epoxy on rig 1 at 5 bar. */
export function job(given: Partial<DayEntryInput['jobs'][number]> = {}): DayEntryInput['jobs'][number] {
  const pressure = given.rig === 'rig-2' ? { fluidBar: 180 } : { airBar: 5 };
  return {
    area: 'Hull frame 12',
    coating: 'grey-epoxy',
    coat: 'primer',
    dftUm: 150,
    areaM2: 120,
    rig: 'rig-1',
    sprayers: ['bram'],
    mixers: ['cleo'],
    ...pressure,
    ...given,
  };
}

/** What a test wants otherwise than the plain day: mild, dry and outdoors. */
export interface Wanted {
  readonly entry?: Partial<DayEntryInput>;
  readonly weather?: Partial<DayEntryInput['weather']>;
  readonly jobs?: DayEntryInput['jobs'];
  readonly policy?: Partial<Policy>;
  readonly left?: Partial<CarryOver>;
}

export function factsOf(wanted: Wanted = {}): DayFacts {
  const entry = dayEntrySchema.parse({
    date: '2026-05-12',
    start: '07:00',
    end: '16:00',
    surroundings: 'open-air',
    jobs: wanted.jobs ?? [job()],
    others: ['ewa'],
    ...wanted.entry,
    weather: { airC: 18, rhPct: 55, steelC: 18, ...wanted.weather },
  });
  const resolved = resolveDay(entry, { ...pack, policy: { ...pack.policy, ...wanted.policy } });
  if ('refused' in resolved) throw new Error(`the invented day was refused: ${resolved.text}`);
  return { day: resolved.day, carriedIn: wanted.left ? { ...nothingLeft, ...wanted.left } : null };
}

export const nothingLeft: CarryOver = {
  fromShift: 'quay:2026-05-11',
  fromDate: '2026-05-11',
  tags: [],
  unflushed: [],
  skippedSteps: [],
  settledSolvent: [],
  concerns: [],
  stop: null,
  coats: [],
};

/** The day with one rig changed, past the door that would have refused it. */
export function withRig(facts: DayFacts, id: string, change: Partial<Rig>): DayFacts {
  const rig = rigSchema.parse({ ...facts.day.rigs[id], ...change });
  return { ...facts, day: { ...facts.day, rigs: { ...facts.day.rigs, [id]: rig } } };
}

/** The day with one coating sheet changed. */
export function withSheet(facts: DayFacts, id: string, change: Partial<CoatingSheet>): DayFacts {
  const sheet = coatingSheetSchema.parse({ ...facts.day.coatings[id], ...change });
  return { ...facts, day: { ...facts.day, coatings: { ...facts.day.coatings, [id]: sheet } } };
}

/** The day without what it refers to, as a damaged or hand-made entry might have it. */
export function without(facts: DayFacts, what: 'rigs' | 'coatings' | 'people'): DayFacts {
  const day: Day = { ...facts.day, [what]: {} };
  return { ...facts, day };
}
