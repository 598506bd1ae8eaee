import { html } from 'hono/html';
import { tagWords } from '../../../src/views/holds.ts';
import { clock, type Page, whoName } from './context.ts';
import { alarm, type Html, lines, named, type Row, section, table, tight, wide } from './markup.ts';

export function rigsSection(page: Page): Html {
  const { texts } = page;
  return section(
    'rigs',
    texts.say('paper.rigs.title'),
    html`<h3>${texts.say('paper.rigs.checks')}</h3>${checks(page)}<h3>${texts.say('paper.rigs.tags')}</h3>${tags(page)}`,
  );
}

function checks(page: Page): Html {
  const { summary, texts } = page;
  const heads = [
    tight(texts.say('paper.journal.time')),
    wide(texts.say('form.post-day.rig')),
    named(texts.say('paper.journal.who')),
    texts.say('paper.rigs.result'),
  ];
  const rows = summary.rigChecks.map(({ at, rig, by, results, note }): Row => {
    const named = (wanted: string) =>
      results.filter(({ result }) => result === wanted).map(({ check }) => texts.say(`check.${check}`));
    const defects = named('defect');
    const open = named('not-answered');
    const words = [
      ...(defects.length + open.length === 0
        ? [texts.say('paper.rigs.all-ok', { count: results.length })]
        : []),
      ...(defects.length > 0 ? [alarm(texts.say('paper.rigs.defect', { checks: defects.join('; ') }))] : []),
      ...(open.length > 0 ? [`${texts.say('paper.flush.not-answered')}: ${open.join('; ')}`] : []),
    ];
    return {
      tone: defects.length > 0 ? 'alarm' : 'plain',
      cells: [clock(page, at), rig.name, by.name, lines([...words, ...(note ? [note] : [])])],
    };
  });
  return table(heads, rows, texts.say('paper.page.none'));
}

function tags(page: Page): Html {
  const { summary, texts, view } = page;
  const heads = [
    tight(texts.say('paper.rigs.since')),
    wide(texts.say('form.post-day.rig')),
    texts.say('paper.rigs.why'),
    texts.say('paper.rigs.cleared'),
  ];
  const rows = summary.tags.map(({ rig, since, reports, cleared }): Row => {
    const why = reports.map(({ at, by, cause, text }) => {
      const words = cause === 'not-flushed' ? texts.say('tag.not-flushed') : tagWords(view, text);
      return `${clock(page, at)} ${by ? whoName(page, by) : texts.say('paper.rigs.carried-in')}: ${words}`;
    });
    const done = cleared
      ? `${clock(page, cleared.at)} ${cleared.by.name}: ${cleared.text}`
      : alarm(texts.say('paper.rigs.still-tagged'));
    return { tone: cleared ? 'plain' : 'alarm', cells: [clock(page, since), rig.name, lines(why), done] };
  });
  return table(heads, rows, texts.say('paper.page.none'));
}
