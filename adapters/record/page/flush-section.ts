import { html } from 'hono/html';
import { stepName } from '../../../src/views/flush.ts';
import type { FlushSummary, StepSummary } from '../summary/flushes.ts';
import { clock, type Page } from './context.ts';
import {
  alarm,
  type Cell,
  type Html,
  named,
  type Row,
  section,
  table,
  tight,
  under,
  wide,
} from './markup.ts';

/** Each flush with all its steps in their order; what was left out stands out, with its reason. */
export function flushSection(page: Page): Html {
  const { texts, summary } = page;
  const { flushes } = summary;
  const parts = flushes.map((flush) => oneFlush(page, flush));
  const none = html`<p class="empty">${texts.say('paper.page.none')}</p>`;
  return section('flushes', texts.say('paper.flush.title'), ...(parts.length > 0 ? parts : [none]));
}

function oneFlush(page: Page, flush: FlushSummary): Html {
  const { texts } = page;
  const skipped = flush.steps.filter(({ outcome }) => outcome === 'skipped').length;
  const line = [
    texts.say('paper.flush.begun', { time: clock(page, flush.startedAt), person: flush.by.name }),
    ...(flush.finishedAt ? [texts.say('paper.flush.finished', { time: clock(page, flush.finishedAt) })] : []),
    ...(flush.coating ? [flush.coating.name] : []),
  ];
  const loud = [
    ...(flush.abandoned
      ? [
          alarm(
            texts.say('paper.flush.abandoned', {
              time: clock(page, flush.abandoned.at),
              person: flush.abandoned.by.name,
              reason: flush.abandoned.text,
            }),
          ),
        ]
      : flush.finishedAt
        ? []
        : [alarm(texts.say('paper.flush.not-finished'))]),
    ...(skipped > 0 ? [alarm(texts.say('paper.flush.left-out-count', { count: skipped }))] : []),
  ].map((text) => html` · ${text}`);
  const heads = [
    tight(texts.say('paper.flush.number')),
    wide(texts.say('paper.flush.step')),
    tight(texts.say('paper.journal.time')),
    named(texts.say('paper.journal.who')),
    tight(texts.say('form.confirm-step.litres')),
    texts.say('paper.flush.outcome'),
  ];
  // What was given up has no steps that nobody did.
  const due = flush.steps.filter(({ outcome }) => !flush.abandoned || outcome !== 'not-answered');
  const rows = due.map((step, index) => stepRow(page, flush.rig.id, step, index + 1));
  return html`<h3>${texts.say('flush.title', { rig: flush.rig.name })}</h3><p class="lead">${line.join(' · ')}${loud}</p>${table(heads, rows, texts.say('paper.page.none'), 'steps')}`;
}

function stepRow(page: Page, rig: string, step: StepSummary, place: number): Row {
  const { texts } = page;
  return {
    tone: step.outcome === 'done' ? 'plain' : 'alarm',
    cells: [
      String(place),
      stepName(page.view, rig, step.step),
      step.at ? clock(page, step.at) : '',
      step.by?.name ?? '',
      step.litres === null ? '' : texts.say('paper.event.litres', { litres: step.litres }),
      outcome(page, step),
    ],
  };
}

function outcome({ texts }: Page, { outcome, text, tooSoon }: StepSummary): Cell {
  switch (outcome) {
    case 'done': {
      const done = text ? `${texts.say('paper.flush.done')}: ${text}` : texts.say('paper.flush.done');
      return tooSoon ? [done, under(alarm(texts.say('flush.too-soon', tooSoon)))] : done;
    }
    case 'skipped':
      return alarm(texts.say('paper.flush.left-out', { reason: text }));
    case 'not-answered':
      return alarm(texts.say('paper.flush.not-answered'));
  }
}
