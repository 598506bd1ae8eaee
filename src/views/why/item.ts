import { facts, message, note, paragraph } from '../../message/build.ts';
import type { Message } from '../../message/message.ts';
import type { Texts } from '../../texts/texts.ts';

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

export function whyMessage(item: WhyItem, texts: Texts): Message {
  return message(
    item.result,
    'plain',
    facts(...item.inputs),
    paragraph(item.formula),
    note('plain', texts.say('why.source', { source: item.source })),
  );
}
