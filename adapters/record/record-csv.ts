import { DateTime } from 'luxon';
import { nameOf } from '../../src/flow/decision.ts';
import { rigName } from '../../src/flow/rig-update.ts';
import type { EventBody } from '../../src/model/event.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { actorName } from '../../src/views/stop.ts';
import { csvCell } from './csv-cell.ts';
import { eventText } from './event-text.ts';
import type { RecordInput } from './record-input.ts';
import { secondsBetween, stamp } from './stamp.ts';
import { type Told, walkJournal } from './walk.ts';

export const csvColumns = [
  'seq',
  'time_site',
  'time_utc',
  'who',
  'surface',
  'what',
  'rig',
  'person',
  'text',
  'late_seconds',
  'hash',
] as const;

/**
 * The journal as CSV (RFC 4180, with a header): one row a line. For spreadsheets; the JSON file is the record. Words
 * that a spreadsheet would take for a formula are disarmed, see `csvCell`. Figures in the words are metric on every site:
 * a data file does not change with how a site reads its figures.
 * @throws Error when the journal is empty or cannot be replayed.
 */
export function recordCsv({ shift, journal, textsFor }: RecordInput): string {
  const walk = walkJournal(
    shift.id,
    journal.map(({ event }) => event),
  );
  const texts = textsFor(walk.end.day.site.language, 'metric');
  const rows = walk.lines.map((told, index) => cells(told, walk.zone, texts, journal[index]?.hash ?? ''));
  return [csvColumns, ...rows].map((row) => `${row.map(csvCell).join(',')}\r\n`).join('');
}

function cells(told: Told, zone: string, texts: Texts, hash: string): readonly (string | number | null)[] {
  const { line, at, by, body, after } = told;
  const rig = rigOf(body);
  const person = personOf(body);
  return [
    line,
    stamp(at, zone),
    DateTime.fromMillis(at, { zone: 'utc' }).toISO(),
    by.kind === 'system' ? texts.say('paper.event.potbell') : actorName({ shift: after, texts, now: at }, by),
    by.kind === 'system' ? by.part : by.surface,
    body.type,
    rig === null ? '' : rigName(after, rig),
    person === null ? '' : personName(texts, after, person),
    eventText(told, texts),
    body.type === 'bell-rang' ? secondsBetween(body.scheduledFor, at) : null,
    hash,
  ];
}

function rigOf(body: EventBody): string | null {
  if (body.type === 'batch-mixed') return body.batch.rig;
  return 'rig' in body ? body.rig : null;
}

/** Whom the line is about, which need not be who pressed. */
function personOf(body: EventBody): string | null {
  if (body.type === 'person-arrived') return body.person.id;
  if (body.type === 'message-undelivered') return body.to;
  if ('person' in body) return body.person;
  return 'by' in body ? body.by : null;
}

function personName(texts: Texts, shift: Shift, id: string): string {
  return id === 'crew' ? texts.say('paper.undelivered.crew') : nameOf(shift, id);
}
