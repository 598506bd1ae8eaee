import { copyFileSync, existsSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { beforeAll, describe, expect, test } from 'vitest';
import { compose, openStore } from '../../adapters/cli/compose.ts';
import { handClock } from '../../adapters/cli/hand-clock.ts';
import { loadWords } from '../../adapters/cli/site.ts';
import { readRecord } from '../../adapters/record/read-record.ts';
import type { ShiftRecord } from '../../adapters/record/record-document.ts';
import { verifyRecord } from '../../adapters/record/verify-record.ts';
import { commandSchema } from '../../src/model/command.ts';
import type { DayEntry } from '../../src/model/day-entry.ts';
import type { EventOf } from '../../src/model/event.ts';
import { clockTime, MINUTE } from '../../src/model/time.ts';
import {
  expectNoPin,
  expectRefusal,
  expectResult,
  type Running,
  run,
  site,
  startPotbell,
} from '../cli/potbell.ts';
import { deadBatch, runningDay, shiftOf } from '../cli/running-day.ts';
import { tempDir } from '../files/temp-dir.ts';
import { burst, type Sent } from './burst.ts';

/** `potbell start` as people run it, and `kill -9`. */
const zone = site.pack.site.timeZone;
const textsFor = loadWords(site);
const crew = site.pack.people.map(({ id }) => id);
const silent = { info: () => undefined, warn: () => undefined, error: () => undefined };

async function recordOf(potbell: Running, shift: string): Promise<ShiftRecord> {
  const { status, body } = await potbell.get(`/file/${encodeURIComponent(shift)}/json`);
  expect(status).toBe(200);
  expect(verifyRecord(body).problems).toEqual([]);
  const read = readRecord(body);
  if (!read.ok) throw new Error(read.problem);
  return read.record;
}

async function expectHealthy(potbell: Running): Promise<void> {
  const { status, body } = await potbell.get('/healthz');
  expect(JSON.parse(body)).toEqual({ ok: true, problems: [] });
  expect(status).toBe(200);
}

/** The id a request was sent with, out of the id its journal lines have. */
const requestId = (commandId: string) => commandId.split(':')[1] ?? '';

/** How many journal lines each request made. */
function linesByRequest({ journal }: ShiftRecord): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { event } of journal) {
    if (event.by.kind !== 'person') continue;
    const id = requestId(event.commandId);
    counts.set(id, (counts.get(id) ?? 0) + 1);
  }
  return counts;
}

/** Deliveries that were under way when the process died, looked up in a copy so that the next start finds the file untouched. */
async function inFlightIn(data: string, shift: string): Promise<readonly string[]> {
  const copy = join(tempDir(), 'copy.db');
  for (const end of ['', '-wal']) if (existsSync(data + end)) copyFileSync(data + end, copy + end);
  const store = openStore(copy);
  const sending = await store.deliveries({ shift, state: 'sending', limit: 1000 });
  await store.close();
  return sending.map(({ id }) => id);
}

/** The facts of a log line; waits until the process has written it. */
async function logged(potbell: Running, message: string): Promise<Readonly<Record<string, unknown>>> {
  const [line] = await potbell.says('err', new RegExp(`^.*"msg":"${message}".*$`, 'm'));
  return JSON.parse(line) as Record<string, unknown>;
}

const repeating = 'messages that were being sent when Potbell stopped go out again, marked';

/** What went out again is delivered, and marked as something people may have seen. */
async function expectRepeated(potbell: Running, shift: string, inFlight: readonly string[]): Promise<void> {
  if (inFlight.length === 0) {
    expect(potbell.err()).not.toContain(repeating);
    return;
  }
  expect((await logged(potbell, repeating)).released).toBe(inFlight.length);
  for (const id of inFlight) await potbell.says('err', new RegExp(`"delivery":"${id}".*shown on the board`));
  const { shown } = await recordOf(potbell, shift);
  for (const id of inFlight) expect(shown.find((one) => one.id === id)?.attempts).toBeGreaterThanOrEqual(2);
}

function marked(data: string): readonly string[] {
  const db = new Database(data, { readonly: true });
  const ids = db
    .prepare<[], string>('SELECT id FROM outbox WHERE possible_repeat = 1 ORDER BY id')
    .pluck()
    .all();
  db.close();
  return ids;
}

const data = join(tempDir(), 'potbell.db');
let potbell: Running;
/** The real time as this file began, by the clock of a real process. */
let now: number;
let entry: DayEntry;
let shift = '';

beforeAll(async () => {
  potbell = await startPotbell(data);
  now = await potbell.clock();
  entry = runningDay(now);
  shift = shiftOf(entry);
});

