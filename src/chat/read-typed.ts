import type { Page } from '../message/action.ts';
import type { FormId } from '../message/form-ids.ts';
import { type Command, commandSchema } from '../model/command.ts';
import { byForm } from './by-form.ts';
import { cleaned, fold, foldedWords, said, type Word, wordsOf } from './fold.ts';
import { nearWords } from './near.ts';
import { readBatch } from './read-batch.ts';
import { readReading } from './read-reading.ts';
import { fitting, openOnRig, readBare, readPause, readTemperature, trimmed } from './read-rig.ts';
import { readStep } from './read-step.ts';
import { type Typed, type TypedContext, wrong } from './typed.ts';
import { type CommandWord, commandNames, phraseAt, phrases, wordsFor, wordToType } from './words.ts';

/** What anybody may ask for, known or not. */
const forAnybody: readonly CommandWord[] = ['stop', 'emergency', 'help'];

/** Reads one line that somebody typed. Pure, throws for nothing that can be typed, and does nothing itself. */
export function readTyped(text: string, context: TypedContext): Typed {
  const clean = cleaned(text);
  const words = wordsOf(clean);
  if (words.length === 0) return { kind: 'help' };
  const found = commandAt(words, context);
  if (!found) return unknown(words, clean, context);
  const rest = clean.slice(words[found.words - 1]?.to ?? 0);
  if (context.viewer === null && !forAnybody.includes(found.name)) {
    const { texts } = context;
    const free = { stop: wordToType('stop', texts), emergency: wordToType('emergency', texts) };
    return wrong(texts.say('chat.who', free));
  }
  return read(found.name, rest, context);
}

function read(name: CommandWord, rest: string, context: TypedContext): Typed {
  switch (name) {
    case 'stop':
      return { kind: 'do', command: stopWork(rest) };
    case 'help':
      return { kind: 'help' };
    case 'emergency':
    case 'today':
    case 'briefing':
    case 'record':
      return show(name);
    case 'sign':
      return show('sign-off');
    case 'bells':
      return show('notices');
    case 'batch':
      return readBatch(rest, context);
    case 'temp':
      return readTemperature('temp', 'pot-temperature', rest, context);
    case 'hose':
      return readTemperature('hose', 'hose-temperature', rest, context);
    case 'warm':
      return readBare(name, (rig) => ({ type: 'hose-warm', rig }), rest, context);
    case 'go':
      return readBare(name, (rig) => ({ type: 'resume', rig }), rest, context);
    case 'empty':
      return readBare(name, (rig) => ({ type: 'pot-empty', rig }), rest, context);
    case 'flush':
      return readBare(name, (rig) => ({ type: 'start-flush', rig }), rest, context);
    case 'pause':
      return readPause(rest, context);
    case 'step':
      return readStep(rest, context);
    case 'reading':
      return readReading(rest, context);
    case 'concern':
      return readConcern(rest, context);
    case 'check':
      return openOnRig(name, 'check-rig', rest, context);
    case 'defect':
      return openOnRig(name, 'report-defect', rest, context);
    case 'post':
      return openPost(context);
    case 'close':
      return open('close-shift');
    case 'arrived':
      return readArrived(rest, context);
  }
}

const show = (page: Page): Typed => ({ kind: 'show', page });
const open = (id: FormId, about: Readonly<Record<string, string>> = {}): Typed => ({
  kind: 'open',
  form: { id, about },
});

/** Whatever follows is taken, cut to what fits: a stop is never refused for its words. */
function stopWork(rest: string): Command {
  const text = fitting(trimmed(rest));
  return commandSchema.parse({ type: 'stop-work', text });
}

function readConcern(rest: string, context: TypedContext): Typed {
  const text = trimmed(rest);
  if (text === '') return open('raise-concern');
  return byForm({ id: 'raise-concern', about: {} }, { text }, context);
}

/** As the buttons on the board: the running day is changed from its revision, otherwise the next one is posted. */
function openPost({ shift, now }: TypedContext): Typed {
  if (shift?.status !== 'open') return open('post-day');
  if (now < shift.day.endsAt) return open('post-day', { base: String(shift.briefing.revision) });
  return open('post-day', { next: 'yes' });
}

/** Somebody who is not on the list yet puts themselves on it; for anybody else the form asks who. */
function readArrived(rest: string, { shift, viewer, pack }: TypedContext): Typed {
  const away = pack.people.some(({ id }) => id === viewer) && !shift?.day.crew.includes(viewer ?? '');
  if (!shift || viewer === null || !away || wordsOf(rest).length > 0) return open('arrive');
  return { kind: 'do', command: commandSchema.parse({ type: 'arrive', person: viewer }) };
}

/** The command a text begins with. "STOOOP" is stop: whoever leans on a key is in a hurry. */
function commandAt(
  words: readonly Word[],
  { texts }: TypedContext,
): { readonly name: CommandWord; readonly words: number } | null {
  const found = phraseAt(words, 0, phrases(commandNames, texts));
  if (found) return { name: found.name, words: found.words.length };
  const pressed = once(words[0]?.folded ?? '');
  const urgent = (['stop', 'emergency'] as const).find((name) =>
    wordsFor(name, texts).some((word) => once(fold(word)) === pressed),
  );
  return urgent ? { name: urgent, words: 1 } : null;
}

const once = (word: string): string => word.replace(/(.)\1+/gu, '$1');

function unknown(words: readonly Word[], text: string, { texts }: TypedContext): Typed {
  const first = words[0];
  const word = said(first ? text.slice(first.from, first.to) : text);
  const help = wordToType('help', texts);
  const stops = wordsFor('stop', texts).map(fold);
  const names = commandNames.flatMap((name) => wordsFor(name, texts).map((one) => ({ name, one })));
  const near = words.some(({ folded }) => stops.includes(folded))
    ? [wordToType('stop', texts)]
    : nearWords(
        first?.folded ?? '',
        names.map(({ one }) => foldedWords(one).join(' ')),
      ).map((one) => names.find((known) => foldedWords(known.one).join(' ') === one)?.one ?? one);
  if (near.length === 0) return wrong(texts.say('chat.unknown', { word, help }));
  const list = [...new Set(near)].slice(0, 3).join(', ');
  return wrong(texts.say('chat.unknown-near', { word, near: list, help }));
}
