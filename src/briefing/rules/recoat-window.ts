import { type RecoatState, recoatState, windowOf } from '../../facts/recoat.ts';
import { tenthDown, tenthUp, UNREAD } from '../../facts/round.ts';
import { coatingName, selectKey } from '../../facts/used.ts';
import { HOUR } from '../../model/time.ts';
import type { CautionRule } from '../rule.ts';

const worstFirst: Readonly<Record<RecoatState, number>> = {
  late: 0,
  closing: 1,
  early: 2,
  unknown: 3,
  open: 4,
};

/** Coats the last shift left, with their age at today's start against the window on the sheet. Hours only. */
export const recoatWindow: CautionRule = {
  id: 'recoat-window',
  grade: 'must',
  params: [],
  eachParams: ['area', 'coating', 'coat', 'state', 'age', 'min', 'end', 'max', 'basis'],
  questions: [
    { id: 'too-late', choices: 3 },
    { id: 'cold-night', choices: 3 },
  ],
  find({ day, carriedIn }) {
    const coats = carriedIn?.coats ?? [];
    if (coats.length === 0) return null;
    const rows = coats.map(({ area, coating, coat, at, steelC, coldestSteelC }) => {
      const window = windowOf(day.coatings[coating] ?? null, coldestSteelC, steelC);
      const state = recoatState(window, (day.startsAt - at) / HOUR, (day.endsAt - at) / HOUR);
      const max = window?.maxHours ?? null;
      return {
        area,
        coating: coatingName(day, coating),
        coat: selectKey(coat),
        state,
        age: tenthDown((day.startsAt - at) / HOUR),
        min: window ? tenthUp(window.minHours) : UNREAD,
        end: max === null ? 'none' : 'known',
        max: max === null ? UNREAD : tenthDown(max),
        basis: steelC === null || coldestSteelC === null ? 'narrowest' : 'table',
      };
    });
    return { params: {}, each: rows.sort((x, y) => worstFirst[x.state] - worstFirst[y.state]) };
  },
};
