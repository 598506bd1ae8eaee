import { describe, expect, test } from 'vitest';
import { fieldUnits } from '../../adapters/files/field-units.ts';
import {
  type EntryKind,
  entrySchema,
  entrySchemas,
  type SchemaNode,
} from '../../adapters/files/json-schemas.ts';
import { formatProblem } from '../../adapters/files/problem.ts';
import { loadSitePack } from '../../adapters/files/site-pack.ts';
import { inFieldUnits } from '../../adapters/files/with-units.ts';
import { goodPack, writePack } from './good-pack.ts';

/** Numbers without a unit that sites differ about: counts, shares, times, ratios, watts. */
const plain =
  /(Pct|Minutes|minutes|Percent|Hours|Fraction|lelPct|volumeSolids|vapourDensity|ratio|mixRatio\.[ab]|parts|filterMesh|lineVolumes\w+|flushCyclesPerMinute|workW|rhPct)$/;

function numbers(node: SchemaNode, path: string): readonly string[] {
  return Object.entries(node.properties ?? {}).flatMap(([key, field]) => {
    const name = `${path}.${key}`;
    const own = field.type === 'number' || field.type === 'integer' ? [name] : [];
    return [...own, ...numbers(field, name), ...(field.items ? numbers(field.items, name) : [])];
  });
}

const every = (Object.keys(entrySchemas) as EntryKind[]).flatMap((kind) => numbers(entrySchema(kind), kind));

describe('the units of fields', () => {
  test.each(every)('%s has a unit, or is a plain number', (name) => {
    expect([name, Object.hasOwn(fieldUnits, name) !== plain.test(name)]).toEqual([name, true]);
  });

  test('there is none for a field that does not exist', () => {
    expect(Object.keys(fieldUnits).filter((name) => !every.includes(name))).toEqual([]);
  });
});

describe('a figure with its unit in a file', () => {
  const rig = (hoses: object) => inFieldUnits('rigs', { id: 'rig-1', hoses: [hoses] });

  test('is turned into the unit of its field', () => {
    const { data, faults } = rig({ boreMm: '3/8 in', lengthM: '50 ft' });
    expect(faults).toEqual([]);
    expect(data).toEqual({ id: 'rig-1', hoses: [{ boreMm: 9.525, lengthM: 15.24 }] });
  });

  test('a margin of 5 °F is a difference', () => {
    const { data } = inFieldUnits('policy', { marginMinC: '6 °F' });
    expect((data as { marginMinC: number }).marginMinC).toBeCloseTo(3.333, 3);
  });

  test('plain numbers, quoted ones and words are left alone', () => {
    const same = { airC: 20, areaM2: '20', area: '50 ft of pipe' };
    expect(inFieldUnits('day', { jobs: [same] }).data).toEqual({ jobs: [same] });
  });

  const problemsOf = (site: string): readonly string[] => {
    const dir = writePack({ 'site.yaml': `${goodPack['site.yaml']}altitudeM: ${site}\n` });
    const loaded = loadSitePack(dir);
    return loaded.ok ? [] : loaded.problems.map((one) => formatProblem({ ...one, file: 'site.yaml' }));
  };

  test('a unit that cannot stand there is told with its place and what may', () => {
    expect(problemsOf('20 bar').join()).toMatch(
      /^site\.yaml:\d+:\d+ site\.altitudeM: this unit does not belong to this field\. Found "20 bar"\. Write: a plain number \(m\), or one with m or ft behind it$/,
    );
    expect(problemsOf('300 ft')).toEqual([]);
  });
});
