import { html } from 'hono/html';
import { changedValue, changeWords } from '../change-words.ts';
import type { CarrySummary } from '../summary/close.ts';
import { carryLines } from './carry.ts';
import { clock, names, type Page, whoName } from './context.ts';
import { facts, type Html, list, named, section, table, tight, under } from './markup.ts';

/** The day as it stood at the end, with its jobs, what the last shift left, and each change. */
export function daySection(page: Page): Html {
  const { summary, texts } = page;
  const { day, carriedIn } = summary;
  const { weather } = day;
  const expected = { air: weather.airC, rh: weather.rhPct };
  const hours = texts.say('brief.hours-value', {
    start: clock(page, day.startsAt),
    end: clock(page, day.endsAt),
  });
  const breaks = day.breaks.map(({ from, to }) => `${clock(page, from)}–${clock(page, to)}`).join(', ');
  return section(
    'day',
    texts.say('paper.day.title'),
    facts([
      [texts.say('brief.hours'), hours],
      [texts.say('brief.breaks'), breaks || texts.say('word.none')],
      [texts.say('brief.place'), texts.say(`word.surroundings.${day.surroundings}`)],
      [
        texts.say('brief.weather'),
        weather.sun ? texts.say('brief.weather-sun', expected) : texts.say('brief.weather-value', expected),
      ],
      [texts.say('paper.day.posted'), `${clock(page, day.postedAt)} ${whoName(page, day.postedBy)}`],
    ]),
    jobsTable(page),
    day.notes ? html`<p><strong>${texts.say('brief.notes')}:</strong> ${day.notes}</p>` : '',
    ...(carriedIn ? [carried(page, carriedIn)] : []),
    ...(day.changes.length > 0 ? [changes(page)] : []),
  );
}

function jobsTable({ summary, texts }: Page): Html {
  const { jobs, pressures } = summary.day;
  const heads = [
    texts.say('form.post-day.area'),
    named(texts.say('form.post-day.coating')),
    tight(texts.say('form.post-day.m2')),
    tight(texts.say('paper.day.film')),
    named(texts.say('form.post-day.rig')),
    named(texts.say('form.post-day.sprayers')),
    named(texts.say('form.post-day.mixers')),
  ];
  const rows = jobs.map((job) => {
    const planned = pressures.find(({ rig }) => rig.id === job.rig.id);
    return {
      cells: [
        job.area,
        [job.coating.name, under(texts.say(`word.coat.${job.coat}`))],
        texts.say('change.m2', { area: job.areaM2 }),
        [
          texts.say('paper.day.film-value', { dft: job.dftUm }),
          under(texts.say('paper.day.wet-film', { wft: job.wftUm })),
        ],
        [
          job.rig.name,
          ...(planned ? [under(texts.say('paper.day.pressure-value', { bar: planned.bar }))] : []),
        ],
        names(job.sprayers),
        names(job.mixers),
      ],
    };
  });
  return table(heads, rows, texts.say('paper.page.none'));
}

function carried(page: Page, carry: CarrySummary): Html {
  const { texts } = page;
  const lines = carryLines(page, carry);
  return html`<h3>${texts.say('paper.day.carried-in', { date: carry.fromDate })}</h3>${lines.length > 0 ? list(lines) : html`<p class="empty">${texts.say('paper.page.none')}</p>`}`;
}

function changes(page: Page): Html {
  const { texts } = page;
  const heads = [
    tight(texts.say('paper.journal.time')),
    named(texts.say('paper.journal.who')),
    texts.say('paper.day.what'),
    texts.say('paper.day.before'),
    texts.say('paper.day.after'),
  ];
  const words = { texts, names: page.shift.day };
  const rows = page.summary.day.changes.flatMap(({ at, by, values }) =>
    values.map(({ what, before, after }, index) => ({
      cells: [
        index === 0 ? clock(page, at) : '',
        index === 0 ? whoName(page, by) : '',
        changeWords(texts, what),
        changedValue(words, what, before),
        changedValue(words, what, after),
      ],
    })),
  );
  return html`<h3>${texts.say('paper.day.changes')}</h3>${table(heads, rows, texts.say('paper.page.none'))}`;
}
