import type { TemperatureStep } from '../dose.ts';
import type { PotLifePoint } from '../pot-life.ts';
import type { TemperatureMinutes } from '../temperature-table.ts';

/** From one moment to another, epoch ms. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** A time in which one job cannot be sprayed, and why. */
export interface ClosedSpan extends Span {
  readonly why: 'weather' | 'recoat';
}

/** One job of a rig. Litres are of A and B together, without thinner, unless they say otherwise. */
export interface PlanJob {
  /** Two jobs of one coating run through the same line; another coating needs a full flush before it. */
  readonly coating: string;
  /** Mixed paint to use up on it, losses included, 0.1 to 100 000 000 L. */
  readonly litres: number;
  /** 0.01 to 1 000 000 m². */
  readonly areaM2: number;
  /** Parts by volume; null for a one-pack. */
  readonly ratio: { readonly a: number; readonly b: number } | null;
  /** Litres in one full kit, 0.1 to 1000; null: any measured amount is a batch. */
  readonly kitLitres: number | null;
  /** Thinner per 100 volumes of paint, 0 to 100. */
  readonly thinnerPct: number;
  /** null for a one-pack, which does not go off in the line. */
  readonly potLife: readonly PotLifePoint[] | null;
  readonly induction: readonly TemperatureMinutes[];
  /** Thinned paint through the gun over the time of spraying, trigger pauses included, up to 100 L/min. */
  readonly sprayLPerMin: number;
  readonly closed: readonly ClosedSpan[];
}

/** A hose that stands still: it nears `towardsC` by 63 % in each time constant, 1 to 1440 min. */
export interface WarmingHose {
  readonly towardsC: readonly TemperatureStep[];
  readonly timeConstantMinutes: number;
}

/** One rig's day. All instants in epoch ms, minutes 0 to 1440. */
export interface PlanInput {
  readonly startsAt: number;
  readonly endsAt: number;
  readonly breaks: readonly Span[];
  readonly jobs: readonly PlanJob[];
  /** Paint expected in the pot, from the warm side: it ages by this. */
  readonly paintC: readonly TemperatureStep[];
  /** The same from the cold side: it stands before use by this. */
  readonly coldC: readonly TemperatureStep[];
  /** What paint standing in the hose warms towards, and how fast. Never counted cooler than `paintC`. */
  readonly hose: WarmingHose;
  /** Share of the pot life kept back, 0 to 0.95. */
  readonly reserveFraction: number;
  /** A full flush. */
  readonly flushMinutes: number;
  /** Solvent of one full flush, first and second rinse, litres. */
  readonly primaryL: number;
  readonly secondaryL: number;
  /** Litres of a fresh batch through the gun before the line counts as that batch. */
  readonly renewL: number;
  /** Before the first spraying of a job: rig set up, checked, moved. */
  readonly setupMinutes: number;
  /** From opening the tins until a batch is mixed. The pot life runs from its start, standing time from its end. */
  readonly mixMinutes: number;
  /** No pot is mixed larger than this, except one full kit, litres. */
  readonly mostPotLitres: number;
}

/** One mix. Times in epoch ms; litres of the parts add up to `litres`. */
export interface PlanBatch {
  /** Place of the job in the input. */
  readonly job: number;
  readonly mixFrom: number;
  readonly mixTo: number;
  /** Standing time over. */
  readonly ready: number;
  readonly sprayFrom: number;
  readonly sprayTo: number;
  /** From when on the line holds nothing older than this batch; null: too small a batch, the older one goes on counting. */
  readonly renewedAt: number | null;
  /** When none of it is in the line any more: flushed out, or pushed out by a fresh batch. */
  readonly outAt: number;
  /** By `clockTimes`, its time in a standing hose included; null for a one-pack. */
  readonly useBy: number | null;
  readonly startFlushBy: number | null;
  readonly deadAt: number | null;
  /** A and B together. */
  readonly litres: number;
  readonly aL: number;
  readonly bL: number;
  readonly thinnerL: number;
  /** Full kits in it; null when the coating has no kit size. */
  readonly kits: number | null;
  /** Litres measured out of one more kit, both parts by the ratio. 0: nothing to measure. */
  readonly measuredL: number;
  /** Colder than the sheet's standing times: it must stand longer, and nobody knows how long. */
  readonly standsLonger: boolean;
}

export type FlushWhy = 'break' | 'end' | 'coating-change' | 'pot-life';

export interface PlanFlush extends Span {
  /** Job whose coating is in the line. */
  readonly job: number;
  readonly why: FlushWhy;
  readonly primaryL: number;
  readonly secondaryL: number;
}

/** What was done of one job. */
export interface JobDone {
  /** Litres of the need that are in batches. */
  readonly litres: number;
  readonly coveredM2: number;
  /** Nothing of it is left over. */
  readonly complete: boolean;
  /** End of its last spraying; null when nothing of it is sprayed. */
  readonly finishedAt: number | null;
}

/** Batches and flushes of a rig in the order of time, without judgement. */
export interface Schedule {
  readonly batches: readonly PlanBatch[];
  readonly flushes: readonly PlanFlush[];
  readonly jobs: readonly JobDone[];
}
