import { basename, join } from 'node:path';
import type { DayEntry } from '../../src/model/day-entry.ts';
import type { SitePack } from '../../src/model/site.ts';
import { driveFields, neededRoles, repeatedIds, repeatedMembers } from './cross-checks.ts';
import { dayChecks } from './day-checks.ts';
import { type PackFolder, packFolder, wholeFile } from './pack-folder.ts';
import { coatingWarnings, rigWarnings } from './pack-warnings.ts';
import { readDemoPins, readPins } from './pins.ts';
import { inReadingOrder, type PackProblem } from './problem.ts';
import { joined, type ReadEntries, readMany, readOne } from './read-entries.ts';
import { idOf, type Refs, reference } from './references.ts';
import { type OwnWords, readSiteCautions } from './site-cautions.ts';
import { coatingArithmetic, rigArithmetic } from './trade-checks.ts';
import { valueAt } from './value-at.ts';

export interface LoadedPack {
  readonly ok: true;
  readonly pack: SitePack;
  /** Person id → hashed PIN line. Without inherited names. */
  readonly pins: Readonly<Record<string, string>>;
  /** Person id → open PIN; empty unless `site.demo`. Without inherited names. */
  readonly demoPins: Readonly<Record<string, string>>;
  /** The words of the site's own cautions. */
  readonly words: OwnWords;
  /** The day entries in days/, by file name. */
  readonly days: Readonly<Record<string, DayEntry>>;
  readonly warnings: readonly PackProblem[];
}

export interface RefusedPack {
  readonly ok: false;
  readonly problems: readonly PackProblem[];
  readonly warnings: readonly PackProblem[];
}

/** The site pack in folder `dir`, or everything that is wrong with it. docs/site-pack.md describes the files. */
export function loadSitePack(dir: string): LoadedPack | RefusedPack {
  const folder = packFolder(dir);
  if ('message' in folder) return { ok: false, problems: [folder], warnings: [] };

  const site = readOne('site', join(dir, 'site.yaml'), folder.close);
  const people = readMany('people', join(dir, 'people.yaml'), folder.close);
  const coatings = readCoatings(dir, folder);
  const rigs = readMany('rigs', join(dir, 'rigs.yaml'), folder.close);
  const policy = readOne('policy', join(dir, 'policy.yaml'), folder.close, {});
  const days = folder.dayFiles.map((file) => ({ file, ...readOne('day', file, folder.close) }));

  const raws = <T>(part: { entries: readonly { raw: T }[] | null }) =>
    part.entries?.map((entry) => entry.raw) ?? null;
  const refs: Refs = { people: raws(people), coatings: raws(coatings), rigs: raws(rigs) };
  const ids = refs.people?.map(idOf) ?? null;
  const pins = readPins(join(dir, 'pins.yaml'), ids);
  const demo = site.entry ? valueAt(site.entry.raw, ['demo']) === true : null;
  const demoPins = readDemoPins(join(dir, 'demo-pins.yaml'), ids, demo);

  const languages = values(people)?.map((person) => person.language) ?? [];
  const own = readSiteCautions(dir, folder, refs, site.entry?.value ?? null, languages);

  const found = [
    ...[site, people, coatings, rigs, policy].flatMap((part) => part.problems),
    ...folder.problems,
    ...(site.entry ? reference(site.entry, ['emergency', 'firstAider'], 'people', refs) : []),
    ...neededRoles(people.entries ?? []),
    ...[people, coatings, rigs].flatMap((part) => repeatedIds(part.entries ?? [])),
    ...repeatedMembers(people.entries ?? []),
    ...(rigs.entries ?? []).flatMap(driveFields),
    ...(coatings.entries ?? []).flatMap(coatingArithmetic),
    ...(rigs.entries ?? []).flatMap(rigArithmetic),
    ...days.flatMap((day) => [...day.problems, ...(day.entry ? dayChecks(day.entry, refs) : [])]),
    ...own.problems,
    ...pins.problems,
    ...demoPins.problems,
  ];
  const order = [
    ...['site', 'people'].map((name) => join(dir, `${name}.yaml`)),
    ...folder.coatingFiles,
    join(dir, 'rigs.yaml'),
  ];
  const problems = inReadingOrder(found, order);
  const warnings = [
    ...(coatings.entries ?? []).flatMap(coatingWarnings),
    ...(rigs.entries ?? []).flatMap(rigWarnings),
    ...own.warnings,
    ...folder.warnings,
    ...(pins.present || demoPins.present ? [] : [noPins(dir)]),
  ];

  const pack = {
    site: site.entry?.value ?? null,
    people: values(people),
    coatings: values(coatings),
    rigs: values(rigs),
    policy: policy.entry?.value ?? null,
  };
  if (problems.length > 0 || !isWhole(pack)) return { ok: false, problems, warnings };
  const read = days.flatMap(({ file, entry }) =>
    entry?.value ? [[basename(file), entry.value] as const] : [],
  );
  return {
    ok: true,
    pack: { ...pack, ...(own.cautions && { cautions: own.cautions }) },
    words: own.words,
    pins: pins.pins,
    demoPins: demoPins.pins,
    days: Object.fromEntries(read),
    warnings,
  };
}

function readCoatings(dir: string, folder: PackFolder): ReadEntries<'coatings'> {
  if (folder.coatingFiles.length === 0) {
    const file = join(dir, 'coatings.yaml');
    const write =
      'create this file with a list of coating sheets, or a folder coatings/ with a .yaml file for each';
    return { entries: null, problems: [wholeFile(file, 'there are no coating sheets', write)] };
  }
  return joined(folder.coatingFiles.map((file) => readMany('coatings', file, folder.close, true)));
}

function values<T>(part: { readonly entries: readonly { readonly value: T | null }[] | null }): T[] | null {
  const found = (part.entries ?? []).flatMap((entry) => (entry.value === null ? [] : [entry.value]));
  return part.entries && found.length === part.entries.length ? found : null;
}

type Whole<T> = { [K in keyof T]: NonNullable<T[K]> };

/** Parts are only missing when there is a problem that says so. */
function isWhole<T extends Record<string, unknown>>(parts: T): parts is T & Whole<T> {
  return Object.values(parts).every((part) => part !== null);
}

function noPins(dir: string): PackProblem {
  const write = 'run "potbell pin" for each person and put its lines into this file';
  return wholeFile(join(dir, 'pins.yaml'), 'nobody has a PIN, so nobody can sign on the board', write);
}