describe('kill -9 in the middle of a shift', () => {
  const all: Sent[] = [];
  const everInFlight = new Set<string>();

  beforeAll(async () => {
    expect(await potbell.send('ines', { type: 'post-day', entry }, 'the-day-itself')).toMatchObject({
      ok: true,
    });
    expect(await potbell.send('bento', deadBatch(now), 'the-old-batch')).toMatchObject({ ok: true });
  });

  test('a batch logged long after it was mixed rings at once, and that ring is not called late', async () => {
    const logging = (await recordOf(potbell, shift)).journal.find(
      ({ event }) => event.body.type === 'batch-mixed',
    );
    const next = (logging?.event.seq ?? 0) + 1;
    await potbell.says(
      'err',
      new RegExp(`"delivery":"${shift}:${next}:.*"urgency":"bell".*shown on the board`),
    );
    const { journal } = await recordOf(potbell, shift);
    const rings = journal.flatMap(({ event }) => (event.body.type === 'bell-rang' ? [event.body] : []));
    const dead = rings.filter(({ kind }) => kind === 'dead');
    // Pot and line hold the same batch, so one clock speaks for both.
    expect(dead.map(({ bell }) => bell)).toEqual(['dead:rig-1:line:rig-1-1']);
    for (const ring of dead) {
      expect(ring.late).toBe(false);
      expect(ring.scheduledFor).toBe(logging?.event.at);
    }
  });

  async function killAndRestart(name: string, kill: (acknowledged: number) => boolean, alsoOn?: RegExp) {
    let dead = false;
    const shoot = () => {
      dead ||= potbell.child.kill('SIGKILL');
    };
    const heard = alsoOn ? potbell.says('err', alsoOn).then(shoot) : null;
    const sent = await burst(potbell, crew, name, (count) => {
      if (!dead && kill(count)) shoot();
    });
    await heard;
    expect((await potbell.ended).signal).toBe('SIGKILL');
    all.push(...sent);
    const inFlight = await inFlightIn(data, shift);
    for (const id of inFlight) everInFlight.add(id);

    potbell = await startPotbell(data);
    await expectHealthy(potbell);
    const found = linesByRequest(await recordOf(potbell, shift));
    const acknowledged = sent.filter((one) => one.acknowledged);
    const doubtful = sent.filter((one) => !one.acknowledged);
    // Each acknowledged one is there, and each that is there is there once, though it may never have been acknowledged.
    for (const { commandId } of acknowledged)
      expect([commandId, found.get(commandId)]).toEqual([commandId, 1]);
    for (const { commandId } of doubtful) expect([0, 1]).toContain(found.get(commandId) ?? 0);

    // Who got no answer sends the same again, and so does one who did get one.
    for (const { person, command, commandId } of [...doubtful, ...acknowledged.slice(-1)]) {
      const answer = await potbell.send(person, command, commandId);
      expect(answer).toMatchObject({ ok: true, status: 200 });
      const { language } = site.pack.people.find(({ id }) => id === person) ?? site.pack.site;
      if (found.has(commandId)) expect(answer.text).toContain(textsFor(language).say('done.repeated'));
    }
    const after = linesByRequest(await recordOf(potbell, shift));
    for (const { commandId } of all) expect([commandId, after.get(commandId)]).toEqual([commandId, 1]);
    await expectRepeated(potbell, shift, inFlight);
    await expectHealthy(potbell);
    return sent;
  }

  test.each([1, 2, 4, 7, 11, 16])('after %i acknowledged, with others in flight', async (enough) => {
    const sent = await killAndRestart(`after-${enough}`, (count) => count >= enough);
    expect(sent.filter(({ acknowledged }) => acknowledged).length).toBeGreaterThanOrEqual(enough);
    expect(sent.some(({ acknowledged }) => !acknowledged)).toBe(true);
  });

  test('while a message is being delivered', async () => {
    await killAndRestart(
      'delivering',
      () => false,
      /"delivery":"[^"]*:(?!1:|2:)\d+:\d+:board".*shown on the board/,
    );
  });

  test('while it stops after SIGTERM', async () => {
    let asked = false;
    const sent = await killAndRestart(
      'stopping',
      (count) => {
        if (count >= 3 && !asked) asked = potbell.child.kill('SIGTERM');
        return false;
      },
      /"msg":"stopping"/,
    );
    expect(sent.filter(({ acknowledged }) => acknowledged).length).toBeGreaterThanOrEqual(3);
  });

  test('the shift then goes on, closes and verifies', async () => {
    const { journal } = await recordOf(potbell, shift);
    expect(new Set(journal.map(({ event }) => event.seq)).size).toBe(journal.length);
    // Not one bell rang twice for one step, whatever was killed.
    const rings = journal.flatMap(({ event }) =>
      event.body.type === 'bell-rang' ? [`${event.body.bell} ${event.body.dueAt} ${event.body.step}`] : [],
    );
    expect(new Set(rings).size).toBe(rings.length);
    const end = await potbell.stop('SIGTERM');
    expect({ code: end.code, signal: end.signal }).toEqual({ code: 0, signal: null });
    expect(marked(data)).toEqual(expect.arrayContaining([...everInFlight]));
    const verified = await run(['verify', '--data', data]);
    expectResult(verified);
    expect(verified.out).toContain(`${shift} verifies: ${journal.length} lines`);
    expectNoPin(end.err);
  });
});

