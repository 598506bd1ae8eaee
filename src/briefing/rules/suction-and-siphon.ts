import { rigChange } from '../../facts/rig-change.ts';
import { UNREAD } from '../../facts/round.ts';
import { coatingName, usedRigs } from '../../facts/used.ts';
import { becauseYesterday } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/** Another coating or solvent than before loosens the film that dried in the suction side. */
export const suctionAndSiphon: CautionRule = {
  id: 'suction-and-siphon',
  grade: 'watch',
  tasks: ['flushing', 'mixing'],
  params: [],
  eachParams: ['rig', 'state', 'before', 'now'],
  questions: [
    { id: 'lumps', choices: 3 },
    { id: 'was-clear', choices: 3 },
    { id: 'no-filter', choices: 3 },
  ],
  find({ day, carriedIn }) {
    const found = usedRigs(day).flatMap((used) => {
      const change = rigChange(day, carriedIn, used);
      return change ? [{ name: used.name, change }] : [];
    });
    if (found.length === 0) return null;
    const named = (names: readonly string[]) => [...new Set(names)].join(', ');
    return {
      params: {},
      each: found.map(({ name, change }) => ({
        rig: name,
        state: change.kind,
        before:
          change.kind === 'unknown'
            ? UNREAD
            : change.kind === 'coating'
              ? coatingName(day, change.before)
              : change.before,
        now:
          change.kind === 'unknown'
            ? UNREAD
            : named(change.kind === 'coating' ? change.now.map((id) => coatingName(day, id)) : change.now),
      })),
      because: found.map(({ name, change }) =>
        becauseYesterday(
          name,
          change.kind === 'solvent' ? 'rigs.solvent' : 'rigs.coating',
          change.kind === 'unknown' ? null : change.before,
        ),
      ),
    };
  },
};
