import type { CommandInput } from '../../src/model/command.ts';
import type { DayEntryInput } from '../../src/model/day-entry.ts';
import { type Policy, type SitePack, sitePackSchema } from '../../src/model/site.ts';
import { instantOf } from '../../src/model/time.ts';

/** Everything here is invented: place, people, coatings and rigs. */
const people = [
  { id: 'finn', name: 'Finn', roles: ['foreman'] },
  { id: 'saga', name: 'Saga', roles: ['safety'] },
  { id: 'pia', name: 'Pia', roles: ['sprayer'] },
  { id: 'max', name: 'Max', roles: ['mixer'] },
  { id: 'hal', name: 'Hal', roles: ['helper'], hasPhone: false },
  { id: 'lou', name: 'Lou', roles: ['sprayer', 'mixer'] },
];

/** Pot lives chosen so that times can be worked out by hand: two hours at 20 °C, one at 30 °C. */
const coatings = [
  {
    id: 'epoxy',
    name: 'Test epoxy',
    family: 'epoxy',
    parts: 2,
    mixRatio: { a: 4, b: 1 },
    kitLitres: 20,
    volumeSolids: 80,
    potLife: [
      { c: 20, minutes: 120 },
      { c: 30, minutes: 60 },
    ],
    induction: [{ c: 20, minutes: 10 }],
    thinner: { name: 'Thinner T', maxPercent: 5 },
    flushSolvent: 'Cleaner T',
    flashPointC: 30,
    limits: { steelMinC: 5, rhMaxPct: 85 },
    hazards: ['H226', 'H317'],
    isocyanate: false,
  },
  {
    id: 'finish',
    name: 'Test finish',
    family: 'polyurethane',
    parts: 2,
    mixRatio: { a: 6, b: 1 },
    volumeSolids: 55,
    potLife: [{ c: 20, minutes: 180 }],
    flushSolvent: 'Cleaner U',
    flashPointC: 28,
    hazards: ['H226', 'H334'],
    isocyanate: true,
  },
  {
    id: 'one-pack',
    name: 'Test one-pack',
    family: 'alkyd',
    parts: 1,
    volumeSolids: 50,
    flushSolvent: 'Cleaner W',
    flashPointC: 40,
    isocyanate: false,
  },
];

/** Rig 1 pumps 2 L a minute from a line of about 2.36 L: its flush takes 8 fixed minutes and about 6 of pumping. */
const rigs = [
  {
    id: 'rig-1',
    name: 'Rig One',
    drive: 'air',
    ratio: 40,
    maxAirBar: 6,
    ratings: [
      { part: 'pump', bar: 300 },
      { part: 'hose', bar: 250 },
      { part: 'gun', bar: 345 },
    ],
    hoses: [{ boreMm: 10, lengthM: 30 }],
    pumpAndFilterLitres: 0,
    drainLineLitres: 0,
    litresPerCycle: 0.1,
    flushCyclesPerMinute: 20,
  },
  {
    id: 'rig-2',
    name: 'Rig Two',
    drive: 'electric',
    maxFluidBar: 200,
    ratings: [
      { part: 'hose', bar: 230 },
      { part: 'gun', bar: 250 },
    ],
    hoses: [{ boreMm: 6, lengthM: 15 }],
    litresPerCycle: 0.05,
    flushCyclesPerMinute: 40,
  },
];

export function aPack(change: { readonly policy?: Partial<Policy>; readonly zone?: string } = {}): SitePack {
  return sitePackSchema.parse({
    site: {
      id: 'weir',
      name: 'The invented weir',
      timeZone: change.zone ?? 'Etc/UTC',
      prestart: '06:30',
      emergency: {
        call: '112',
        address: 'Weir Lane gate',
        hospital: 'County Hospital',
        firstAider: 'saga',
        assembly: 'the weighbridge',
        eyewash: 'the mixing shed',
      },
    },
    people,
    coatings,
    rigs,
    policy: { ...change.policy },
  });
}

export const DATE = '2026-05-12';

/** The instant at which the test site's clock shows "HH:MM" on the test day, or on another date. */
export function t(time: string, date: string = DATE): number {
  return instantOf(date, time, 'Etc/UTC');
}

export function aJob(given: Partial<DayEntryInput['jobs'][number]> = {}): DayEntryInput['jobs'][number] {
  const pressure = given.rig === 'rig-2' ? { fluidBar: 180 } : { airBar: 5 };
  return {
    area: 'Gate 1',
    coating: 'epoxy',
    coat: 'intermediate',
    dftUm: 150,
    areaM2: 60,
    rig: 'rig-1',
    sprayers: ['pia'],
    mixers: ['max'],
    ...pressure,
    ...given,
  } as DayEntryInput['jobs'][number];
}

export function aDay(given: Partial<DayEntryInput> = {}): Extract<CommandInput, { type: 'post-day' }> {
  return {
    type: 'post-day',
    entry: {
      date: DATE,
      start: '07:00',
      end: '16:00',
      breaks: [],
      surroundings: 'open-air',
      weather: { airC: 20, rhPct: 60, steelC: 20 },
      jobs: [aJob()],
      others: ['saga', 'hal'],
      ...given,
    },
  };
}
