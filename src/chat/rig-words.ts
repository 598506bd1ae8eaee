import type { RigId } from '../model/id.ts';
import type { Rig } from '../model/rig.ts';
import type { Shift } from '../model/shift.ts';
import type { Texts } from '../texts/texts.ts';
import { cleaned, foldedWords, standsAt, type Word, wordsOf } from './fold.ts';
import { insideNames, phrases, wordsFor, wordToType } from './words.ts';

/** A place in a text where a rig is named. */
export interface RigMention {
  readonly rig: RigId;
  readonly from: number;
  readonly to: number;
}

/** Where rigs of the shift are named: by id, by name, or by the number in the name behind the word "rig". */
export function rigMentions(text: string, shift: Shift, texts: Texts): readonly RigMention[] {
  const words = wordsOf(text);
  const rigs = Object.values(shift.day.rigs);
  const found = rigs.flatMap((rig) => {
    const exact = exactly(text, rig.id);
    const named = waysToName(rig, texts).flatMap((way) =>
      words.flatMap((word, index): readonly RigMention[] => {
        const last = words[index + way.length - 1];
        if (!last || !standsAt(words, index, way) || !standsApart(text, word, last)) return [];
        return [{ rig: rig.id, from: word.from, to: last.to }];
      }),
    );
    return exact ? [...named, exact] : named;
  });
  // An id that is written out is meant, whatever another rig is called. Then the longest: "Rig 1 large" is not "Rig 1".
  const ids = rigs.flatMap((rig) => exactly(text, rig.id) ?? []);
  const meant = found.filter(
    (one) => !ids.some((id) => id.rig !== one.rig && id.from <= one.from && id.to >= one.to),
  );
  return meant.filter((one) => !meant.some((other) => other !== one && wider(other, one)));
}

const wider = (a: RigMention, b: RigMention) =>
  a.from <= b.from && a.to >= b.to && a.to - a.from > b.to - b.from;

function exactly(text: string, id: RigId): RigMention | null {
  if (!id.includes('-')) return null;
  const match = new RegExp(`(?<=^|[\\s;,(])${id}(?=$|[\\s;,:!?)])`, 'i').exec(text);
  return match ? { rig: id, from: match.index, to: match.index + id.length } : null;
}

/** False for a piece of something longer: the 2 of "2.5", or "rig 2b". */
export function standsApart(text: string, first: Word, last: Word): boolean {
  const before = text.slice(Math.max(0, first.from - 2), first.from);
  const behind = text.slice(last.to, last.to + 2);
  return !/[\p{L}\p{N}]$|\d[.,/]$/u.test(before) && !/^[\p{L}\p{N}]|^[.,/]\d/u.test(behind);
}

/** The text without these places. Each is cut once, however many names fit it: a cut too many would eat a figure. */
export function withoutMentions(
  text: string,
  mentions: readonly { readonly from: number; readonly to: number }[],
): string {
  let rest = '';
  let at = 0;
  for (const { from, to } of [...mentions].sort((a, b) => a.from - b.from)) {
    if (from < at) {
      at = Math.max(at, to);
      continue;
    }
    rest += `${text.slice(at, from)} ; `;
    at = to;
  }
  return rest + text.slice(at);
}

function waysToName(rig: Rig, texts: Texts): readonly (readonly string[])[] {
  const rigWords = wordsFor('rig', texts).map(foldedWords);
  const name = foldedWords(rig.name);
  const short = foldedWords(rig.name.replace(/\([^)]*\)/g, ' '));
  const id = foldedWords(rig.id);
  const number = numberOf(rig);
  const alone = [name, short, id].filter((way) => isPlain(way, texts));
  const behind = [name, short, id, ...(number === null ? [] : [[number]])].filter((way) => way.length > 0);
  return [...alone, ...rigWords.flatMap((word) => behind.map((way) => [...word, ...way]))];
}

function numberOf(rig: Rig): string | null {
  const isNumber = (word: string) => /^\d+$/.test(word);
  return foldedWords(rig.name).find(isNumber) ?? foldedWords(rig.id).find(isNumber) ?? null;
}

/** A name of one short word, a bare number or a word with a meaning of its own needs the word "rig" before it. */
function isPlain(way: readonly string[], texts: Texts): boolean {
  const [first = '', ...more] = way;
  if (more.length > 0) return true;
  const taken = phrases(insideNames, texts).some(({ words }) => words.length === 1 && words[0] === first);
  return first.length > 2 && !/^\d+$/.test(first) && !taken;
}

/** What names this rig and no other, the shortest first: "rig 2", its name, its id. */
export function rigToType(rig: Rig, shift: Shift, texts: Texts): string {
  const word = wordToType('rig', texts);
  const number = numberOf(rig);
  const ways = [
    ...(number === null ? [] : [`${word} ${number}`]),
    cleaned(rig.name),
    rig.id,
    `${word} ${rig.id}`,
  ];
  const only = (way: string) => {
    const rigs = new Set(rigMentions(way, shift, texts).map((one) => one.rig));
    return rigs.size === 1 && rigs.has(rig.id);
  };
  return ways.find(only) ?? rig.id;
}
