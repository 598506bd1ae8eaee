import { html } from 'hono/html';
import { actorName } from '../../../src/views/stop.ts';
import { verifyChain } from '../../host/chain.ts';
import { eventText } from '../event-text.ts';
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
      told.by.kind === 'system'
        ? texts.say('paper.event.potbell')
        : actorName({ ...view, shift: told.after }, told.by),
      eventText(told, texts),
    ],
  }));
  const heads = [
    tight(texts.say('paper.journal.line')),
    tight(texts.say('paper.journal.time')),
    named(texts.say('paper.journal.who')),
    texts.say('paper.journal.what'),
  ];
  return section(
    'journal',
    texts.say('paper.journal.title'),
    table(heads, rows, texts.say('paper.page.none'), 'journal'),
  );
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
    texts.say('paper.seal.title'),
    check.ok
      ? html`<p>${texts.say('paper.seal.holds')}</p>`
      : html`<p class="notice">${alarm(texts.say('paper.seal.broken', { line: check.line, why: check.why }))}</p>`,
    html`<p>${texts.say('record.head')}: ${hash(seal.head)}</p><p>${texts.say('paper.seal.file')}: ${hash(seal.file)}</p>`,
    html`<p>${texts.say('paper.seal.lines', { count: seal.lines })}. ${texts.say('paper.seal.shown', { sent, other: shown.length - sent })}.</p>`,
  );
}
