import { rigName, selectKey } from '../../facts/used.ts';
import { becauseYesterday } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/** Rigs the last shift tagged out. One whose only fault is an unflushed line is the business of `unflushed-line`. */
export const rigTagged: CautionRule = {
  id: 'rig-tagged',
  grade: 'stop',
  tasks: ['spraying', 'mixing', 'flushing'],
  params: ['count'],
  eachParams: ['rig', 'cause', 'note', 'text'],
  questions: [
    { id: 'who-clears', choices: 3 },
    { id: 'borrow', choices: 3 },
  ],
  find({ day, carriedIn }) {
    const unflushed = new Set(carriedIn?.unflushed.map(({ rig }) => rig));
    const tags = (carriedIn?.tags ?? []).filter(
      ({ rig, cause }) => cause !== 'not-flushed' || !unflushed.has(rig),
    );
    if (tags.length === 0) return null;
    return {
      params: { count: tags.length },
      each: tags.map(({ rig, cause, text }) => ({
        rig: rigName(day, rig),
        cause: selectKey(cause),
        note: ownWords(cause, text) === '' ? 'none' : 'some',
        text: ownWords(cause, text),
      })),
      because: tags.map(({ rig, cause }) => becauseYesterday(rigName(day, rig), 'tags', cause)),
    };
  },
};

/** What a person wrote. A failed check puts the names of the checks before it, which are ids and no words. */
function ownWords(cause: string, text: string): string {
  const parts = text
    .split('; ')
    .map((part) => (cause === 'check' ? part.split(': ').slice(1).join(': ') : part));
  return parts
    .filter((part) => part.trim() !== '')
    .join('; ')
    .trim();
}
