import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { loadDayFile } from '../../adapters/files/day-file.ts';
import { formatProblem } from '../../adapters/files/problem.ts';
import { loadSitePack } from '../../adapters/files/site-pack.ts';
import { goodPack, writePack } from './good-pack.ts';

const dir = writePack();
const loaded = loadSitePack(dir);
if (!loaded.ok) throw new Error(loaded.problems.map(formatProblem).join('\n'));
const { pack } = loaded;
const monday = goodPack['days/monday.yaml'] ?? '';

function words(text: string, name = 'day.yaml'): readonly string[] {
  const file = join(dir, 'days', name);
  writeFileSync(file, text);
  const day = loadDayFile(file, pack);
  return day.ok ? [] : day.problems.map((problem) => formatProblem(problem).replace(`${dir}/days/`, ''));
}

test('a good day loads with its defaults, from YAML and from JSON', () => {
  const file = join(dir, 'days', 'monday.yaml');
  const day = loadDayFile(file, pack);
  expect(day).toMatchObject({ ok: true, entry: { date: '2026-06-08', breaks: [], notes: '' } });
  expect(day.ok && day.entry.weather.sun).toBe(false);
  expect(words(JSON.stringify(day.ok ? day.entry : null, null, '\t'), 'day.json')).toEqual([]);
});

test('a missing file', () => {
  const day = loadDayFile(join(dir, 'tuesday.yaml'), pack);
  expect(day.ok ? [] : day.problems.map(formatProblem)).toEqual([
    `${dir}/tuesday.yaml:1:1: the file is missing. Found nothing. Write: create this file`,
  ]);
});

test('an empty file', () => {
  expect(words('')).toEqual([
    'day.yaml:1:1: there is nothing in this file. Found nothing. Write: its fields, as in docs/site-pack.md',
  ]);
});

test('every problem of a day at once, each with its place', () => {
  const text = monday
    .replace('07:30', '7:30')
    .replace('open-air', 'outside')
    .replace('rhPct: 60', 'rhPct: 60 %')
    .replace('epoxy-mid', 'epoxy-mit')
    .replace('dftUm: 150', 'dftUm: 0')
    .replace('[cid]', '[dora]')
    .replace('[dora]\nothers', '[]\nothers')
    .replace('areaM2: 110', 'area_m2: 110');
  expect(words(text)).toEqual([
    'day.yaml:2:8 day.start: this is not written the way it must be. Found "7:30". Write: a 24-hour time in quotes, for example "06:40"',
    'day.yaml:4:15 day.surroundings: this is not one of the values allowed here. Found "outside". Write: one of open-air, enclosed, confined, such as surroundings: open-air (what is around the work; if in doubt the tighter one)',
    'day.yaml:5:29 day.weather.rhPct: a number is expected here. Found "60 %". Write: 60, the number alone; a number from 1 to 100, such as rhPct: 60 (relative humidity, %)',
    'day.yaml:8:14 day.jobs.#1.coating: there is no coating with this id. Found "epoxy-mit". Write: epoxy-mid, if that was meant; epoxy-mid or pu-finish; or add it to the coating sheets',
    'day.yaml:10:12 day.jobs.#1.dftUm: this is less than 1. Found "0". Write: a number from 1 to 5000, such as dftUm: 150 (target dry film, µm)',
    'day.yaml:11:5 day.jobs.#1.area_m2: there is no field "area_m2" here. Found "area_m2". Write: areaM2, if that was meant; the fields here are area, coating, coat, dftUm, areaM2, rig, airBar, fluidBar, thinnerPct, lossPct, profileUm, liftM, tip, preparedAt, sprayers, mixers',
    'day.yaml:14:16 day.jobs.#1.sprayers.#1: dora does not have the role sprayer. Found "dora". Write: cid; or give dora the role in people.yaml if that is right',
    'day.yaml:15:5 day.jobs.#1.mixers: the list is empty. Found "[]". Write: a list, such as mixers: [bento] (ids of who mixes)',
  ]);
});

test('broken JSON says its place', () => {
  expect(words('{\n  "date": "2026-06-08",\n  "start" "07:30"\n}\n', 'broken.json')[0]).toMatch(
    /^broken\.json:3:\d+: .*Write: /,
  );
});
