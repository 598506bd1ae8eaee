import { createHash } from 'node:crypto';
import psychrolib from 'psychrolib';
import { beforeAll, describe, expect, test } from 'vitest';
import { readRecord } from '../../adapters/record/read-record.ts';
import type { ShiftRecord } from '../../adapters/record/record-document.ts';
import type { RecordInput } from '../../adapters/record/record-input.ts';
import { recordJson } from '../../adapters/record/record-json.ts';
import { verifyRecord } from '../../adapters/record/verify-record.ts';
import { flushSteps } from '../../src/model/checks.ts';
import { DATE, wholeDay } from './whole-day.ts';

let input: RecordInput;
let text: string;
let record: ShiftRecord;

beforeAll(async () => {
  input = await (await wholeDay()).record();
  text = recordJson(input);
  const read = readRecord(text);
  if (!read.ok) throw new Error(read.problem);
  record = read.record;
}, 30_000);

/** Moments of the day on the site's clock: Lisbon, one hour before UTC in June. */
const on = (time: string) => expect.stringMatching(new RegExp(`^${DATE}T${time}:\\d\\d\\.\\d{3}\\+01:00$`));

describe('the JSON record', () => {
  test('verifies by itself', () => {
    const head = input.journal.at(-1)?.hash;
    expect(verifyRecord(text)).toEqual({ ok: true, lines: input.journal.length, head, problems: [] });
    expect(verifyRecord(text, head).ok).toBe(true);
  });

  test('is the same text each time it is made', () => {
    expect(recordJson(input)).toBe(text);
    expect(recordJson({ ...input, deliveries: input.deliveries.toReversed() })).toBe(text);
  });

  test('holds the journal exactly as it was written', () => {
    expect(record.journal).toEqual(
      input.journal.map(({ event, previous, hash }) => ({ event, previous, hash })),
    );
  });

  // Written from the description of the chain alone: SHA-256 (FIPS 180-4) over the hash before and the event as
  // RFC 8785 JSON.
  test('has a chain that another program can walk', () => {
    let previous = sha256(record.summary.shift);
    for (const line of record.journal) {
      expect(line.previous).toBe(previous);
      previous = sha256(previous + JSON.stringify(sorted(line.event)));
      expect(line.hash).toBe(previous);
    }
    expect(record.seal).toMatchObject({ head: previous, lines: record.journal.length });
    expect(record.seal.file).toBe(sha256(JSON.stringify(sorted({ ...record, seal: undefined }))));
  });

  test('names site, date, and who closed it and why', () => {
    expect(record).toMatchObject({ format: 'potbell-shift-record', version: 4, madeAt: on('16:36') });
    expect(record.summary).toMatchObject({
      site: { id: 'gannet-footbridge', name: 'Gannet Footbridge repaint' },
      date: DATE,
      status: 'closed',
      closed: {
        at: on('16:36'),
        by: { id: 'ines', name: 'Ines' },
        reason: expect.stringContaining('new gun'),
      },
      previousHead: 'f'.repeat(64),
      carriedIn: { fromDate: '2026-06-05', settledSolvent: [{ rig: { id: 'rig-1' }, litres: 6 }] },
    });
  });

  test('names what changed in the day and who changed it', () => {
    const [change, ...more] = record.summary.day.changes;
    expect(more).toEqual([]);
    expect(change).toMatchObject({
      at: on('07:26'),
      by: { kind: 'person', person: { id: 'ines' }, from: 'board' },
      values: [{ what: 'entry.jobs.0.airBar', before: 5, after: 5.5 }],
    });
  });

  test('keeps both revisions of the briefing, with what the second changed', () => {
    const [first, second] = record.summary.briefings;
    expect(first).toMatchObject({ revision: 1, issuedAt: on('07:00') });
    expect(first?.cautions.find(({ id }) => id === 'injection')?.params).toMatchObject({ bar: 225 });
    expect(second).toMatchObject({ revision: 2, issuedAt: on('07:26') });
    const changed = second?.cautions.filter((caution) => caution.changed) ?? [];
    expect(changed.map(({ id }) => id)).toContain('injection');
    expect(changed.length).toBeLessThan(second?.cautions.length ?? 0);
  });

  test('says for each person which revision they signed, how, and what they answered', () => {
    const of = (id: string) => record.summary.people.find(({ person }) => person.id === id);
    expect(of('nuno')?.signOffs).toMatchObject([
      {
        revision: 1,
        at: on('07:08'),
        witness: { id: 'ines' },
        by: { person: { id: 'ines' }, from: 'board' },
      },
      { revision: 2, at: on('07:30'), witness: { id: 'ines' } },
    ]);
    expect(of('duarte')?.signOffs[0]).toMatchObject({ witness: null, by: { person: { id: 'duarte' } } });
    expect(of('bento')?.answers.map(({ revision, right }) => [revision, right])).toEqual([
      [1, false],
      [1, true],
      [2, true],
    ]);
    expect(of('tomas')?.arrivedAt).toEqual(on('07:20'));
    expect(record.summary.people.every(({ unsigned }) => unsigned.length === 0)).toBe(true);
  });

  test('remembers what the state has forgotten: cleared stops and tags, rig checks done twice', () => {
    expect(record.summary.stops).toMatchObject([
      {
        at: on('09:31'),
        by: { kind: 'unknown', person: null, from: 'board' },
        text: 'Somebody under the scaffold',
        cleared: { at: on('09:37'), by: { id: 'ines' }, text: 'Barrier closed, nobody below.' },
      },
    ]);
    expect(record.summary.concerns).toMatchObject([
      { by: { id: 'marta' }, resolved: { by: { id: 'ines' } } },
    ]);
    const [first, second] = record.summary.tags;
    expect(first).toMatchObject({
      rig: { id: 'rig-2' },
      reports: [{ cause: 'check' }],
      cleared: { by: { id: 'ines' } },
    });
    expect(second).toMatchObject({ rig: { id: 'rig-1' }, reports: [{ cause: 'report' }], cleared: null });
    const checks = record.summary.rigChecks.filter(({ rig }) => rig.id === 'rig-2');
    expect(
      checks.map(({ note, results }) => [note, results.filter(({ result }) => result === 'defect')]),
    ).toEqual([
      ['Clamp broken', [{ check: 'earth-lead', result: 'defect' }]],
      ['', []],
    ]);
  });

  // psychrolib: ASHRAE Handbook of Fundamentals 2017, chapter 1. The margin is never shown larger than it is.
  test('works out dew point and margin, and names the limits missed', () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    const [morning, noon] = record.summary.readings;
    for (const reading of record.summary.readings) {
      const dew = psychrolib.GetTDewPointFromRelHum(reading.airC, reading.rhPct / 100);
      expect(Math.abs(reading.dewPointC - dew)).toBeLessThan(0.1);
      expect(reading.marginC).toBeLessThanOrEqual(reading.steelC - reading.dewPointC + 0.005);
    }
    expect(morning).toMatchObject({ at: on('07:48'), missed: [] });
    expect(noon?.wetC).toBe(16.5);
    expect(noon?.missed.map(({ coating, limit, allowed }) => [coating.id, limit, allowed])).toEqual([
      ['epoxy-mid', 'margin', 3],
      ['epoxy-mid', 'rh-max', 85],
      ['pu-finish', 'margin', 3],
      ['pu-finish', 'rh-max', 80],
    ]);
  });

  test('keeps each batch with its clocks as they stood when the paint was out', () => {
    const { batches } = record.summary;
    expect(batches.map(({ id }) => id)).toEqual([
      'rig-1-1',
      'rig-2-1',
      'rig-1-2',
      'rig-2-2',
      'rig-2-3',
      'rig-2-4',
    ]);
    expect(batches.map(({ withdrawn }) => withdrawn?.text ?? null)).toEqual([
      ...[null, null, null, null, null],
      'Livia and Rui both logged it',
    ]);
    const [first, , second, , top] = batches;
    expect(first).toMatchObject({
      litres: 20,
      aL: 16,
      bL: 4,
      thinnerL: 0.6,
      paintC: 22,
      by: { id: 'bento' },
    });
    // 3 parts in 13 of the way from 20 min at 10 °C to 10 min at 23 °C: 10.77 min of standing.
    expect(first?.standUntil).toEqual(on('08:05'));
    expect(first?.clocks).toMatchObject([
      { where: 'pot', since: on('07:55'), goneAt: on('08:52'), goneBy: 'pot-emptied' },
      { where: 'line', since: on('07:55'), goneAt: on('09:10'), goneBy: 'line-renewed' },
    ]);
    expect(second?.clocks).toMatchObject([
      { where: 'pot', since: on('08:52'), goneAt: on('09:42'), goneBy: 'primary-flush' },
      { where: 'line', since: on('09:10'), goneAt: on('09:42'), goneBy: 'primary-flush' },
    ]);
    // The hose was felt warm: the line had less time than the pot.
    const [pot, line] = second?.clocks ?? [];
    expect(line?.deadAt && pot?.deadAt && line.deadAt < pot.deadAt).toBe(true);
    expect(top).toMatchObject({ pot: 'on-top', governedBy: 'rig-2-2', underHolds: ['climate'], clocks: [] });
    for (const { useBy, startFlushBy, deadAt } of batches.flatMap(({ clocks }) => clocks)) {
      expect((useBy ?? '') <= (startFlushBy ?? '')).toBe(true);
      expect((startFlushBy ?? '') < (deadAt ?? '')).toBe(true);
    }
  });

  test('says what each temperature did to the use-by time', () => {
    expect(record.summary.temperatures.map(({ rig, where, c, basis }) => [rig.id, where, c, basis])).toEqual([
      ['rig-1', 'pot', 25, 'measured'],
      ['rig-2', 'hose', 27, 'measured'],
      ['rig-1', 'hose', 39, 'felt-warm'],
    ]);
    // The hose felt warm in a pause that its estimate had already counted as warm: that moves nothing.
    expect(
      record.summary.temperatures.map(({ useByBefore, useByAfter }) =>
        (useByAfter ?? '').localeCompare(useByBefore ?? ''),
      ),
    ).toEqual([-1, -1, 0]);
    expect(record.summary.handling.map(({ what }) => what)).toEqual([
      'pot-emptied',
      'line-renewed',
      'paused',
      'resumed',
    ]);
  });

  test('says of every ring when it was due, when it rang and how late', () => {
    const rings = record.summary.bells.flatMap(({ rings }) => rings);
    const events = record.journal.filter(({ event }) => event.body.type === 'bell-rang');
    expect(rings.map(({ line }) => line).sort((x, y) => x - y)).toEqual(events.map(({ event }) => event.seq));
    const late = rings.filter((ring) => ring.late);
    expect(record.summary.bells).toContainEqual(
      expect.objectContaining({
        kind: 'start-flush',
        rig: expect.objectContaining({ id: 'rig-2' }),
        rings: [expect.objectContaining({ late: true, scheduledFor: on('09:57'), rangAt: on('10:01') })],
        answered: expect.objectContaining({ at: on('10:01'), by: { id: 'rui', name: 'Rui' } }),
      }),
    );
    for (const ring of late) expect(ring.rangAt).toEqual(on('10:01'));
    for (const ring of rings) {
      const seconds = (Date.parse(ring.rangAt) - Date.parse(ring.scheduledFor)) / 1000;
      expect(Math.abs(ring.lateSeconds - seconds)).toBeLessThan(0.11);
    }
    expect(record.summary.bells.find(({ kind }) => kind === 'stop-work')?.answered).toMatchObject({
      at: on('09:37'),
      by: { id: 'ines' },
    });
  });

  test('keeps each flush with all its steps, those left out with the reason', () => {
    const [abandoned, ...rest] = record.summary.flushes.filter((flush) => flush.abandoned !== null);
    expect(rest).toEqual([]);
    expect(abandoned).toMatchObject({
      id: 'rig-1-flush-2',
      finishedAt: null,
      abandoned: { at: on('14:08'), by: { id: 'duarte' }, text: 'Meant the small pump' },
    });
    const [first, ...others] = record.summary.flushes.filter((flush) => flush.abandoned === null);
    expect(others).toHaveLength(2);
    // Every step half a minute after the one before: no pump moves three line volumes in that.
    const soon = first?.steps.filter((step) => step.tooSoon !== null);
    expect(soon?.map(({ step, tooSoon }) => [step, tooSoon?.minutes])).toContainEqual(['primary-flush', 0]);
    expect(first?.steps.map(({ step }) => step)).toEqual([...flushSteps]);
    expect(first?.steps.filter(({ outcome }) => outcome !== 'done')).toMatchObject([
      {
        step: 'filters',
        outcome: 'skipped',
        by: { id: 'duarte' },
        text: 'New filters go in tomorrow, old ones thrown away',
      },
    ]);
    expect(first?.steps.find(({ step }) => step === 'primary-flush')).toMatchObject({
      at: on('09:42'),
      litres: 9.5,
    });
    expect(first).toMatchObject({ startedAt: on('09:38'), finishedAt: on('10:10') });
  });

  test('names what stays open and what the next briefing hears', () => {
    expect(record.summary.open).toMatchObject([
      { what: 'open.step', name: 'Rig 1 (large pump)', rig: 'rig-1', step: 'filters' },
      { what: 'open.tag', name: 'Rig 1 (large pump)' },
    ]);
    expect(record.summary.carriesOver).toMatchObject({
      tags: [{ rig: { id: 'rig-1' }, text: 'gun: hairline crack at the swivel' }],
      skippedSteps: [{ rig: { id: 'rig-1' }, step: 'filters' }],
      unflushed: [],
    });
  });

  test('keeps every message as it was shown, to whom, where and when', () => {
    const { shown, summary } = record;
    expect(shown.map(({ id }) => id).sort()).toEqual(input.deliveries.map(({ id }) => id).sort());
    const lines = shown.map(({ line }) => line ?? Number.POSITIVE_INFINITY);
    expect(lines).toEqual(lines.toSorted((x, y) => x - y));
    const batch = shown.find(({ key }) => key === 'batch:rig-1-1');
    expect(batch).toMatchObject({ person: null, surface: 'board', state: 'sent', settledAt: on('08:05') });
    expect(batch?.text).toContain('Use by');
    const lost = shown.filter(({ state }) => state === 'failed');
    expect(lost.length).toBeGreaterThan(0);
    for (const one of lost)
      expect(one).toMatchObject({
        person: { id: 'clara', name: 'Clara' },
        surface: 'phone',
        error: 'the phone is switched off',
      });
    expect(summary.undelivered).toHaveLength(lost.length);
    const bento = shown.filter(({ person, surface }) => person?.id === 'bento' && surface === 'phone');
    expect(bento[0]?.text).toContain('surgical emergency');
  });
});

function sha256(words: string): string {
  return createHash('sha256').update(words, 'utf8').digest('hex');
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  const keys = Object.entries(value).sort(([x], [y]) => (x < y ? -1 : 1));
  return Object.fromEntries(keys.map(([key, item]) => [key, sorted(item)]));
}
