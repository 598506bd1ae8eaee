import { oneDecimal } from '../../../src/views/context.ts';
import { label } from '../labels.ts';
import type { HandlingSummary, TemperatureSummary } from '../summary/handling.ts';
import { clock, type Page, whoName } from './context.ts';
import { type Html, named, section, table, tight } from './markup.ts';

/** Temperatures with what they did to the clock, pauses, empty pots, fresh batches in the line; in order. */
export function handlingSection(page: Page): Html {
  const { summary, texts } = page;
  const heads = [
    tight(label('journal.time')),
    named(texts.say('form.post-day.rig')),
    named(label('journal.who')),
    label('temperature.what'),
    tight(label('temperature.use-by')),
  ];
  const temperatures = summary.temperatures.map((one) => ({
    ...one,
    text: temperature(one),
    useBy: useBy(page, one),
  }));
  const handling = summary.handling.map((one) => ({ ...one, text: handled(one), useBy: '' }));
  const rows = [...temperatures, ...handling]
    .sort((x, y) => x.line - y.line)
    .map((one) => ({
      cells: [clock(page, one.at), one.rig.name, whoName(page, one.by), one.text, one.useBy],
    }));
  return section('temperatures', label('temperature.title'), table(heads, rows, label('page.none')));
}

function temperature({ where, c, basis }: TemperatureSummary): string {
  const value = { c: oneDecimal(c) };
  if (basis === 'felt-warm') return label('temperature.felt-warm', value);
  return where === 'pot' ? label('temperature.pot', value) : label('temperature.hose', value);
}

function useBy(page: Page, { useByBefore, useByAfter }: TemperatureSummary): string {
  if (useByBefore === null || useByAfter === null) return '–';
  const before = clock(page, useByBefore);
  const after = clock(page, useByAfter);
  return before === after ? after : label('temperature.moved', { before, after });
}

function handled({ what, litres, why }: HandlingSummary): string {
  const amount = { litres: oneDecimal(litres ?? 0) };
  switch (what) {
    case 'paused':
      return why ? `${label('handling.paused')}: ${why}` : label('handling.paused');
    case 'resumed':
      return label('handling.resumed');
    case 'pot-emptied':
      return label('handling.pot-emptied', amount);
    case 'line-renewed':
      return label('handling.line-renewed', amount);
  }
}
