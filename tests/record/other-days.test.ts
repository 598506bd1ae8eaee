import { describe, expect, test } from 'vitest';
import { readRecord } from '../../adapters/record/read-record.ts';
import type { RecordInput } from '../../adapters/record/record-input.ts';
import { recordJson } from '../../adapters/record/record-json.ts';
import { recordPage } from '../../adapters/record/record-page.ts';
import { verifyRecord } from '../../adapters/record/verify-record.ts';
import type { EventType } from '../../src/model/event.ts';
import { crewDay, demoPack } from './crew-day.ts';
import { leftOn, wholeDay } from './whole-day.ts';

/** The record of a shift, after checking that its file verifies. */
function recordOf(input: RecordInput) {
  const text = recordJson(input);
  expect(verifyRecord(text).problems).toEqual([]);
  const read = readRecord(text);
  if (!read.ok) throw new Error(read.problem);
  return read.record;
}

function words(html: string): string {
  return html
    .replace(/<style>.*?<\/style>/s, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');
}

const { pack, day } = demoPack();

test('every kind of event there is happens in the whole day', async () => {
  const { journal } = await (await wholeDay()).record();
  const every = {
    'day-posted': true,
    'day-changed': true,
    'carried-over': true,
    'briefing-issued': true,
    'person-arrived': true,
    'question-answered': true,
    signed: true,
    'concern-raised': true,
    'concern-resolved': true,
    'rig-checked': true,
    'rig-tagged': true,
    'tag-cleared': true,
    'reading-taken': true,
    'reading-voided': true,
    'mix-temperature-mended': true,
    'batch-mixed': true,
    'batch-voided': true,
    'temperature-noted': true,
    paused: true,
    resumed: true,
    'pot-emptied': true,
    'line-renewed': true,
    'fan-tested': true,
    'flush-started': true,
    'step-confirmed': true,
    'step-skipped': true,
    'flush-finished': true,
    'flush-abandoned': true,
    'work-stopped': true,
    'stop-cleared': true,
    'bell-rang': true,
    'bell-answered': true,
    'message-undelivered': true,
    'shift-closed': true,
  } satisfies Record<EventType, true>;
  expect(new Set(journal.map(({ event }) => event.body.type))).toEqual(new Set(Object.keys(every)));
});

test('a record can be made at any moment of the shift, and verifies', async () => {
  const input = await (await wholeDay()).record();
  const closes = input.journal.findIndex(({ event }) => event.body.type === 'shift-closed') + 1;
  for (let lines = 1; lines < input.journal.length; lines += 9) {
    const journal = input.journal.slice(0, lines);
    // The messages may have been read a moment later than the journal.
    const made = { ...input, journal, madeAt: journal.at(-1)?.event.at ?? 0 };
    const { summary, shown } = recordOf(made);
    expect(shown.length < input.deliveries.length).toBe(true);
    const open = lines < closes;
    expect(summary.status).toBe(open ? 'open' : 'closed');
    expect(words(recordPage(made)).includes('THE SHIFT IS STILL OPEN')).toBe(open);
  }
}, 30_000);

describe('a shift left as it is', () => {
  test('shows what nobody did: signed, resolved, flushed, answered', async () => {
    const crew = crewDay(pack, day.date);
    await crew.until('06:50');
    await crew.does('ines', { type: 'post-day', entry: day });
    await crew.until('07:05');
    await crew.signs('duarte');
    await crew.does('marta', { type: 'raise-concern', text: 'No light under the deck.' });
    await crew.until('08:00', { down: true });
    await crew.does('bento', { ...batch, rig: 'rig-1' });
    await crew.does('bento', { ...batch, rig: 'rig-2' });
    await crew.until('11:00', { down: true });
    await crew.does('duarte', { type: 'start-flush', rig: 'rig-1' });
    await crew.does('duarte', {
      type: 'confirm-step',
      rig: 'rig-1',
      flush: 'rig-1-flush-1',
      step: 'lock-trigger',
    });
    const input = await crew.record();
    const { summary } = recordOf(input);
    expect(summary.people.find(({ person }) => person.id === 'livia')?.unsigned).toContain('injection');
    expect(summary.people.find(({ person }) => person.id === 'duarte')?.unsigned).toEqual([]);
    expect(summary.batches[0]?.underHolds).toEqual(
      expect.arrayContaining(['unsigned', 'concern', 'no-reading', 'rig-unchecked']),
    );
    expect(summary.batches[0]?.clocks[0]).toMatchObject({ goneAt: null, goneBy: null });
    expect(summary.flushes[0]).toMatchObject({ finishedAt: null });
    expect(summary.carriesOver.unflushed.map(({ rig }) => rig.id)).toEqual(['rig-1', 'rig-2']);
    const page = words(recordPage(input));
    for (const said of [
      /Livia mixer 1 NOT SIGNED no question/,
      /Concern 07:05 Marta No light under the deck\. STILL OPEN/,
      /MIXED UNDER A HOLD: .*sign-offs missing/,
      /rig-1-1 pot and line .* STILL IN/,
      /NOT FINISHED/,
      /2 Back off the regulator, shut the air NOT DONE/,
      /Rig 2 \(small pump\): High-build epoxy intermediate \(demo\), mixed 08:00, never confirmed flushed/,
    ])
      expect(page).toMatch(said);
  });

  test('shows paint that was out too late', async () => {
    const crew = crewDay(pack, day.date);
    await crew.until('07:00');
    await crew.does('ines', { type: 'post-day', entry: day });
    await crew.does('bento', { ...batch, rig: 'rig-1' });
    await crew.until('11:00', { down: true });
    await crew.does('bento', { type: 'pot-empty', rig: 'rig-1', wastedL: 12 });
    expect(words(recordPage(await crew.record()))).toMatch(/11:00 pot empty \d+ MIN AFTER DEAD/);
  });

  test('that a later day took over says so instead of a name', async () => {
    const crew = crewDay(pack, day.date);
    await crew.until('07:00');
    await crew.does('ines', { type: 'post-day', entry: day });
    await crew.until('17:00', { down: true });
    await crew.as(
      { kind: 'system', part: 'bells' },
      { type: 'hand-over', to: 'gannet-footbridge:2026-06-09' },
    );
    const input = await crew.record();
    expect(recordOf(input).summary.closed).toMatchObject({
      by: null,
      handedTo: 'gannet-footbridge:2026-06-09',
      reason: '',
    });
    expect(words(recordPage(input))).toContain(
      'CLOSED BY NOBODY. At 17:00 the shift gannet-footbridge:2026-06-09 took over',
    );
  });
});

test('a rig that the last shift left unflushed hangs tagged from the moment the day is posted', async () => {
  const mixedAt = Date.UTC(2026, 5, 5, 14);
  const before = leftOn('2026-06-05', { unflushed: [{ rig: 'rig-2', coating: 'pu-finish', mixedAt }] });
  const crew = crewDay(pack, day.date, undefined, before);
  await crew.until('06:00');
  await crew.does('ines', { type: 'post-day', entry: day });
  await crew.until('07:10');
  await crew.does('rui', { type: 'report-defect', rig: 'rig-2', part: 'hose', text: 'stiff at the gun' });
  const { summary } = recordOf(await crew.record());
  expect(summary.tags).toMatchObject([
    {
      rig: { id: 'rig-2' },
      carriedIn: true,
      reports: [
        { cause: 'not-flushed', by: null },
        { cause: 'report', by: { person: { id: 'rui' } }, text: 'hose: stiff at the gun' },
      ],
      cleared: null,
    },
  ]);
  expect(words(recordPage(await crew.record()))).toMatch(
    /an earlier shift: Its line was not flushed last shift/,
  );
});

test('a stop-work and a concern that the last shift left open are in the record until they are dealt with', async () => {
  const before = leftOn('2026-06-05', {
    stop: { at: Date.UTC(2026, 5, 5, 15), by: { kind: 'unknown', surface: 'board' }, text: 'Ladder broke' },
    concerns: [{ by: 'Marta', person: 'marta', text: 'No light under the deck.' }],
  });
  const crew = crewDay(pack, day.date, undefined, before);
  await crew.until('06:00');
  await crew.does('ines', { type: 'post-day', entry: day });
  await crew.until('07:04', { down: true });
  await crew.ring();
  await crew.does('ines', { type: 'clear-stop-work', text: 'New ladder.' });
  const input = await crew.record();
  const { summary } = recordOf(input);
  expect(summary.stops).toMatchObject([
    {
      at: '2026-06-05T16:00:00.000+01:00',
      carriedIn: true,
      by: { kind: 'unknown' },
      cleared: { text: 'New ladder.' },
    },
  ]);
  expect(summary.concerns).toMatchObject([{ by: { id: 'marta' }, carriedIn: true, resolved: null }]);
  expect(summary.carriesOver).toMatchObject({
    stop: null,
    concerns: [{ by: { id: 'marta', name: 'Marta' } }],
  });
  const page = words(recordPage(input));
  expect(page).toMatch(/From the shift of 2026-06-05 STOP WORK stands since 2026-06-05 16:00\. Ladder broke/);
  expect(page).toMatch(/Marta left open by an earlier shift No light under the deck\. STILL OPEN/);
});

test('a day changed before its briefing went out is still the first revision: nobody had heard another', async () => {
  const crew = crewDay(pack, day.date);
  await crew.until('06:00');
  await crew.does('ines', { type: 'post-day', entry: day });
  await crew.until('06:30');
  await crew.does('ines', { type: 'post-day', entry: { ...day, surroundings: 'confined' } });
  await crew.until('07:01');
  const input = await crew.record();
  expect(
    recordOf(input).summary.briefings.map(({ revision, issuedAt }) => [revision, issuedAt !== null]),
  ).toEqual([[1, true]]);
  expect(recordOf(input).summary.briefings[0]?.cautions.map(({ id }) => id)).toContain('confined-space');
});

test('paint that only seemed replaced, by a batch taken back, has one stay in the pot and no other', async () => {
  const crew = crewDay(pack, day.date);
  await crew.until('07:00');
  await crew.does('ines', { type: 'post-day', entry: day });
  await crew.does('bento', { ...batch, rig: 'rig-1' });
  await crew.until('07:20', { down: true });
  await crew.does('bento', { ...batch, rig: 'rig-1' });
  await crew.until('07:25', { down: true });
  await crew.does('ines', { type: 'void-batch', rig: 'rig-1', batch: 'rig-1-2', reason: 'Logged twice.' });
  await crew.until('07:40', { down: true });
  await crew.does('bento', { type: 'pot-empty', rig: 'rig-1' });
  const input = await crew.record();
  const [first, second] = recordOf(input).summary.batches;
  const at = (time: string) => expect.stringContaining(`T${time}:00`);
  expect(first?.clocks).toMatchObject([
    { where: 'pot', since: at('07:00'), goneAt: at('07:40'), goneBy: 'pot-emptied' },
    { where: 'line', since: at('07:00'), goneAt: null },
  ]);
  expect(second?.clocks).toMatchObject([
    { where: 'pot', since: at('07:20'), goneAt: at('07:25'), goneBy: 'taken-back' },
  ]);
  expect(second?.withdrawn).toMatchObject({ by: { id: 'ines' }, text: 'Logged twice.' });
  expect(words(recordPage(input))).toMatch(/rig-1-2 pot .* 07:25 taken back/);
});

test('a one-pack has no clock, and its stay in the line is kept all the same', async () => {
  const { potLife: _life, mixRatio: _ratio, kitLitres: _kit, ...sheet } = pack.coatings[1] ?? { id: '' };
  const onePack = {
    ...sheet,
    id: 'epoxy-mid',
    parts: 1,
    induction: [],
  } as unknown as (typeof pack.coatings)[number];
  const coatings = pack.coatings.map((one) => (one.id === 'epoxy-mid' ? onePack : one));
  const crew = crewDay({ ...pack, coatings }, day.date);
  await crew.until('07:00');
  await crew.does('ines', { type: 'post-day', entry: day });
  await crew.until('08:00', { down: true });
  await crew.does('bento', { ...batch, litres: 11, rig: 'rig-1' });
  await crew.until('09:00', { down: true });
  await crew.does('bento', { type: 'pot-empty', rig: 'rig-1' });
  const input = await crew.record();
  const clocks = recordOf(input).summary.batches[0]?.clocks;
  expect(clocks).toMatchObject([
    { where: 'pot', useBy: null, deadAt: null, goneBy: 'pot-emptied' },
    { where: 'line', useBy: null, deadAt: null, goneAt: null },
  ]);
  expect(words(recordPage(input))).toContain('one-pack, no pot life');
});

// Regulation: in 2026 summer time in the European Union ends on 25 October at 01:00 UTC (Directive 2000/84/EC); in
// Lisbon the clock then goes from 02:00 back to 01:00.
test('in the night of the autumn change the two half past ones are told apart', async () => {
  const date = '2026-10-24';
  const night = { ...day, date, start: '22:00', end: '06:00', breaks: [] };
  const crew = crewDay(pack, date);
  await crew.until('21:00');
  await crew.does('ines', { type: 'post-day', entry: night });
  await crew.until('01:30', { on: '2026-10-25', down: true });
  const reading = { type: 'take-reading', airC: 12, rhPct: 60, steelC: 13 } as const;
  await crew.does('bento', reading);
  crew.after(3600);
  await crew.does('bento', reading);
  const input = await crew.record();
  expect(recordOf(input).summary.readings.map(({ at }) => at)).toEqual([
    '2026-10-25T01:30:00.000+01:00',
    '2026-10-25T01:30:00.000+00:00',
  ]);
  const page = words(recordPage(input));
  expect(page).toMatch(/2026-10-25 01:30 Bento .* 2026-10-25 01:30 \(UTC\+00:00\) Bento/);
});

const batch = { type: 'mix-batch', coating: 'epoxy-mid', litres: 20, paintC: 22, pot: 'fresh' } as const;

test('RW4 a coat that waits is in the record with its window, and what it is by', async () => {
  const at = Date.UTC(2026, 5, 5, 9);
  const coat = { area: 'Span 9', coating: 'epoxy-mid', coat: 'intermediate', firstAt: at, at };
  const before = leftOn('2026-06-05', {
    coats: [
      { ...coat, steel: [{ at, c: 20 }] },
      { ...coat, area: 'Span 10', steel: [{ at, c: 50 }] },
    ],
  });
  const crew = crewDay(pack, day.date, undefined, before);
  await crew.until('06:00');
  await crew.does('ines', { type: 'post-day', entry: day });
  const input = await crew.record();
  const { carriedIn } = recordOf(input).summary;
  expect(carriedIn?.coats[0]?.window).toEqual({
    opensAt: '2026-06-05T16:00:00.000+01:00',
    minHours: 6,
    coldestC: 20,
    closesAt: '2026-06-19T10:00:00.000+01:00',
    maxHours: 336,
    heldC: 20,
  });
  expect(carriedIn?.coats[1]?.window).toMatchObject({ maxHours: null, heldC: 50 });
  const page = words(recordPage(input));
  expect(page).toContain('next coat not before 2026-06-05 16:00, not after 2026-06-19 10:00');
  expect(page).toContain('not known from 2026-06-05 11:00 on, 50 °C is hotter than the sheet');
});
