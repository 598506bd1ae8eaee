import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { copyDemoSite, demoSiteFolder } from '../../adapters/files/demo-site.ts';
import { jsonSchemas } from '../../adapters/files/json-schemas.ts';
import { formatProblem } from '../../adapters/files/problem.ts';
import { loadSitePack } from '../../adapters/files/site-pack.ts';
import { resolveDay } from '../../src/flow/resolve-day.ts';
import { tempDir } from './temp-dir.ts';

const folder = demoSiteFolder();

function demo() {
  const loaded = loadSitePack(folder);
  if (!loaded.ok) throw new Error(loaded.problems.map(formatProblem).join('\n'));
  return loaded;
}

describe('the demo site', () => {
  test('has no problems and no warnings', () => {
    expect(demo().warnings.map(formatProblem)).toEqual([]);
  });

  test('is marked as a demo and everybody has a PIN of their own', () => {
    const { pack, demoPins } = demo();
    expect(pack.site.demo).toBe(true);
    expect(Object.keys(demoPins).sort()).toEqual(pack.people.map((person) => person.id).sort());
    expect(new Set(Object.values(demoPins)).size).toBe(pack.people.length);
    for (const pin of Object.values(demoPins)) expect(pin).toMatch(/^\d{4}$/);
  });

  test('has the crew the day needs, one of them without a phone', () => {
    const { people } = demo().pack;
    const count = (role: string) =>
      people.filter((person) => (person.roles as string[]).includes(role)).length;
    expect(people).toHaveLength(9);
    expect(['foreman', 'safety', 'sprayer', 'mixer', 'standby', 'helper'].map(count)).toEqual([
      1, 1, 3, 3, 1, 1,
    ]);
    expect(people.filter((person) => !person.hasPhone)).toHaveLength(1);
  });

  test('every coating says in its file that it is invented', () => {
    const names = readdirSync(join(folder, 'coatings'));
    expect(names).toHaveLength(3);
    for (const name of names)
      expect(readFileSync(join(folder, 'coatings', name), 'utf8')).toContain(
        'INVENTED FOR THE DEMO; NEVER USE FOR REAL PAINT',
      );
  });

  test('its example day can be posted as it is', () => {
    const { pack, days } = demo();
    const day = days['day-1.yaml'];
    if (!day) throw new Error('days/day-1.yaml is missing');
    const resolved = resolveDay(day, pack);
    expect('refused' in resolved ? resolved : 'a day').toBe('a day');
    expect(day.jobs).toHaveLength(2);
    expect(day.breaks).toHaveLength(2);
    expect(new Set(day.jobs.map((job) => job.rig)).size).toBe(2);
  });

  test('the schemas for editors, read back by zod, accept its files and refuse a wrong one', () => {
    const schemas = jsonSchemas();
    const accepts = (schema: string, data: unknown) =>
      z.fromJSONSchema(schemas[schema] as Parameters<typeof z.fromJSONSchema>[0]).safeParse(data).success;
    const read = (name: string): unknown => parse(readFileSync(join(folder, name), 'utf8'));
    for (const name of ['site', 'people', 'rigs', 'policy', 'cautions'])
      expect([name, accepts(`${name}.schema.json`, read(`${name}.yaml`))]).toEqual([name, true]);
    for (const name of readdirSync(join(folder, 'coatings'))) {
      const sheet = read(join('coatings', name));
      expect([
        name,
        accepts('coatings.schema.json', sheet),
        accepts('coatings.schema.json', [sheet]),
      ]).toEqual([name, true, true]);
      expect(accepts('coatings.schema.json', { ...(sheet as object), volumeSolids: 0 })).toBe(false);
    }
    const day = read('days/day-1.yaml') as object;
    expect(accepts('day.schema.json', day)).toBe(true);
    expect(accepts('day.schema.json', { ...day, extra: 1 })).toBe(false);
  });

  test('names a schema that exists in each of its files', () => {
    const names = Object.keys(jsonSchemas());
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.yaml'),
    );
    for (const name of files.filter((one) => one !== 'demo-pins.yaml')) {
      const first = readFileSync(join(folder, name), 'utf8').split('\n')[0] ?? '';
      const schema = /^# yaml-language-server: \$schema=((?:\.\.\/)?)\.schemas\/(.+)$/.exec(first);
      expect([name, names.includes(schema?.[2] ?? '')]).toEqual([name, true]);
      expect(schema?.[1]).toBe(name.includes('/') ? '../' : '');
    }
  });
});

describe('copyDemoSite', () => {
  const fresh = () => tempDir();

  test('writes a pack that loads, with the schemas its files name', () => {
    const target = join(fresh(), 'deep', 'site');
    const copied = copyDemoSite(target);
    if (!copied.ok) throw new Error(copied.problem);
    expect(copied.written).toContain(join('.schemas', 'coatings.schema.json'));
    expect(copied.written).toContain(join('days', 'day-1.yaml'));
    for (const name of copied.written) expect([name, existsSync(join(target, name))]).toEqual([name, true]);
    const loaded = loadSitePack(target);
    expect(loaded.ok && loaded.warnings).toEqual([]);
  });

  test('takes an empty folder', () => {
    expect(copyDemoSite(fresh()).ok).toBe(true);
  });

  test('refuses a folder with anything in it and leaves it as it was', () => {
    const target = fresh();
    writeFileSync(join(target, 'site.yaml'), 'mine');
    mkdirSync(join(target, 'days'));
    const copied = copyDemoSite(target);
    expect(copied).toEqual({
      ok: false,
      problem: `${target} is not empty (it has days in it). Give the path of a new or empty folder.`,
    });
    expect(readdirSync(target).sort()).toEqual(['days', 'site.yaml']);
    expect(readFileSync(join(target, 'site.yaml'), 'utf8')).toBe('mine');
  });

  test('refuses a file', () => {
    const target = join(fresh(), 'site');
    writeFileSync(target, 'a file');
    expect(copyDemoSite(target)).toEqual({
      ok: false,
      problem: `${target} is a file. Give the path of a new folder, for example ${target}-site.`,
    });
  });
});