describe('overdue bells and messages in flight', () => {
  const overdue = join(tempDir(), 'overdue.db');
  /** Chosen so that the last ring due lies a minute back and the next one four minutes ahead. */
  const elapsed = 164 * MINUTE;
  let died: number;
  let inFlight: readonly string[] = [];

  beforeAll(async () => {
    died = now - elapsed;
    const clock = handClock(died);
    const store = openStore(overdue);
    const before = await compose(site, store, clock, silent);
    const asked = [
      ['ines', { type: 'post-day', entry }],
      [
        'bento',
        { type: 'mix-batch', rig: 'rig-1', coating: 'epoxy-mid', litres: 20, paintC: 23, pot: 'fresh' },
      ],
    ] as const;
    for (const [person, command] of asked) {
      const outcome = await before.host.handle({
        shift,
        command: commandSchema.parse(command),
        actor: { kind: 'person', person, surface: 'terminal' },
        commandId: `before-${person}`,
      });
      expect(outcome.ok).toBe(true);
    }
    inFlight = (await store.claim(died, 3, 20_000)).map(({ id }) => id);
    // As a killed process leaves it: three deliveries under way, the others not begun.
    await store.close();
    potbell = await startPotbell(overdue);
  });

  type Rang = { readonly at: number; readonly body: EventOf<'bell-rang'> };
  const rangIn = ({ journal }: ShiftRecord): readonly Rang[] =>
    journal.flatMap(({ event: { at, body } }) => (body.type === 'bell-rang' ? [{ at, body }] : []));

  /** Minutes after the first ring at which the others should have come, by the demo site's policy. */
  function missedBy(at: number, first: number): number {
    const {
      foremanAfterMinutes: foreman,
      safetyAfterMinutes: safety,
      repeatEveryMinutes: each,
    } = site.pack.policy;
    const due = [0, foreman, safety];
    for (let next = safety + each; first + next * MINUTE <= at; next += each) due.push(next);
    return due.length - 1;
  }

  const unsigned = ['unsigned:1', ...crew.map((person) => `unsigned:${person}:1`)];
  const dead = 'dead:rig-1:line:rig-1-1';
  const expected = [...unsigned, dead, 'induction-over:rig-1-1'].sort();

  test('each bell rings once, late, with its true lateness and the rings that fell out', async () => {
    const record = await recordOf(potbell, shift);
    const later = (await potbell.clock()) + 1000;
    const rings = rangIn(record);
    expect(rings.map(({ body }) => body.bell).sort()).toEqual(expected);
    for (const { at, body } of rings) {
      expect(at).toBeGreaterThanOrEqual(now);
      expect(at).toBeLessThan(later);
      expect(body.late).toBe(true);
      // 10 min of the policy for a sign-off, 120 min of the demo's sheet at 23 °C, 10 min of its standing time.
      const due = died + (body.kind === 'dead' ? 120 : 10) * MINUTE;
      expect(body.scheduledFor).toBe(due);
      const once = body.kind === 'induction-over';
      expect(body.missedRings).toBe(once ? 0 : missedBy(at, due));
      // BE10: one's own bell goes past oneself only where the crew's has not told the foreman.
      const own = body.kind === 'unsigned' && body.bell !== 'unsigned:1';
      expect(body.level).toBe(once || own ? 'crew' : 'safety');
      const summed = record.summary.bells.find(({ bell }) => bell === body.bell);
      expect(summed?.rings).toHaveLength(1);
      expect(summed?.rings[0]).toMatchObject({ late: true, missedRings: body.missedRings });
      expect(summed?.rings[0]?.lateSeconds).toBeCloseTo((at - due) / 1000, 0);
    }
    expect(rings.find(({ body }) => body.bell === dead)?.body.missedRings).toBeGreaterThanOrEqual(9);
  });

  test('people are told how late and what fell out', async () => {
    const { shown, journal } = await recordOf(potbell, shift);
    const ring = journal.find(({ event: { body } }) => body.type === 'bell-rang' && body.bell === dead);
    const told = shown.filter(({ line, urgency }) => line === ring?.event.seq && urgency === 'bell');
    expect(told.length).toBeGreaterThan(0);
    const due = died + 120 * MINUTE;
    const minutes = Math.round(((ring?.event.at ?? 0) - due) / MINUTE);
    for (const { text } of told) {
      expect(text).toContain(
        `This bell is ${minutes} min late. It should have rung at ${clockTime(due, zone)}.`,
      );
      expect(text).toMatch(/\b\d+ rings missed meanwhile/);
    }
  });

  test('messages that were in flight go out again, marked, and nothing else is', async () => {
    expect(inFlight).toHaveLength(3);
    await expectRepeated(potbell, shift, inFlight);
    const { shown } = await recordOf(potbell, shift);
    expect(shown.filter(({ attempts }) => attempts > 1).map(({ id }) => id)).toHaveLength(3);
    await expectHealthy(potbell);
  });

  test('killed and started again, what was overdue does not ring a second time', async () => {
    const firstStart = rangIn(await recordOf(potbell, shift))[0]?.at ?? 0;
    await potbell.stop('SIGKILL');
    potbell = await startPotbell(overdue);
    await expectHealthy(potbell);
    const again = rangIn(await recordOf(potbell, shift)).filter(
      ({ body }) => body.scheduledFor <= firstStart,
    );
    expect(again.map(({ body }) => body.bell).sort()).toEqual(expected);
    const { code } = await potbell.stop('SIGTERM');
    expect(code).toBe(0);
    expect(marked(overdue)).toEqual(expect.arrayContaining([...inFlight]));
  });
});

