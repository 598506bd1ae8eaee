import { rigName, selectKey } from '../../facts/used.ts';
import type { CautionRule } from '../rule.ts';

/** Rigs the last shift tagged out. One whose only fault is an unflushed line is the business of `unflushed-line`. */
export const rigTagged: CautionRule = {
  id: 'rig-tagged',
  grade: 'stop',
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
        note: text.trim() === '' ? 'none' : 'some',
        text: text.trim(),
      })),
    };
  },
};
