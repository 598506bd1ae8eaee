import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { verifyRecord } from '../../adapters/record/verify-record.ts';
import type { DayEntry } from '../../src/model/day-entry.ts';
import { tempDir } from '../files/temp-dir.ts';
import {
  demoPins,
  expectNoPin,
  expectRefusal,
  expectResult,
  type Running,
  run,
  startPotbell,
} from './potbell.ts';
import { dayFile, runningDay, shiftOf } from './running-day.ts';

/** What the other commands do beside a Potbell that runs, and with its database when it has stopped. */
const folder = tempDir();
const data = join(folder, 'potbell.db');
let potbell: Running;
let entry: DayEntry;
let day = '';
const said: string[] = [];

beforeAll(async () => {
  potbell = await startPotbell(data);
  entry = runningDay(await potbell.clock());
  day = dayFile(folder, entry);
});

async function post(person: string, pin: string, more: readonly string[] = ['--board', potbell.url]) {
  const end = await run(['post', day, '--as', person, ...more], { POTBELL_PIN: pin });
  said.push(end.out, end.err);
  return end;
}

const pinOf = (person: string) => demoPins[person] ?? '';
const journalLines = async () => {
  const { status, body } = await potbell.get(`/file/${encodeURIComponent(shiftOf(entry))}/json`);
  return status === 404 ? 0 : verifyRecord(body).lines;
};

describe('potbell post', () => {
  test.concurrent('who is not a foreman is told who is, and nothing is posted', async () => {
    expectRefusal(await post('duarte', pinOf('duarte')), 'Only the foreman can do this: Ines.');
    expect(await journalLines()).toBe(0);
  });

  test.concurrent.each([
    ['a wrong PIN', 'ines', '1111', /This PIN is not right\. Nothing was done\. Tries left: 4\./],
    ['letters for a PIN', 'ines', 'secret', /digits only/],
  ])('%s is refused, and nothing is posted', async (_what, person, pin, words) => {
    const end = await post(person, pin);
    expectRefusal(end, words);
    expect(end.err).not.toContain(pin);
    expect(await journalLines()).toBe(0);
  });

  test('the right PIN posts the day', async () => {
    const end = await post('ines', pinOf('ines'));
    expectResult(end);
    expect(end.out).toMatch(/posted/i);
    expect(await journalLines()).toBeGreaterThan(0);
  });

  test('the same day again changes nothing and says so', async () => {
    const before = await journalLines();
    expectRefusal(await post('ines', pinOf('ines')), 'Not done.');
    expect(await journalLines()).toBe(before);
  });

  test('a broken day file never reaches the board', async () => {
    const broken = dayFile(folder, { ...entry, surroundings: 'under-water' }, 'broken.json');
    const end = await run(['post', broken, '--as', 'ines', '--board', potbell.url], { POTBELL_PIN: '1111' });
    expectRefusal(end, /broken\.json:\d+:\d+ .*surroundings.*under-water/);
  });
});

describe.concurrent('potbell post, and no Potbell there', () => {
  let other: Server;

  beforeAll(async () => {
    other = createServer((_request, response) => response.end('<p>hello</p>'));
    await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
  });
  afterAll(() => void other.close());

  test('another program answers', async () => {
    const url = `http://127.0.0.1:${(other.address() as AddressInfo).port}`;
    expectRefusal(
      await post('ines', pinOf('ines'), ['--board', url]),
      `Something answers at ${url}, but not a Potbell`,
    );
  });

  test('nobody answers', async () => {
    const gone = createServer();
    await new Promise<void>((resolve) => gone.listen(0, '127.0.0.1', resolve));
    const url = `http://127.0.0.1:${(gone.address() as AddressInfo).port}`;
    await new Promise((resolve) => gone.close(resolve));
    expectRefusal(
      await post('ines', pinOf('ines'), ['--board', url]),
      `No Potbell answers at ${url} (connect ECONNREFUSED`,
      'Start it with "potbell start", or say --board URL.',
    );
  });

  test('the address is none', async () => {
    expectRefusal(await post('ines', pinOf('ines'), ['--board', 'the shed']), '"the shed" is no address');
  });
});

describe('the database', () => {
  test.concurrent.each(['record', 'verify'])(
    'in use: potbell %s says where the files are to be had',
    async (command) => {
      expectRefusal(
        await run([command, '--data', data]),
        'already open in another Potbell',
        'its record page has the files',
      );
    },
  );

  test('after stopping: verify walks it', async () => {
    const lines = await journalLines();
    const { code, err } = await potbell.stop('SIGTERM');
    expect(code).toBe(0);
    said.push(err);
    const end = await run(['verify'], { POTBELL_DATA: data });
    expectResult(end);
    expect(end.out).toMatch(
      new RegExp(`^${shiftOf(entry)} verifies: ${lines} lines, seal [0-9a-f]{64}\\.\n$`),
    );
    said.push(end.out);
  });

  test('record writes the newest shift, and its file verifies', async () => {
    const out = join(folder, 'newest');
    const end = await run(['record', '--data', data, '--out', out]);
    expectResult(end);
    said.push(end.out);
    const files = readdirSync(out).map((file) => join(out, file));
    expect(end.out.trim().split('\n').sort()).toEqual(files.map((file) => `Written: ${file}`).sort());
    const json = files.find((file) => file.endsWith('.json')) ?? '';
    expect(verifyRecord(readFileSync(json, 'utf8'))).toMatchObject({ ok: true, problems: [] });
  });

  test('a date without a shift', async () => {
    expectRefusal(
      await run(['record', '2020-01-01', '--data', data, '--out', folder]),
      'There is no shift of 2020-01-01 in this database.',
    );
  });

  test('one that is not there is not made, and does not pass for one that verifies', async () => {
    const missing = join(folder, 'mistyped.db');
    expectRefusal(await run(['verify', '--data', missing]), `There is no database ${missing}`);
    expect(existsSync(missing)).toBe(false);
  });

  test('a journal line changed behind its back does not verify', async () => {
    const db = new Database(data);
    const changed = db
      .prepare(`UPDATE journal SET json = replace(json, '"airC":22', '"airC":12') WHERE seq = 1`)
      .run();
    expect(changed.changes).toBe(1);
    db.close();
    expectRefusal(await run(['verify', '--data', data]), shiftOf(entry), /line 1\b/);
  });

  test('a file that is no database', async () => {
    const file = join(folder, 'letter.db');
    writeFileSync(file, 'Dear foreman, '.repeat(100));
    expectRefusal(
      await run(['verify', '--data', file]),
      `The database ${file} is damaged`,
      'Nothing was deleted',
    );
    expect(readFileSync(file, 'utf8')).toMatch(/^Dear foreman/);
  });

  test('no PIN stands in anything that was said, but for the banner of the demo', () => {
    expect(said.join('').length).toBeGreaterThan(1000);
    expectNoPin(said.join('\n'));
    const [banner = ''] = /^Potbell for[\s\S]*Stop with Ctrl-C.*$/m.exec(potbell.out()) ?? [];
    for (const pin of Object.values(demoPins)) expect(banner).toContain(`PIN ${pin}`);
    expectNoPin(potbell.out().replace(banner, ''));
    expectNoPin(potbell.err());
  });
});
