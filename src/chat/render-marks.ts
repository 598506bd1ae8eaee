import type { CheckItem, Tone } from '../message/message.ts';
import { stateMarks, toneMarks } from '../message/plain-text.ts';
import type { ChatWords } from './render-words.ts';

/** "!! Danger"; nothing for plain. Always with a word: neither colour nor shape alone says anything. */
export function toneMark(tone: Tone, words: ChatWords): string {
  const word = {
    plain: '',
    good: words.toneGood,
    attention: words.toneAttention,
    danger: words.toneDanger,
  }[tone];
  return word === '' ? '' : `${toneMarks[tone]}${word}`;
}

/** "[x] Done". */
export function stateMark(state: CheckItem['state'], words: ChatWords): string {
  const word = {
    done: words.stateDone,
    open: words.stateOpen,
    next: words.stateNext,
    skipped: words.stateSkipped,
    defect: words.stateDefect,
  }[state];
  return `${stateMarks[state]} ${word}`;
}
