import { describe, expect, it, test } from 'vitest';
import {
  type EntryKind,
  entrySchema,
  entrySchemas,
  type SchemaNode,
} from '../../adapters/files/json-schemas.ts';
import type { Because } from '../../src/briefing/because.ts';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import { cautionRules } from '../../src/briefing/rules/index.ts';
import { tasks } from '../../src/briefing/task.ts';
import type { CarryOver } from '../../src/model/day.ts';
import type { Rig } from '../../src/model/rig.ts';
import { factsOf, job, type Wanted, without, withSheet } from './days.ts';
import { everyDay, muchLeft } from './every-day.ts';

function pathsOf(node: SchemaNode, path: string): readonly string[] {
  return Object.entries(node.properties ?? {}).flatMap(([key, field]) => {
    const name = `${path}.${key}`;
    return [name, ...pathsOf(field, name), ...(field.items ? pathsOf(field.items, name) : [])];
  });
}
/** Every field of the files that people write, as the schemas have it: "day.weather.airC". */
const written = new Set(
  (Object.keys(entrySchemas) as EntryKind[]).flatMap((kind) => pathsOf(entrySchema(kind), kind)),
);
/** What a shift leaves behind has no schema: the compiler holds these names to it. */
const left = [
  'tags',
  'unflushed',
  'skippedSteps',
  'settledSolvent',
  'concerns',
  'coats',
  'experience',
  'rigs',
] as const satisfies readonly (keyof CarryOver)[];
const inLeft = {
  experience: ['coatings', 'rigs'] satisfies readonly (keyof NonNullable<CarryOver['experience']>[string])[],
  rigs: ['coating', 'solvent'] satisfies readonly (keyof NonNullable<CarryOver['rigs']>[string])[],
} as const;
const carried = new Set<string>([
  ...left,
  ...Object.entries(inLeft).flatMap(([name, fields]) => fields.map((field) => `${name}.${field}`)),
]);

function isReal({ from, field }: Because): boolean {
  switch (from) {
    case 'day':
      return written.has(`day.${field}`);
    case 'coating':
      return written.has(`coatings.${field}`);
    case 'rig':
      return written.has(`rigs.${field}`);
    case 'site':
      return written.has(field);
    case 'yesterday':
      return carried.has(field);
  }
}

const rules = cautionRules.map((rule) => [rule.id, rule] as const);

describe.each(rules)('%s', (_id, rule) => {
  const findings = everyDay().flatMap((facts) => rule.find(facts) ?? []);

  it('names facts that somebody can look up, each once', () => {
    expect(findings.length).toBeGreaterThan(0);
    for (const { because } of findings) {
      expect(because.length).toBeGreaterThan(0);
      expect(because.filter((fact) => !isReal(fact))).toEqual([]);
      expect(new Set(because.map((fact) => JSON.stringify(fact))).size).toBe(because.length);
    }
  });

  it('says whose hands it is about', () => {
    if (rule.tasks === 'everybody') return;
    expect(rule.tasks.length).toBeGreaterThan(0);
    expect(rule.tasks.length).toBeLessThan(tasks.length);
    expect(new Set(rule.tasks).size).toBe(rule.tasks.length);
  });
});

test('a field that nobody can write is not taken for a real one', () => {
  const slip = { of: '', value: 1 };
  expect(isReal({ ...slip, from: 'day', field: 'weather.airc' })).toBe(false);
  expect(isReal({ ...slip, from: 'coating', field: 'flashpointC' })).toBe(false);
  expect(isReal({ ...slip, from: 'rig', field: 'ratio' })).toBe(true);
});

test('the order in which jobs were entered does not change the causes', () => {
  const jobs = [
    job(),
    job({ rig: 'rig-2', coating: 'white-urethane', area: 'Deck' }),
    job({ coating: 'zinc-silicate', area: 'Bow' }),
  ];
  const weather = { airC: 4, rhPct: 83 };
  const causes = (given: NonNullable<Wanted['jobs']>) =>
    buildBriefing(factsOf({ jobs: given, weather, left: muchLeft }), null).cautions.map((one) => one.because);
  expect(causes([...jobs].reverse())).toEqual(causes(jobs));
});

