import { byForm, labelOf } from './by-form.ts';
import { wordsOf } from './fold.ts';
import { example } from './help.ts';
import { figuresOf, type Place, place } from './read-figures.ts';
import { type Typed, type TypedContext, wrong } from './typed.ts';

const form = { id: 'take-reading', about: {} } as const;
const places: readonly Place[] = [
  { field: 'airC', labels: ['air'], measures: 'temperature', needed: true },
  { field: 'rhPct', labels: ['humidity'], measures: 'percent', needed: false },
  // Never without its name: air and steel taken for each other would lift a hold.
  { field: 'steelC', labels: ['steel'], measures: null, needed: true },
  { field: 'wetC', labels: ['wet'], measures: null, needed: false },
  { field: 'wbgtC', labels: ['wbgt'], measures: null, needed: false },
];

/** "reading 20 C 60 % steel 15 C", or with the wet bulb instead of the humidity. */
export function readReading(text: string, context: TypedContext): Typed {
  const { texts, shift } = context;
  if (!shift) return wrong(texts.say('refusal.no-shift'));
  if (wordsOf(text).length === 0) return { kind: 'open', form };
  const labels = places.flatMap((one) => one.labels);
  const scanned = figuresOf('reading', text, labels, context);
  if ('kind' in scanned) return scanned;
  const placed = place('reading', scanned.figures, places, context);
  if (placed.kind !== 'placed') return placed;
  const missing = places.find(({ field, needed }) => needed && placed.values[field] === undefined);
  if (missing) {
    const what = labelOf(form, missing.field, context);
    return wrong(texts.say('chat.missing', { what, example: example('reading', texts) }));
  }
  const humidity = placed.values.rhPct?.replace(/\s*%$/, '');
  const values = { ...placed.values, ...(humidity === undefined ? {} : { rhPct: humidity }) };
  if (humidity === undefined && placed.values.wetC === undefined) {
    const what = labelOf(form, 'rhPct', context);
    return wrong(texts.say('chat.missing', { what, example: example('reading', texts) }));
  }
  return byForm(form, values, context, placed.typed);
}
