import { facts, message, note, paragraph } from '../../message/build.ts';
import type { Message } from '../../message/message.ts';
import type { View } from '../context.ts';

/** One number people see, followed back to where it comes from. Everything in it is words already. */
export interface WhyItem {
  /** Short and stable, such as `margin`: what `potbell why` is asked for. */
  readonly topic: string;
  /** What it is about (a rig, a coat), '' for the whole site. */
  readonly about: string;
  /** The number as it is shown elsewhere, in a sentence. */
  readonly result: string;
  /** What went in, and where it was taken from. */
  readonly inputs: readonly (readonly [label: string, value: string])[];
  /** The formula with today's figures in it, to follow with a calculator. */
  readonly formula: string;
  /** The published source, or that it is common practice. */
  readonly source: string;
}

/** The result is in the site's units; inputs and formula are in metric ones, as the formulas are, and say so. */
export function whyMessage(item: WhyItem, { shift, texts }: View): Message {
  return message(
    item.result,
    'plain',
    facts(...item.inputs),
    ...(shift.day.site.units === 'us' ? [note('plain', texts.say('why.metric'))] : []),
    paragraph(item.formula),
    note('plain', texts.say('why.source', { source: item.source })),
  );
}
