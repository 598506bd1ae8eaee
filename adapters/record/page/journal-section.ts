import { html } from 'hono/html';
import { actorName } from '../../../src/views/stop.ts';
import { verifyChain } from '../../host/chain.ts';
import { eventText } from '../event-text.ts';
import { label } from '../labels.ts';
import { stamp } from '../stamp.ts';
import { clock, type Page } from './context.ts';
import { alarm, type Html, named, section, table, tight } from './markup.ts';

/** Every line of the journal in plain words: whatever the parts above leave out stands here. */
export function journalSection(page: Page): Html {
  const { walk, texts, view } = page;
  const rows = walk.lines.map((told) => ({
    cells: [
      String(told.line),
      clock(page, stamp(told.at, walk.zone)),
      told.by.kind === 'system' ? label('event.potbell') : actorName({ ...view, shift: told.after }, told.by),
      eventText(told, texts),
    ],
  }));
  const heads = [
    tight(label('journal.line')),
    tight(label('journal.time')),
    named(label('journal.who')),
    label('journal.what'),
  ];
  return section('journal', label('journal.title'), table(heads, rows, label('page.none'), 'journal'));
}

/** The hash that stands for the whole journal; signed on paper it cannot be made anew with the file. */
export function sealSection(page: Page): Html {
  const { record, texts, summary } = page;
  const { seal, shown } = record;
  const check = verifyChain(summary.shift, record.journal);
  const sent = shown.filter(({ state }) => state === 'sent').length;
  const hash = (text: string) => html`<span class="hash">${text}</span>`;
  return section(
    'seal',
    label('seal.title'),
    check.ok
      ? html`<p>${label('seal.holds')}</p>`
      : html`<p class="notice">${alarm(label('seal.broken', { line: check.line, why: check.why }))}</p>`,
    html`<p>${texts.say('record.head')}: ${hash(seal.head)}</p><p>${label('seal.file')}: ${hash(seal.file)}</p>`,
    html`<p>${label('seal.lines', { count: seal.lines })}. ${label('seal.shown', { sent, other: shown.length - sent })}.</p>`,
  );
}
