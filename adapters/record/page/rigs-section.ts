import { html } from 'hono/html';
import { tagWords } from '../../../src/views/holds.ts';
import { label } from '../labels.ts';
import { clock, type Page, whoName } from './context.ts';
import { alarm, type Html, lines, named, type Row, section, table, tight, wide } from './markup.ts';

export function rigsSection(page: Page): Html {
  return section(
    'rigs',
    label('rigs.title'),
    html`<h3>${label('rigs.checks')}</h3>${checks(page)}<h3>${label('rigs.tags')}</h3>${tags(page)}`,
  );
}

function checks(page: Page): Html {
  const { summary, texts } = page;
  const heads = [
    tight(label('journal.time')),
    wide(texts.say('form.post-day.rig')),
    named(label('journal.who')),
    label('rigs.result'),
  ];
  const rows = summary.rigChecks.map(({ at, rig, by, results, note }): Row => {
    const named = (wanted: string) =>
      results.filter(({ result }) => result === wanted).map(({ check }) => texts.say(`check.${check}`));
    const defects = named('defect');
    const open = named('not-answered');
    const words = [
      ...(defects.length + open.length === 0 ? [label('rigs.all-ok', { count: results.length })] : []),
      ...(defects.length > 0 ? [alarm(label('rigs.defect', { checks: defects.join('; ') }))] : []),
      ...(open.length > 0 ? [`${label('flush.not-answered')}: ${open.join('; ')}`] : []),
    ];
    return {
      tone: defects.length > 0 ? 'alarm' : 'plain',
      cells: [clock(page, at), rig.name, by.name, lines([...words, ...(note ? [note] : [])])],
    };
  });
  return table(heads, rows, label('page.none'));
}

function tags(page: Page): Html {
  const { summary, texts, view } = page;
  const heads = [
    tight(label('rigs.since')),
    wide(texts.say('form.post-day.rig')),
    label('rigs.why'),
    label('rigs.cleared'),
  ];
  const rows = summary.tags.map(({ rig, since, reports, cleared }): Row => {
    const why = reports.map(({ at, by, cause, text }) => {
      const words = cause === 'not-flushed' ? texts.say('tag.not-flushed') : tagWords(view, text);
      return `${clock(page, at)} ${by ? whoName(page, by) : label('rigs.carried-in')}: ${words}`;
    });
    const done = cleared
      ? `${clock(page, cleared.at)} ${cleared.by.name}: ${cleared.text}`
      : alarm(label('rigs.still-tagged'));
    return { tone: cleared ? 'plain' : 'alarm', cells: [clock(page, since), rig.name, lines(why), done] };
  });
  return table(heads, rows, label('page.none'));
}
