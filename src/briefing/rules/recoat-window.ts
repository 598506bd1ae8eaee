import { coatState, coatWindow, stillWaits, worstFirst } from '../../facts/recoat.ts';
import { tenth, UNREAD } from '../../facts/round.ts';
import { coatingName, selectKey } from '../../facts/used.ts';
import { MINUTE, weekdayTime } from '../../model/time.ts';
import type { CautionRule } from '../rule.ts';

/** Coats that the last shifts left and nobody has covered, with their windows by the steel readings so far. */
export const recoatWindow: CautionRule = {
  id: 'recoat-window',
  grade: 'must',
  params: [],
  eachParams: ['area', 'coating', 'coat', 'state', 'opens', 'end', 'closes', 'c', 'basis'],
  questions: [
    { id: 'too-late', choices: 3 },
    { id: 'cold-night', choices: 3 },
    { id: 'warm-hour', choices: 3 },
  ],
  find({ day, carriedIn }) {
    const coats = (carriedIn?.coats ?? []).filter((coat) => stillWaits(coat, day));
    if (coats.length === 0) return null;
    const said = (at: number) => weekdayTime(at, day.site.timeZone, day.entry.date, day.site.language);
    const rows = coats.map((one) => {
      const window = coatWindow(day, one);
      const closes = window?.closes ?? null;
      const hot = closes !== null && closes.maxHours === null;
      return {
        area: one.area,
        coating: coatingName(day, one.coating),
        coat: selectKey(one.coat),
        state: coatState(window, day.startsAt, day.endsAt),
        // To the minute, upward: the wait is never shown shorter than it is.
        opens: window ? said(Math.ceil(window.opensAt / MINUTE) * MINUTE) : UNREAD,
        end: closes === null ? 'none' : hot ? 'hot' : 'known',
        closes: closes ? said(closes.at) : UNREAD,
        c: hot ? tenth(closes.heldC ?? 0) : UNREAD,
        basis: one.steel.length === 0 ? 'narrowest' : 'table',
      };
    });
    return { params: {}, each: rows.sort((x, y) => worstFirst[x.state] - worstFirst[y.state]) };
  },
};
