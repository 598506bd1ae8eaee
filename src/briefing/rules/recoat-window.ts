import { type Coat, coatState, coatWindow, stillWaits, worstFirst } from '../../facts/recoat.ts';
import { tenth, UNREAD } from '../../facts/round.ts';
import { coatingName, selectKey } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import { clockTimeOn, MINUTE } from '../../model/time.ts';
import { type Because, becauseCoating, becauseYesterday } from '../because.ts';
import type { CautionRule } from '../rule.ts';

/** Coats that the last shifts left and nobody has covered, with their windows by the steel readings so far. */
export const recoatWindow: CautionRule = {
  id: 'recoat-window',
  grade: 'must',
  tasks: ['spraying'],
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
    // Each reader is shown weekdays in their own language.
    const said = (at: number) => clockTimeOn(at, day.site.timeZone, day.entry.date);
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
    return {
      params: {},
      ...(rows.some(({ state }) => state === 'closed') && { unfolded: true }),
      each: rows.sort((x, y) => worstFirst[x.state] - worstFirst[y.state]),
      because: [...new Set(coats.map(({ coating }) => coating))].flatMap((one) => causesOf(day, coats, one)),
    };
  },
};

/** Where this coating waits, and that nobody copied its recoat times where that is why nothing is known. */
function causesOf(day: Day, coats: readonly Coat[], coating: string): readonly Because[] {
  const name = coatingName(day, coating);
  const areas = coats.filter((coat) => coat.coating === coating).map(({ area }) => area);
  const untold = (day.coatings[coating]?.recoat ?? []).length === 0;
  return [becauseYesterday(name, 'coats', areas), ...(untold ? [becauseCoating(name, 'recoat', null)] : [])];
}
