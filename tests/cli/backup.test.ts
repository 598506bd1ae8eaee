import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { copyRunning, copyStopped } from '../../adapters/cli/backup.ts';
import { compose, openRunning } from '../../adapters/cli/compose.ts';
import { logger } from '../../adapters/cli/logger.ts';
import { exampleDay, loadSite } from '../../adapters/cli/site.ts';
import { instantOf } from '../../src/model/time.ts';

const folder = mkdtempSync(join(tmpdir(), 'potbell-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const site = loadSite();
const pin = (person: string) => site.demoPins[person] ?? '';

/** A Potbell with one posted day, its board on a free port, under a clock that stands. */
async function running(data: string) {
  const entry = exampleDay(site);
  if (!entry) throw new Error('the demo site has no example day');
  const { store, copyTo } = openRunning(data);
  const now = instantOf(entry.date, '06:00', site.pack.site.timeZone);
  const potbell = await compose(site, store, { now: () => now }, logger('error'), { copyTo });
  const board = await potbell.board.start({ host: '127.0.0.1', port: 0 });
  const { url } = board;
  const response = await fetch(`${url}/api/command`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({
      person: 'ines',
      pin: pin('ines'),
      commandId: 'post-the-day',
      command: { type: 'post-day', entry },
    }),
  });
  expect(response.status).toBe(200);
  return {
    url,
    stop: async () => {
      await board.stop();
      await potbell.stop();
    },
  };
}

test('a running Potbell is copied by a foreman, a stopped one by whoever has the file', async () => {
  const data = join(folder, 'potbell.db');
  const { url, stop } = await running(data);
  const one = join(folder, 'one.db');
  try {
    await expect(copyRunning({ board: url, person: 'bento', pin: pin('bento') }, one)).rejects.toThrow(
      'Only a foreman takes a copy of the database.',
    );
    expect(existsSync(one)).toBe(false);
    expect(await copyRunning({ board: url, person: 'ines', pin: pin('ines') }, one)).toEqual({
      shifts: 1,
      lines: 1,
    });
    await expect(copyRunning({ board: url, person: 'ines', pin: pin('ines') }, one)).rejects.toThrow(
      /There is a file .*one\.db already/,
    );
  } finally {
    await stop();
  }
  expect(await copyStopped(data, join(folder, 'two.db'))).toEqual({ shifts: 1, lines: 1 });
  expect(await copyStopped(one, join(folder, 'three.db'))).toEqual({ shifts: 1, lines: 1 });
});

test('what is not there is said, and nothing is made in its place', async () => {
  const none = join(folder, 'none.db');
  await expect(copyStopped(none, join(folder, 'a.db'))).rejects.toThrow(`There is no database ${none}`);
  await expect(
    copyRunning({ board: 'http://127.0.0.1:9', person: 'ines', pin: '1' }, join(folder, 'a.db')),
  ).rejects.toThrow(/No Potbell answers at http:\/\/127\.0\.0\.1:9/);
  await expect(
    copyRunning({ board: 'shed', person: 'ines', pin: '1' }, join(folder, 'a.db')),
  ).rejects.toThrow('"shed" is no address');
  expect(existsSync(none)).toBe(false);
  expect(existsSync(join(folder, 'a.db'))).toBe(false);
});