describe.concurrent('stopping and starting', () => {
  test('SIGTERM: a clean end with exit code 0, open pages let go, nothing acknowledged lost', async () => {
    const file = join(tempDir(), 'stop.db');
    const running = await startPotbell(file);
    await running.send('ines', { type: 'post-day', entry }, 'the-day-itself');
    const page = await fetch(`${running.url}/live`);
    const requests = crew.slice(0, 4).map(async (person) => {
      const command = { type: 'raise-concern', text: 'The barrier is open.' } as const;
      const answer = await running.send(person, command, `concern-${person}`).catch(() => null);
      // The first answer ends it while the others are on their way; the next ones ask a second time.
      running.child.kill('SIGTERM');
      return answer?.ok ? [`concern-${person}`] : [];
    });
    const acknowledged = (await Promise.all(requests)).flat();
    expect(acknowledged.length).toBeGreaterThan(0);
    // The page's stream comes to its end instead of breaking off.
    expect(await page.text()).toContain('event: hello');
    const end = await running.ended;
    expect({ code: end.code, signal: end.signal }).toEqual({ code: 0, signal: null });
    expect(end.err).not.toMatch(/"level":(40|50|60)/);

    const store = openStore(file);
    const journal = await store.journal(shift);
    await store.close();
    const found = journal.map(({ event }) => requestId(event.commandId));
    for (const id of acknowledged) expect(found.filter((one) => one === id)).toHaveLength(1);
  });

  test('Ctrl-C twice, as under npm, does not cut the stopping short', async () => {
    const running = await startPotbell(join(tempDir(), 'twice.db'));
    // An open page keeps it from being done at once.
    const page = await fetch(`${running.url}/live`);
    running.child.kill('SIGINT');
    await running.says('err', /"msg":"stopping"/);
    running.child.kill('SIGINT');
    running.child.kill('SIGTERM');
    await page.text();
    const end = await running.ended;
    expect({ code: end.code, signal: end.signal }).toEqual({ code: 0, signal: null });
  });

  test('a second one on the same file is refused in words, and the first goes on, even with nobody reading its output', async () => {
    const file = join(tempDir(), 'owned.db');
    const first = await startPotbell(file);
    expectRefusal(
      await run(['start', '--port', '0', '--data', file]),
      file,
      'already open in another Potbell',
      'stop the other one first, or give this one another file',
    );
    await expectHealthy(first);

    first.child.stdout?.destroy();
    first.child.stderr?.destroy();
    // Logged, so it writes to where nobody reads any more.
    expect((await first.send('ines', { type: 'issue-briefing' }, 'nobody-reads', '0000')).status).toBe(401);
    expect(await first.send('ines', { type: 'post-day', entry }, 'the-day-itself')).toMatchObject({
      ok: true,
    });
    await expectHealthy(first);
    expect((await first.stop('SIGTERM')).code).toBe(0);
  });

  test('a port that is taken is named, and the database is let go', async () => {
    const other = createServer();
    await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
    const { port } = other.address() as AddressInfo;
    const file = join(tempDir(), 'port.db');
    expectRefusal(
      await run(['start', '--port', String(port), '--data', file]),
      `another program already uses port ${port}; stop it or choose another port`,
    );
    other.close();
    const store = openStore(file);
    expect(await store.shifts()).toEqual([]);
    await store.close();
  });
});
