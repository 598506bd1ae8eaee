import { coatingName, rigName } from '../../facts/used.ts';
import { clockTimeOn } from '../../model/time.ts';
import { becauseYesterday } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/** A line the last shift left with paint in it: it may be hard, blocked and still hold pressure behind the block. */
export const unflushedLine: CautionRule = {
  id: 'unflushed-line',
  grade: 'stop',
  tasks: ['spraying', 'flushing'],
  params: ['count'],
  eachParams: ['rig', 'coating', 'when'],
  questions: [
    { id: 'nothing-flows', choices: 3 },
    { id: 'hard-hose', choices: 3 },
  ],
  find({ day, carriedIn }) {
    const lines = carriedIn?.unflushed ?? [];
    if (lines.length === 0) return null;
    return {
      params: { count: lines.length },
      each: lines.map(({ rig, coating, mixedAt }) => ({
        rig: rigName(day, rig),
        coating: coatingName(day, coating),
        when: clockTimeOn(mixedAt, day.site.timeZone, day.entry.date),
      })),
      because: lines.map(({ rig, coating }) => becauseYesterday(rigName(day, rig), 'unflushed', coating)),
    };
  },
};
