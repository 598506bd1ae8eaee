import type { CommandInput } from '../model/command.ts';
import { commandSchema } from '../model/command.ts';
import type { RigId } from '../model/id.ts';
import { byForm } from './by-form.ts';
import { findRig, findRigBeforeWords } from './find-rig.ts';
import { said, wordsOf } from './fold.ts';
import { example } from './help.ts';
import { figuresOf, place } from './read-figures.ts';
import { type Typed, type TypedContext, wrong } from './typed.ts';
import type { CommandWord } from './words.ts';

/** "temp 31 C rig 2". Without a figure it opens the form. */
export function readTemperature(
  name: 'temp' | 'hose',
  id: 'pot-temperature' | 'hose-temperature',
  text: string,
  context: TypedContext,
): Typed {
  const found = findRig(name, text, context);
  if (found.kind !== 'rig') return found;
  const form = { id, about: { rig: found.rig } };
  if (wordsOf(found.rest).length === 0) return { kind: 'open', form };
  const scanned = figuresOf(name, found.rest, [], context);
  if ('kind' in scanned) return scanned;
  const only = { field: 'c', labels: [], measures: 'temperature', needed: true } as const;
  const placed = place(name, scanned.figures, [only], context);
  return placed.kind === 'placed' ? byForm(form, placed.values, context, placed.typed) : placed;
}

/** A command with a rig and nothing else. */
export function readBare(
  name: CommandWord,
  command: (rig: RigId) => CommandInput,
  text: string,
  context: TypedContext,
): Typed {
  const found = findRig(name, text, context);
  if (found.kind !== 'rig') return found;
  const more = trimmed(found.rest);
  if (wordsOf(more).length > 0)
    return wrong(
      context.texts.say('chat.not-read', { typed: said(more), example: example(name, context.texts) }),
    );
  return { kind: 'do', command: commandSchema.parse(command(found.rig)) };
}

/** The rig stands still, and why when somebody says it. A number alone is no reason: it was meant for a rig. */
export function readPause(text: string, context: TypedContext): Typed {
  const found = findRigBeforeWords('pause', text, context);
  if (found.kind !== 'rig') return found;
  const why = trimmed(found.rest);
  if (/^\d+\W*$/.test(why))
    return wrong(
      context.texts.say('chat.not-read', { typed: said(why), example: example('pause', context.texts) }),
    );
  return byForm({ id: 'pause', about: { rig: found.rig } }, { why }, context);
}

/** A form about a rig. Words that were typed go with it where the form has a place for them. */
export function openOnRig(
  name: CommandWord,
  id: 'check-rig' | 'report-defect',
  text: string,
  context: TypedContext,
): Typed {
  const found = findRigBeforeWords(name, text, context);
  if (found.kind !== 'rig') return found;
  const words = id === 'report-defect' ? fitting(trimmed(found.rest)) : '';
  return { kind: 'open', form: { id, about: { rig: found.rig, ...(words === '' ? {} : { text: words }) } } };
}

/** As much of people's words as a field of words takes. A pair of characters cut in two would be no text any more. */
export const fitting = (text: string): string =>
  text
    .slice(0, 500)
    .replace(/[\uD800-\uDBFF]$/, '')
    .trim();

/** People's own words, without what stood between them and the command. */
export const trimmed = (text: string): string =>
  text.replace(/^[\s\p{P}\p{S}]+/u, '').replace(/[\s;]+$/u, '');
