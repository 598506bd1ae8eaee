import { rigsInUse } from '../flow/holds.ts';
import type { RigId } from '../model/id.ts';
import { own } from '../model/own.ts';
import type { Shift } from '../model/shift.ts';
import { said, wordsOf } from './fold.ts';
import { rigMentions, rigToType, withoutMentions } from './rig-words.ts';
import { type AskRig, type TypedContext, type Wrong, wrong } from './typed.ts';
import { type CommandWord, phraseAt, phrases, wordToType } from './words.ts';

export interface RigMeant {
  readonly kind: 'rig';
  readonly rig: RigId;
  readonly shift: Shift;
  /** The text without the rig. */
  readonly rest: string;
}

/**
 * The rig a command is about. It is guessed only when one rig is in use, whatever state the others are in: a crew that
 * has not logged its batch yet would otherwise set the clock of somebody else's paint.
 */
export function findRig(name: CommandWord, text: string, context: TypedContext): RigMeant | AskRig | Wrong {
  const { shift, texts } = context;
  if (!shift) return wrong(texts.say('refusal.no-shift'));
  const mentions = rigMentions(text, shift, texts);
  const rigs = [...new Set(mentions.map(({ rig }) => rig))];
  const rest = withoutMentions(text, mentions);
  const [only, other] = rigs;
  if (only !== undefined && other === undefined) return { kind: 'rig', rig: only, shift, rest };
  if (only !== undefined) return askRig(name, rigs, tidy(rest), shift, context);
  return noSuchRig(text, false, shift, context) ?? theOneInUse(name, [], text, shift, context);
}

/**
 * The same where people's own words follow. Only a rig that they begin with is the one meant: "pause, waiting for rig 2"
 * is said by the crew of rig 1.
 */
export function findRigBeforeWords(
  name: CommandWord,
  text: string,
  context: TypedContext,
): RigMeant | AskRig | Wrong {
  const { shift, texts } = context;
  if (!shift) return wrong(texts.say('refusal.no-shift'));
  const mentions = rigMentions(text, shift, texts);
  const first = mentions.filter(({ from }) => /^[\s\p{P}]*$/u.test(text.slice(0, from)));
  const [only, other] = [...new Set(first.map(({ rig }) => rig))];
  if (only !== undefined && other === undefined)
    return { kind: 'rig', rig: only, shift, rest: withoutMentions(text, first) };
  const spoken = [...new Set(mentions.map(({ rig }) => rig))];
  return (
    noSuchRig(withoutMentions(text, mentions), true, shift, context) ??
    theOneInUse(name, spoken, text, shift, context)
  );
}

function theOneInUse(
  name: CommandWord,
  spoken: readonly RigId[],
  text: string,
  shift: Shift,
  context: TypedContext,
): RigMeant | AskRig {
  const inUse = rigsInUse(shift).filter((id) => own(shift.day.rigs, id) !== undefined);
  const [single, ...more] = [...new Set([...inUse, ...spoken])];
  if (single !== undefined && more.length === 0) return { kind: 'rig', rig: single, shift, rest: text };
  return askRig(name, [...new Set([...inUse, ...spoken])], tidy(text), shift, context);
}

/** "rig 9", when there is none: never taken for the one rig in use. */
function noSuchRig(text: string, words: boolean, shift: Shift, { texts }: TypedContext): Wrong | null {
  const typed = wordsOf(text);
  const known = phrases(['rig'], texts);
  const at = typed.findIndex((_, index) => {
    const phrase = phraseAt(typed, index, known);
    if (!phrase) return false;
    const next = typed[index + phrase.words.length];
    // "the rig leaks" names no rig; "rig 9" does.
    if (!words) return true;
    return next === undefined ? index === 0 : /^\d/.test(next.folded);
  });
  const start = typed[at];
  if (!start) return null;
  const end = typed[at + 1] ?? start;
  // The whole of "2.5", or the reply would deny a rig that there is.
  const more = /^\S*/.exec(text.slice(end.to))?.[0].length ?? 0;
  const rigs = Object.values(shift.day.rigs).map((rig) => rigToType(rig, shift, texts));
  return wrong(
    texts.say('chat.no-rig', { typed: said(text.slice(start.from, end.to + more)), known: rigs.join(', ') }),
  );
}

function askRig(
  name: CommandWord,
  ids: readonly RigId[],
  rest: string,
  shift: Shift,
  { texts }: TypedContext,
): AskRig {
  const word = wordToType(name, texts);
  const rigs = ids.flatMap((id) => {
    const rig = own(shift.day.rigs, id);
    if (!rig) return [];
    const typed = [word, rigToType(rig, shift, texts), rest].filter((part) => part !== '').join(' ');
    return [{ id, name: rig.name, typed }];
  });
  return { kind: 'ask-rig', word, rigs };
}

const tidy = (text: string): string =>
  text
    .replace(/ ; /g, ' ')
    .replace(/\s+/g, ' ')
    .replace(/^[\s\p{P}]+(?=[\s\p{L}])/u, '')
    .trim();
