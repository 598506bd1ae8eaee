import { html } from 'hono/html';
import { lateness, lateText } from './bells-section.ts';
import { clock, offsetOf, type Page } from './context.ts';
import { alarm, type Cell, facts, type Html, section } from './markup.ts';

/** What is on which page of which shift: the head of the first page. */
export function headSection(page: Page): Html {
  const { record, summary, texts } = page;
  const made = clock(page, record.madeAt);
  const zone = { zone: summary.timeZone, offset: offsetOf(summary.day.startsAt) };
  const closed = summary.closed
    ? html`<p>${texts.say('record.closed')} ${clock(page, summary.closed.at)}${summary.closed.by ? `, ${summary.closed.by.name}` : ''}. ${texts.say('paper.page.generated', { time: made, lines: record.seal.lines })}.</p>`
    : html`<p class="notice">${alarm(texts.say('paper.page.open-shift', { time: made }))}</p>`;
  return html`<header><h1>${texts.say('record.title', { date: summary.date })}</h1>
<p class="site">${summary.site.name} · ${texts.say('paper.page.revision', { revision: revisionOf(page) })}</p>
${closed}
<p>${texts.say('paper.page.clock', zone)}</p></header>
`;
}

/** "Shift record 2026-03-09 · North Jetty · Briefing revision 2": also the title and the head of each printed page. */
export function titleOf(page: Page): string {
  const { summary, texts } = page;
  const revision = texts.say('paper.page.revision', { revision: revisionOf(page) });
  return [texts.say('record.title', { date: summary.date }), summary.site.name, revision].join(' · ');
}

function revisionOf({ shift }: Page): number {
  return shift.briefing.revision;
}

/** The figures of the day; what somebody has to look at is marked. */
export function glanceSection(page: Page): Html {
  const { summary, texts } = page;
  const crew = summary.people.filter(({ onShift }) => onShift);
  const signed = crew.filter(({ unsigned }) => unsigned.length === 0).length;
  const back = summary.batches.filter(({ withdrawn }) => withdrawn !== null).length;
  const counted = summary.batches.length - back;
  const begun = summary.flushes.filter(({ abandoned }) => abandoned === null).length;
  const finished = summary.flushes.filter(({ finishedAt }) => finishedAt !== null).length;
  const leftOut = summary.flushes
    .flatMap(({ steps }) => steps)
    .filter(({ outcome }) => outcome === 'skipped').length;
  const missed = summary.readings.filter((reading) => reading.missed.length > 0).length;
  const tagged = summary.tags.filter(({ cleared }) => cleared === null).length;
  return section(
    'glance',
    texts.say('paper.page.glance'),
    facts([
      [
        texts.say('record.signed'),
        marked(texts.say('sign.count', { signed, all: crew.length }), signed < crew.length),
      ],
      [texts.say('paper.concerns.title'), String(summary.concerns.length + summary.stops.length)],
      [
        texts.say('record.readings'),
        marked(texts.say('paper.glance.readings', { count: summary.readings.length, missed }), missed > 0),
      ],
      [
        texts.say('record.batches'),
        back === 0 ? String(counted) : texts.say('paper.paint.count', { count: counted, back }),
      ],
      [texts.say('record.bells'), marked(lateText(page), lateness(summary).late > 0)],
      [
        texts.say('record.flushes'),
        marked(
          texts.say('paper.glance.flushes', { finished, begun, leftOut }),
          leftOut > 0 || finished < begun,
        ),
      ],
      [texts.say('record.defects'), marked(String(tagged), tagged > 0)],
      [texts.say('paper.close.title'), marked(String(summary.open.length), summary.open.length > 0)],
      [
        texts.say('paper.undelivered.title'),
        marked(String(summary.undelivered.length), summary.undelivered.length > 0),
      ],
    ]),
  );
}

function marked(text: string, bad: boolean): Cell {
  return bad ? alarm(text) : text;
}
