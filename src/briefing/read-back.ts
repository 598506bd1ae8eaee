import type { PersonId } from '../model/id.ts';
import { dayNumber } from '../model/time.ts';
import type { Briefing, Caution } from './caution.ts';
import { gradeRank } from './grade.ts';

export interface PickedQuestion {
  /** Id of the caution it belongs to. */
  readonly caution: string;
  /** Id of the question inside that caution. */
  readonly question: string;
  /** Which choice stands in each place shown: `order[0]` is the number of the choice shown first. Choice 0 is right. */
  readonly order: readonly number[];
}

/**
 * The question a person answers before signing, or null when nothing they have to sign has one. The choice turns with the
 * person's place on the list, the day and the number of wrong answers so far; nothing is drawn by lot, so the journal
 * replays to the same question. Every second first try is about one of the `misread` questions, which the crew got wrong
 * last time; any other is about the hardest grade among `needed`.
 */
export function pickQuestion(
  briefing: Briefing,
  needed: readonly Caution[],
  person: PersonId,
  date: string,
  tries: number,
  misread: readonly string[] = [],
): PickedQuestion | null {
  const rankOf = ({ grade }: Caution) => gradeRank[grade];
  const askable = needed.filter(({ questions }) => questions.length > 0);
  const rank = Math.min(...askable.map(rankOf));
  const hardest = poolOf(askable.filter((caution) => rankOf(caution) === rank));
  const again = poolOf(askable).filter(({ caution, question }) => misread.includes(`${caution}/${question}`));
  const place = briefing.mustSign.indexOf(person);
  // Somebody who is not on the list has no place of their own; their name stands in for one.
  const turn = (place === -1 ? hashOf(person) % 997 : place) + dayNumber(date) + tries;
  const comesBack = tries === 0 && again.length > 0 && turn % 2 === 0;
  const picked = comesBack ? again[(turn / 2) % again.length] : hardest[turn % hardest.length];
  if (!picked) return null;
  const shift = hashOf([person, date, picked.caution, picked.question, tries].join('\n'));
  return {
    caution: picked.caution,
    question: picked.question,
    order: Array.from({ length: picked.choices }, (_, shown) => (shown + shift) % picked.choices),
  };
}

/** True when the choice shown at `shownIndex` (0 is the first) is the right one. */
export function checkAnswer(order: readonly number[], shownIndex: number): boolean {
  return order[shownIndex] === 0;
}

interface Askable {
  readonly caution: string;
  readonly question: string;
  readonly choices: number;
}

/** First questions of every caution, then second questions: neighbours, and a second try, are about another danger. */
function poolOf(cautions: readonly Caution[]): readonly Askable[] {
  const rounds = Math.max(0, ...cautions.map(({ questions }) => questions.length));
  return Array.from({ length: rounds }, (_, round) => round).flatMap((round) =>
    cautions.flatMap(({ id, questions }) => {
      const question = questions[round];
      return question ? [{ caution: id, question: question.id, choices: question.choices }] : [];
    }),
  );
}

/** FNV-1a, 32 bits, finished so that its low bits depend on every character. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  hash ^= hash >>> 16;
  hash = Math.imul(hash, 0x7feb352d);
  hash ^= hash >>> 15;
  return hash >>> 0;
}