const day = (field: string, value: Because['value']): Because => ({ from: 'day', of: '', field, value });
const site = (field: string, value: Because['value']): Because => ({ ...day(field, value), from: 'site' });
const of =
  (from: Because['from'], name: string) =>
  (field: string, value: Because['value']): Because => ({ from, of: name, field, value });
const epoxy = of('coating', 'Grey epoxy');
const acrylic = of('coating', 'Wall acrylic');
const rig1 = of('rig', 'Rig 1');

const waterborne = factsOf({ jobs: [job({ coating: 'wall-acrylic' })] });
const oddFlush = withSheet(waterborne, 'wall-acrylic', { flushSolvent: 'Solvent W' });
const thinned = withSheet(factsOf({ jobs: [job({ thinnerPct: 5 })] }), 'grey-epoxy', {
  flashPointC: 110,
  hazards: ['H317'],
  flushFlashPointC: 120,
});
const jobsUnthinned = factsOf({ jobs: [job()] }).day.entry.jobs;
const warmByForecast = { entry: { forecast: [{ at: '13:00', airC: 33 }] } };

/** Rule, a day on which it speaks, what it names, and the same day with just that mended: it is silent. */
const mended: readonly (readonly [string, DayFacts, readonly Because[], DayFacts])[] = [
  ['cold', factsOf({ weather: { airC: 4 } }), [day('weather.airC', 4)], factsOf({ weather: { airC: 6 } })],
  [
    'confined-space',
    factsOf({ entry: { surroundings: 'enclosed' } }),
    [day('surroundings', 'enclosed')],
    factsOf(),
  ],
  [
    'vapour',
    factsOf({ entry: { surroundings: 'confined' } }),
    [day('surroundings', 'confined'), epoxy('flashPointC', 27)],
    factsOf(),
  ],
  [
    'ignition',
    oddFlush,
    [acrylic('flushFlashPointC', null)],
    withSheet(oddFlush, 'wall-acrylic', { flushFlashPointC: 120 }),
  ],
  [
    'earthing',
    thinned,
    [epoxy('thinner.flashPointC', null), day('jobs.thinnerPct', 5)],
    { ...thinned, day: { ...thinned.day, entry: { ...thinned.day.entry, jobs: jobsUnthinned } } },
  ],
  [
    'heat-for-people',
    factsOf(warmByForecast),
    [day('forecast.airC', 33)],
    factsOf({ entry: { ...warmByForecast.entry, end: '12:30' } }),
  ],
  [
    'heat-for-people',
    factsOf({ weather: { airC: 26.5, rhPct: 90 } }),
    [day('weather.airC', 26.5), day('weather.rhPct', 90)],
    factsOf({ weather: { airC: 26.5, rhPct: 40 } }),
  ],
  [
    'heat-for-people',
    factsOf({ weather: { airC: 17, wbgtC: 15 } }),
    [day('weather.wbgtC', 15), site('policy.coveralls', 'vapour-barrier'), site('policy.workW', 300)],
    factsOf({ weather: { airC: 17, wbgtC: 15 }, policy: { coveralls: 'woven' } }),
  ],
  [
    'weather',
    factsOf({ weather: { airC: 18, rhPct: 82, steelC: 30 } }),
    [day('weather.rhPct', 82), site('policy.rhMaxPct', 85)],
    factsOf({ weather: { airC: 18, rhPct: 79, steelC: 30 } }),
  ],
  [
    'weather',
    factsOf({ weather: { airC: 9, rhPct: 40, steelC: undefined } }),
    [day('weather.steelC', null), day('weather.airC', 9), epoxy('limits.steelMinC', 10)],
    factsOf({ weather: { airC: 9, rhPct: 40, steelC: 13 } }),
  ],
  [
    'skin-and-eyes',
    factsOf(),
    [epoxy('hazards', 'H315, H317')],
    withSheet(factsOf(), 'grey-epoxy', { hazards: ['H226', 'H411'] }),
  ],
  [
    'leftover-paint',
    factsOf(),
    [epoxy('parts', 2)],
    withSheet(factsOf(), 'grey-epoxy', {
      parts: 1,
      mixRatio: undefined as never,
      potLife: undefined as never,
    }),
  ],
  [
    'unflushed-line',
    factsOf({ left: { unflushed: muchLeft.unflushed?.slice(0, 1) ?? [] } }),
    [of('yesterday', 'Rig 3')('unflushed', 'grey-epoxy')],
    factsOf({ left: { unflushed: [] } }),
  ],
  [
    'open-concerns',
    factsOf({ left: { concerns: muchLeft.concerns?.slice(0, 1) ?? [] } }),
    [of('yesterday', 'Cleo')('concerns', 'the ladder at frame 12 is loose')],
    factsOf({ left: { concerns: [] } }),
  ],
];

