import type { Texts } from '../../../src/texts/texts.ts';
import type { HandlingSummary, TemperatureSummary } from '../summary/handling.ts';
import { clock, type Page, whoName } from './context.ts';
import { type Html, named, section, table, tight } from './markup.ts';

/** Temperatures with what they did to the clock, pauses, empty pots, fresh batches in the line; in order. */
export function handlingSection(page: Page): Html {
  const { summary, texts } = page;
  const heads = [
    tight(texts.say('paper.journal.time')),
    named(texts.say('form.post-day.rig')),
    named(texts.say('paper.journal.who')),
    texts.say('paper.temperature.what'),
    tight(texts.say('paper.temperature.use-by')),
  ];
  const temperatures = summary.temperatures.map((one) => ({
    ...one,
    text: temperature(texts, one),
    useBy: useBy(page, one),
  }));
  const handling = summary.handling.map((one) => ({ ...one, text: handled(texts, one), useBy: '' }));
  const rows = [...temperatures, ...handling]
    .sort((x, y) => x.line - y.line)
    .map((one) => ({
      cells: [clock(page, one.at), one.rig.name, whoName(page, one.by), one.text, one.useBy],
    }));
  return section(
    'temperatures',
    texts.say('paper.temperature.title'),
    table(heads, rows, texts.say('paper.page.none')),
  );
}

function temperature(texts: Texts, { where, c, basis }: TemperatureSummary): string {
  const value = { c };
  if (basis === 'felt-warm') return texts.say('paper.temperature.felt-warm', value);
  return where === 'pot'
    ? texts.say('paper.temperature.pot', value)
    : texts.say('paper.temperature.hose', value);
}

function useBy(page: Page, { useByBefore, useByAfter }: TemperatureSummary): string {
  if (useByBefore === null || useByAfter === null) return '–';
  const before = clock(page, useByBefore);
  const after = clock(page, useByAfter);
  return before === after ? after : page.texts.say('paper.temperature.moved', { before, after });
}

function handled(texts: Texts, { what, litres, why }: HandlingSummary): string {
  const amount = { litres: litres ?? 0 };
  switch (what) {
    case 'paused':
      return why ? `${texts.say('paper.handling.paused')}: ${why}` : texts.say('paper.handling.paused');
    case 'resumed':
      return texts.say('paper.handling.resumed');
    case 'pot-emptied':
      return texts.say('paper.handling.pot-emptied', amount);
    case 'line-renewed':
      return texts.say('paper.handling.line-renewed', amount);
  }
}
