import { type Coat, coatWindow, NOBODY_THERE_MS, stillWaits } from '../../facts/recoat.ts';
import type { Shift } from '../../model/shift.ts';
import { HOUR, type Instant } from '../../model/time.ts';
import type { RecoatEnd } from '../../trade/recoat.ts';
import { coatKey, waitingCoats } from '../coats.ts';
import { bell, type WantedBell } from './wanted.ts';

/** The next coat has to be mixed, stand and go on: the ten minutes of a pot's warning are of no use here. */
const CLOSING_SOON_MS = 2 * HOUR;

/**
 * RW5: the end of a wait once, the end of a window two hours before and when it comes. They inform and do not escalate:
 * a window that has closed stays closed, and its bell would ring for ever.
 */
export function recoatBells(shift: Shift): readonly WantedBell[] {
  return waitingCoats(shift)
    .filter((coat) => stillWaits(coat, shift.day))
    .flatMap((coat) => coatBells(shift, coat));
}

/** The coat a bell is about; undefined when it has been covered since. */
export function coatOfBell(shift: Shift, key: string): Coat | undefined {
  return waitingCoats(shift).find((coat) =>
    ['recoat-open', 'recoat-closing'].some((kind) => key.startsWith(`${kind}:${coatKey(coat)}:`)),
  );
}

function coatBells(shift: Shift, coat: Coat): readonly WantedBell[] {
  const window = coatWindow(shift.day, coat);
  if (!window) return [];
  const { opensAt, closes } = window;
  const { endsAt } = shift.day;
  const news = lastNews(shift);
  const open =
    opensAt > shift.postedAt && opensAt <= endsAt && !(closes && closes.at <= opensAt)
      ? [
          bell('recoat-open', `${coatKey(coat)}:${Math.round(window.minHours * 10)}`, opensAt, {
            once: true,
            knownAt: Math.max(opensAt, news),
            until: closes?.at ?? null,
          }),
        ]
      : [];
  return closes && closes.at > shift.postedAt ? [...open, ...closingBells(coat, closes, news, endsAt)] : open;
}

/** A time that a reading, a batch or a flush moves into the past is due from then, and not late. */
function lastNews(shift: Shift): Instant {
  const ofRigs = Object.values(shift.rigs).flatMap(({ batches, flush, flushes }) => [
    ...batches.map(({ loggedAt }) => loggedAt),
    ...flushes.map(({ startedAt }) => startedAt),
    ...(flush ? [flush.startedAt] : []),
  ]);
  return Math.max(shift.postedAt, ...shift.readings.map(({ at }) => at), ...ofRigs);
}

/** Another row of the table is another bell, so that a warm hour which brings the end forward is said again. */
function closingBells(coat: Coat, closes: RecoatEnd, news: Instant, endsAt: Instant): readonly WantedBell[] {
  const key = `${coatKey(coat)}:${closes.maxHours === null ? 'hot' : Math.round(closes.maxHours * 10)}`;
  const soonAt = Math.min(closes.at, endsAt) - CLOSING_SOON_MS;
  const bells: WantedBell[] = [];
  if (closes.at <= endsAt + NOBODY_THERE_MS)
    bells.push(
      bell('recoat-closing', `${key}:soon`, soonAt, {
        first: 'foreman',
        once: true,
        knownAt: Math.max(soonAt, news),
        until: Math.min(closes.at, endsAt),
      }),
    );
  if (closes.at <= endsAt)
    bells.push(
      bell('recoat-closing', `${key}:end`, closes.at, {
        first: 'foreman',
        once: true,
        knownAt: Math.max(closes.at, news),
      }),
    );
  return bells;
}
