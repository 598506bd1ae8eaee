import type { PlanInput, PlanJob } from './types.ts';

/** Less than this is not worth a pot: it stays undone without being counted as left over, litres. */
export const CRUMB_L = 0.05;

/** What may go into one pot. */
export interface Size {
  readonly litres: number;
  readonly kits: number | null;
  readonly measuredL: number;
}

/** Without a kit size, the steps in which a pot is made smaller until it fits. */
const STEPS = 20;

/** With very small kits not every number of them is tried. */
const MOST_KINDS = 24;

/**
 * The batches a job may be mixed in, largest first. Full kits; the last batch may have a measured part in it, because the
 * need is seldom a whole number of kits. Sizes that would leave a rest too small to pump come last.
 */
export function sizesFor(job: PlanJob, left: number, input: PlanInput): readonly Size[] {
  const kit = job.kitLitres;
  if (kit === null) return measuredSizes(Math.min(left, input.mostPotLitres));
  const most = Math.max(kit, input.mostPotLitres) + CRUMB_L;
  const whole = Math.floor((Math.min(left, most) + CRUMB_L) / kit);
  const part = left - whole * kit;
  const all: readonly Size[] =
    part > CRUMB_L && left <= most ? [{ litres: left, kits: whole, measuredL: part }] : [];
  const step = Math.ceil(whole / MOST_KINDS);
  const counts = Array.from({ length: whole }, (_, i) => whole - i).filter(
    (n, i) => i % step === 0 || n === 1,
  );
  const kits = counts.map((count) => ({
    litres: Math.min(count * kit, left),
    kits: count,
    measuredL: 0,
  }));
  const stump = ({ litres }: Size) => left - litres > CRUMB_L && left - litres < input.renewL / 3;
  return [...all, ...kits.filter((size) => !stump(size)), ...kits.filter(stump)];
}

function measuredSizes(top: number): readonly Size[] {
  const sizes = Array.from({ length: STEPS }, (_, i) => (top * (STEPS - i)) / STEPS).map((litres, i) =>
    i === 0 ? litres : Math.floor(litres * 10) / 10,
  );
  return [...new Set(sizes)]
    .filter((litres, i) => i === 0 || litres >= 0.5)
    .map((litres) => ({ litres, kits: null, measuredL: litres }));
}

/** What is asked about where a coating has no kit size: a small pot, litres. */
const SMALL_POT_L = 5;

/** The smallest batch worth mixing of `left` litres: one kit, a small pot where there are no kits, or all that is left. */
export function smallestSize(job: PlanJob, left: number): Size {
  const kit = job.kitLitres;
  if (kit === null) {
    const litres = Math.min(left, SMALL_POT_L);
    return { litres, kits: null, measuredL: litres };
  }
  if (left < kit - CRUMB_L) return { litres: left, kits: 0, measuredL: left };
  return { litres: kit, kits: 1, measuredL: 0 };
}
