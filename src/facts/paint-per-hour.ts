import type { CarryOver, Day } from '../model/day.ts';
import type { CoatingId } from '../model/id.ts';
import { clockTime, HOUR, type Instant, MINUTE } from '../model/time.ts';
import { sprayedSpans } from '../trade/plan/settle.ts';
import { solventPerLitre } from '../trade/vapour.ts';
import { dayPlan } from './plan.ts';
import { burnableL } from './solvent-load.ts';

export interface PaintInHour {
  /** An hour on the site's clock. */
  readonly from: Instant;
  readonly to: Instant;
  readonly coatings: readonly {
    readonly coating: CoatingId;
    /** A and B together, sprayed in this hour on all rigs, L. */
    readonly paintL: number;
    readonly thinnerL: number;
  }[];
}

/** What the plan sprays in each hour of the shift, hours without spraying included, coatings in the order of the jobs. */
export function paintPerHour(day: Day, carriedIn: CarryOver | null): readonly PaintInHour[] {
  const uses = dayPlan(day, carriedIn).flatMap((one) => {
    if (one.plan === null) return [];
    return one.plan.batches.flatMap((batch) => {
      const spans = sprayedSpans(one.input, batch);
      const all = spans.reduce((sum, { from, to }) => sum + to - from, 0);
      const coating = one.input.jobs[batch.job]?.coating ?? '';
      return spans.map((span) => ({ ...span, coating, batch, all }));
    });
  });
  const coatings = [...new Set(day.entry.jobs.map(({ coating }) => coating))];
  return hoursOf(day).map(({ from, to }) => ({
    from,
    to,
    coatings: coatings.flatMap((coating) => {
      const shares = uses
        .filter((use) => use.coating === coating)
        .map((use) => ({ batch: use.batch, share: within(use, from, to) / use.all }));
      const paintL = shares.reduce((sum, { batch, share }) => sum + batch.litres * share, 0);
      const thinnerL = shares.reduce((sum, { batch, share }) => sum + batch.thinnerL * share, 0);
      return paintL > 0 ? [{ coating, paintL, thinnerL }] : [];
    }),
  }));
}

/** Solvent of paint and thinner that the plan puts into the air in each hour with spraying, L: all of it is taken as evaporating. */
export function solventPerHour(
  day: Day,
  carriedIn: CarryOver | null,
): readonly { readonly from: Instant; readonly litres: number }[] {
  return paintPerHour(day, carriedIn).flatMap(({ from, coatings }) => {
    const litres = coatings.reduce((sum, { coating, paintL, thinnerL }) => {
      const sheet = day.coatings[coating];
      if (!sheet) return sum;
      const { fromPaintL } = solventPerLitre(sheet.volumeSolids, 0);
      return sum + burnableL(sheet, 'paint', paintL * fromPaintL) + burnableL(sheet, 'thinner', thinnerL);
    }, 0);
    return litres > 0 ? [{ from, litres }] : [];
  });
}

function hoursOf(day: Day): readonly { readonly from: Instant; readonly to: Instant }[] {
  const past = Number(clockTime(day.startsAt, day.site.timeZone).slice(3)) * MINUTE;
  const first = day.startsAt - past;
  const count = Math.max(0, Math.ceil((day.endsAt - first) / HOUR));
  return Array.from({ length: count }, (_, i) => ({ from: first + i * HOUR, to: first + (i + 1) * HOUR }));
}

const within = (span: { readonly from: Instant; readonly to: Instant }, from: Instant, to: Instant): number =>
  Math.max(0, Math.min(span.to, to) - Math.max(span.from, from));
