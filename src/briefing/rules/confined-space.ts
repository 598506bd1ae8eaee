import { coatingName, placeKey } from '../../facts/used.ts';
import { becauseDay } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/** Vapour, fire and bad air kill several people within minutes, rescuers included. An enclosed place counts as well. */
export const confinedSpace: CautionRule = {
  id: 'confined-space',
  grade: 'stop',
  tasks: 'everybody',
  params: ['place', 'call'],
  eachParams: ['area', 'coating'],
  questions: [
    { id: 'somebody-down', choices: 3 },
    { id: 'fan-stops', choices: 3 },
  ],
  find({ day }) {
    const place = placeKey(day);
    if (place === 'open') return null;
    const rows = new Map(
      day.entry.jobs.map(({ area, coating }) => [
        `${area}\n${coating}`,
        { area, coating: coatingName(day, coating) },
      ]),
    );
    return {
      params: { place, call: day.emergency.call },
      each: [...rows].sort(([x], [y]) => (x < y ? -1 : 1)).map(([, row]) => row),
      because: [becauseDay('surroundings', day.entry.surroundings)],
    };
  },
};
