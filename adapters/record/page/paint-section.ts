import { html } from 'hono/html';
import type { BatchSummary, ClockSummary } from '../summary/batches.ts';
import { clock, minutesBetween, type Page } from './context.ts';
import {
  alarm,
  type Cell,
  type Html,
  name,
  named,
  type Row,
  section,
  table,
  tight,
  under,
} from './markup.ts';

/** Every batch, and each stay of it in a pot or a line with its last clock and when it was out. */
export function paintSection(page: Page): Html {
  const { texts } = page;
  return section(
    'batches',
    texts.say('paper.paint.title'),
    batchTable(page),
    html`<h3>${texts.say('paper.paint.clocks')}</h3>${clockTable(page)}`,
  );
}

function batchTable(page: Page): Html {
  const { summary, texts } = page;
  const heads = [
    named(texts.say('paper.paint.batch')),
    tight(texts.say('paper.paint.mixed')),
    named(texts.say('paper.journal.who')),
    named(texts.say('form.post-day.coating')),
    tight(texts.say('paper.paint.amounts')),
    tight(texts.say('paper.paint.temperature')),
    texts.say('paper.paint.remarks'),
  ];
  const rows = summary.batches.map((batch): Row => {
    const late = minutesBetween(batch.mixedAt, batch.loggedAt) > 0;
    return {
      tone: batch.underHolds.length > 0 ? 'alarm' : 'plain',
      cells: [
        html`<b>${batch.id}</b>${under(batch.rig.name)}`,
        html`${clock(page, batch.mixedAt)}${late ? under(texts.say('paper.paint.logged-late', { time: clock(page, batch.loggedAt) })) : ''}`,
        name(batch.by.name),
        batch.coating.name,
        texts.say('paper.paint.amounts-value', { a: batch.aL, b: batch.bL, thinner: batch.thinnerL }),
        texts.say('reading.degrees', { c: batch.paintC }),
        remarks(page, batch),
      ],
    };
  });
  return table(heads, rows, texts.say('paper.page.none'));
}

function remarks(page: Page, batch: BatchSummary): readonly (string | Html)[] {
  const { texts } = page;
  const holds = batch.underHolds.map((kind) => texts.say(`word.hold.${kind}`)).join(', ');
  const back = batch.withdrawn;
  return [
    ...(back
      ? [
          alarm(
            texts.say('paper.paint.taken-back', {
              time: clock(page, back.at),
              person: back.by.name,
              reason: back.text,
            }),
          ),
        ]
      : []),
    ...(batch.standUntil
      ? [under(texts.say('paper.paint.stand', { time: clock(page, batch.standUntil) }))]
      : []),
    ...(batch.governedBy ? [under(texts.say('paper.paint.on-top', { batch: batch.governedBy }))] : []),
    ...(holds ? [alarm(texts.say('paper.paint.under-holds', { holds }))] : []),
  ];
}

function clockTable(page: Page): Html {
  const { summary, texts } = page;
  const heads = [
    tight(texts.say('paper.paint.batch')),
    named(texts.say('paper.paint.where')),
    tight(texts.say('batch.use-by')),
    tight(texts.say('batch.start-flush-by')),
    tight(texts.say('batch.dead-at')),
    tight(texts.say('paper.paint.out')),
    texts.say('paper.paint.spare'),
  ];
  const rows = summary.batches.flatMap((batch) =>
    together(batch.clocks).map((stays) => clockRow(page, batch, stays)),
  );
  return table(heads, rows, texts.say('paper.page.none'));
}

/** Pot and line are one row as long as they say the same. */
function together(stays: readonly ClockSummary[]): readonly (readonly ClockSummary[])[] {
  const rows: ClockSummary[][] = [];
  for (const stay of stays) {
    const same = rows.find(([first]) => first && first.where !== stay.where && saysTheSame(first, stay));
    if (same) same.push(stay);
    else rows.push([stay]);
  }
  return rows;
}

function saysTheSame(one: ClockSummary, other: ClockSummary): boolean {
  return one.deadAt === other.deadAt && one.useBy === other.useBy && one.goneAt === other.goneAt;
}

function clockRow(page: Page, batch: BatchSummary, stays: readonly ClockSummary[]): Row {
  const { texts } = page;
  const [stay] = stays;
  if (!stay) return { cells: [] };
  const out = outcome(page, stay);
  const time = (moment: string | null) => (moment === null ? '–' : clock(page, moment));
  const places = { pot: texts.say('word.where.pot'), line: texts.say('word.where.line') };
  const where = stays.length > 1 ? texts.say('paper.paint.pot-and-line', places) : places[stay.where];
  return {
    tone: out.bad ? 'alarm' : 'plain',
    cells: [
      html`<b>${batch.id}</b>`,
      [where, under(batch.rig.name)],
      time(stay.useBy),
      time(stay.startFlushBy),
      time(stay.deadAt),
      out.when,
      out.spare,
    ],
  };
}

function outcome(
  page: Page,
  stay: ClockSummary,
): { readonly bad: boolean; readonly when: Cell; readonly spare: Cell } {
  const { texts } = page;
  const short = stay.tooShort ? `${texts.say('paper.paint.too-short')}. ` : '';
  if (stay.goneAt === null)
    return { bad: true, when: alarm(texts.say('paper.paint.still-in')), spare: short };
  const when = [
    clock(page, stay.goneAt),
    under(stay.goneBy === null ? '' : texts.say(`paper.paint.gone.${stay.goneBy}`)),
  ];
  if (stay.goneBy === 'taken-back') return { bad: false, when, spare: '' };
  if (stay.deadAt === null) return { bad: false, when, spare: texts.say('paper.paint.no-clock') };
  const spare = minutesBetween(stay.goneAt, stay.deadAt);
  if (spare < 0)
    return {
      bad: true,
      when,
      spare: alarm(`${short}${texts.say('paper.paint.after-dead', { minutes: -spare })}`),
    };
  return {
    bad: stay.tooShort,
    when,
    spare: `${short}${texts.say('paper.paint.before-dead', { minutes: spare })}`,
  };
}
