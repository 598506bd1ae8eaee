import type { CarryOver, Day } from '../model/day.ts';
import { HOUR, type Instant } from '../model/time.ts';
import { type RecoatState, type RecoatWindow, recoatStateAt, recoatWindow } from '../trade/recoat.ts';

/** One coat that waits for the next. */
export type Coat = CarryOver['coats'][number];

/** A window that ends so long after the shift may end before anybody is back: a weekend. */
export const NOBODY_THERE_MS = 72 * HOUR;

/** The window of a coat by the sheet the day was posted with; null when that sheet has no recoat table. */
export function coatWindow(day: Pick<Day, 'coatings'>, coat: Coat): RecoatWindow | null {
  return recoatWindow({
    table: day.coatings[coat.coating]?.recoat ?? [],
    firstAt: coat.firstAt,
    lastAt: coat.at,
    steel: coat.steel,
  });
}

/** As the trade's states, and `after`: it ends after this shift, so soon that there may be no shift before it does. */
export type CoatState = RecoatState | 'after';

/** The one that needs somebody first. */
export const worstFirst: Readonly<Record<CoatState, number>> = {
  closed: 0,
  closing: 1,
  after: 2,
  unknown: 3,
  early: 4,
  open: 5,
};

/** Whether it opens no sooner than it closes. */
export const neverOpens = (window: RecoatWindow | null): boolean =>
  window?.closes != null && window.opensAt >= window.closes.at;

/** How a coat stands at `from`, in a shift that goes on until `endsAt`. */
export function coatState(window: RecoatWindow | null, from: Instant, endsAt: Instant): CoatState {
  const state = recoatStateAt(window, from, Math.max(from, endsAt));
  // Cold has put the start past the end that heat has set: by the sheet there is no moment for the next coat.
  if (state !== 'closed' && neverOpens(window)) return 'unknown';
  if (!window || (state !== 'early' && state !== 'open')) return state;
  // What can still be coated in this shift is told when that is; its end is told beside it.
  if (state === 'early' && window.opensAt <= endsAt) return state;
  return window.closes && window.closes.at <= endsAt + NOBODY_THERE_MS ? 'after' : state;
}

/** Areas are written by hand, day after day. */
export const areaKey = (area: string): string => area.trim().replaceAll(/\s+/g, ' ').toLowerCase();

/**
 * Whether a coat still has something to wait for. On a finish that is only what today's jobs put on that area; on one of
 * today's own that is a repair, because the other jobs there are what lies under it.
 */
export function stillWaits(coat: Coat, day: Pick<Day, 'entry' | 'startsAt'>): boolean {
  if (coat.coat !== 'finish') return true;
  const upper = day.entry.jobs.filter((job) => areaKey(job.area) === areaKey(coat.area));
  const ofToday = coat.at >= day.startsAt;
  return upper.some((job) => (ofToday ? job.coat === 'repair' : job.coat !== 'finish'));
}