test.each(mended)('%s names what made it speak; mended, it is silent (%#)', (id, facts, because, after) => {
  const look = (given: DayFacts) => buildBriefing(given, null).cautions.find((one) => one.id === id);
  expect(look(facts)?.because).toEqual(because);
  expect(look(after)).toBeUndefined();
});

describe('what is not known is named as not given', () => {
  const causes = (facts: DayFacts, id: string) =>
    buildBriefing(facts, null).cautions.find((one) => one.id === id)?.because;

  test.each(['breathing', 'skin-and-eyes', 'ignition', 'mixing'])('%s without a sheet', (id) => {
    const unknown = causes(without(factsOf(), 'coatings'), id)?.filter(({ from }) => from === 'coating');
    expect(unknown?.map(({ of: name, value }) => [name, value])).toEqual([['grey-epoxy', null]]);
  });

  test('the ratio without which the pressure is not known', () => {
    const { ratio: _ratio, ...rest } = factsOf().day.rigs['rig-1'] as Rig;
    const base = factsOf();
    const facts = { ...base, day: { ...base.day, rigs: { ...base.day.rigs, 'rig-1': rest as Rig } } };
    expect(causes(facts, 'injection')).toEqual([day('jobs.rig', 'Rig 1'), rig1('ratio', null)]);
  });

  test('a recoat table that nobody copied', () => {
    const at = factsOf().day.startsAt - 3_600_000;
    const coat = { area: 'Hull', coating: 'mystery', coat: 'primer', firstAt: at, at, steel: [] };
    expect(causes(factsOf({ left: { coats: [coat] } }), 'recoat-window')).toEqual([
      of('yesterday', 'Mystery paint')('coats', 'Hull'),
      of('coating', 'Mystery paint')('recoat', null),
    ]);
  });
});

test('codes that decided are named, the others are not', () => {
  const { cautions } = buildBriefing(factsOf({ jobs: [job({ coating: 'zinc-silicate' })] }), null);
  const zinc = of('coating', 'Zinc silicate');
  const codes = (id: string) => cautions.find((one) => one.id === id)?.because;
  expect(codes('breathing')).toEqual([zinc('hazards', 'H336')]);
  expect(codes('skin-and-eyes')).toEqual([zinc('hazards', 'H319')]);
});

test('causes are no part of what is signed for', () => {
  const given = (hazards: readonly string[]) =>
    buildBriefing(withSheet(factsOf(), 'grey-epoxy', { hazards: [...hazards] }), null);
  const [one, two] = [given(['H226', 'H317']), given(['H226', 'H317', 'H411'])];
  expect(two.cautions.map(({ fingerprint }) => fingerprint)).toEqual(
    one.cautions.map(({ fingerprint }) => fingerprint),
  );
});
