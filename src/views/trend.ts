import { tenthDown, tenthUp } from '../facts/round.ts';
import { type Closing, closingAt, trendsAt } from '../flow/trend.ts';
import type { Reading } from '../model/shift.ts';
import { at, type View } from './context.ts';

/** Slower than this an hour nobody can tell it from standing still. */
const STEADY_PER_HOUR = 0.05;

/** "Margin shrinking 0.8 °C an hour: down to 3 °C by 15:10 at this rate." The rate rounded up, the time down. */
export function closingWords(view: View, { limit, allowed, goneAt, trend }: Closing): string {
  const rate = tenthUp(Math.abs(trend.perHour));
  return view.texts.say(`reading.closing-${limit}`, { rate, allowed, time: at(view, goneAt) });
}

/** How the margin moves at the place of this reading, in a few words; null when the readings there are too few. */
export function trendWords({ shift, texts }: View, last: Reading): string | null {
  const found = trendsAt(shift, last).find(({ limit }) => limit === 'margin');
  if (!found) return null;
  const { perHour, goneAt } = found.trend;
  if (goneAt === null && Math.abs(perHour) < STEADY_PER_HOUR) return texts.say('reading.steady');
  return perHour < 0
    ? texts.say('reading.shrinking', { rate: tenthUp(-perHour) })
    : texts.say('reading.growing', { rate: tenthDown(perHour) });
}

/** What runs out first where this reading was taken, as a sentence; null when nothing does in sight. */
export function closingOf(view: View, last: Reading): string | null {
  const closing = closingAt(view.shift, last);
  return closing && closingWords(view, closing);
}
