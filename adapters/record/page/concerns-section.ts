import type { Answer, ConcernSummary } from '../summary/concerns.ts';
import { clock, type Page, whoName } from './context.ts';
import { alarm, type Html, named, type Row, section, table, tight, under } from './markup.ts';

/** Concerns and stop-work calls, in the order they were raised, each with how it was put right. */
export function concernsSection(page: Page): Html {
  const { summary, texts } = page;
  const heads = [
    tight(texts.say('paper.concerns.kind')),
    named(texts.say('paper.concerns.raised')),
    texts.say('paper.concerns.words'),
    texts.say('paper.concerns.answer'),
  ];
  const concerns = summary.concerns.map((one) => ({
    line: one.line,
    row: row(page, texts.say('paper.concerns.concern'), one, one.by.name, one.resolved),
  }));
  const stops = summary.stops.map((one) => ({
    line: one.line,
    row: row(page, texts.say('paper.concerns.stop'), one, whoName(page, one.by), one.cleared),
  }));
  const rows = [...concerns, ...stops].sort((x, y) => x.line - y.line).map((one) => one.row);
  return section(
    'concerns',
    texts.say('paper.concerns.title'),
    table(heads, rows, texts.say('paper.page.none')),
  );
}

function row(page: Page, kind: string, said: Said, by: string, answer: Answer | null): Row {
  const { texts } = page;
  const raised = [
    `${clock(page, said.at)} ${by}`,
    ...(said.carriedIn ? [under(texts.say('paper.concerns.carried-in'))] : []),
  ];
  if (!answer)
    return { tone: 'alarm', cells: [kind, raised, said.text, alarm(texts.say('paper.concerns.open'))] };
  return { cells: [kind, raised, said.text, `${clock(page, answer.at)} ${answer.by.name}: ${answer.text}`] };
}

type Said = Pick<ConcernSummary, 'at' | 'text' | 'carriedIn'>;
