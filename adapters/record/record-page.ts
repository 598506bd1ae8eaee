import { html, raw } from 'hono/html';
import { bellsSection } from './page/bells-section.ts';
import { briefingSection } from './page/briefing-section.ts';
import { closeSection, signaturesSection, undeliveredSection } from './page/close-section.ts';
import { concernsSection } from './page/concerns-section.ts';
import { conditionsSection } from './page/conditions-section.ts';
import type { Page } from './page/context.ts';
import { daySection } from './page/day-section.ts';
import { flushSection } from './page/flush-section.ts';
import { handlingSection } from './page/handling-section.ts';
import { glanceSection, headSection, titleOf } from './page/head-section.ts';
import { journalSection, sealSection } from './page/journal-section.ts';
import type { Html } from './page/markup.ts';
import { paintSection } from './page/paint-section.ts';
import { peopleSection } from './page/people-section.ts';
import { rigsSection } from './page/rigs-section.ts';
import { pageStyle, style } from './page/style.ts';
import { type MadeRecord, makeRecord } from './record-document.ts';
import type { RecordInput } from './record-input.ts';

/** The page from top to bottom: the order of the day, then what is left and the journal itself. */
const sections: readonly ((page: Page) => Html)[] = [
  headSection,
  glanceSection,
  daySection,
  briefingSection,
  peopleSection,
  concernsSection,
  rigsSection,
  conditionsSection,
  paintSection,
  handlingSection,
  bellsSection,
  flushSection,
  closeSection,
  undeliveredSection,
  journalSection,
];

/** On one sheet: what is signed on paper is the seal that stands above the signatures. */
const ending: readonly ((page: Page) => Html)[] = [sealSection, signaturesSection];

/** Holds even when the file is opened from a disk: nothing is fetched and nothing runs. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/**
 * The record as a page that stands alone: its style is inside, it has no script and needs no other file. Made to be
 * printed on A4 or Letter and signed.
 * @throws Error when the journal is empty or cannot be replayed.
 */
export function recordPage(input: RecordInput): string {
  return pageText(makeRecord(input), input);
}

export function pageText(
  { record, walk }: MadeRecord,
  { textsFor, madeAt }: Pick<RecordInput, 'textsFor' | 'madeAt'>,
): string {
  const shift = walk.end;
  const texts = textsFor(shift.day.site.language);
  const page: Page = {
    record,
    summary: record.summary,
    walk,
    shift,
    texts,
    view: { shift, texts, now: madeAt },
  };
  const title = titleOf(page);
  // The style is ours but for the title in it, of which pageStyle escapes every character.
  const css = raw(style + pageStyle(title, texts.say('paper.page.page')));
  const text = html`<!doctype html>
<html lang="${texts.language}" dir="${texts.direction}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="referrer" content="no-referrer">
<title>${title}</title>
<style>${css}</style>
</head>
<body>
<main>
${sections.map((section) => section(page))}
</main>
<div class="keep">
${ending.map((section) => section(page))}
<footer>${texts.say('paper.page.decide')}</footer>
</div>
</body>
</html>
`;
  return String(text);
}
