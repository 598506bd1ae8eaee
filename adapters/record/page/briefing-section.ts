import { html } from 'hono/html';
import type { BriefingSummary } from '../summary/briefings.ts';
import { cautionReason, cautionRows, cautionTitle } from '../words.ts';
import { clock, type Page } from './context.ts';
import { type Html, list, named, section, table, tight } from './markup.ts';

/** Each revision: the first with all its cautions, a later one with those that were new or changed. */
export function briefingSection(page: Page): Html {
  return section(
    'briefing',
    page.texts.say('paper.brief.title'),
    ...page.summary.briefings.map((one) => revision(page, one)),
  );
}

function revision(page: Page, briefing: BriefingSummary): Html {
  const { texts } = page;
  const title =
    briefing.issuedAt === null
      ? texts.say('paper.brief.not-issued', {
          revision: briefing.revision,
          time: clock(page, briefing.writtenAt),
        })
      : texts.say('paper.brief.issued', {
          revision: briefing.revision,
          time: clock(page, briefing.issuedAt),
        });
  const shown = briefing.cautions.filter(({ changed }) => changed || briefing.revision === 1);
  const rows = shown.map(({ id, grade, params, each }) => ({
    cells: [
      texts.say(`word.grade.${grade}`),
      cautionTitle(texts, id),
      [cautionReason(texts, id, params), list(cautionRows(texts, id, each))],
    ],
  }));
  const counts = { changed: shown.length, all: briefing.cautions.length };
  return html`<h3>${title}</h3>${briefing.revision > 1 ? html`<p class="lead">${texts.say('paper.brief.changed-only', counts)}</p>` : ''}${table([tight(texts.say('paper.brief.grade')), named(texts.say('paper.brief.caution')), texts.say('paper.brief.why')], rows, texts.say('paper.page.none'), 'cautions')}`;
}
