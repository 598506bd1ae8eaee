import { type HoseSection, hoseVolumeL } from './line.ts';
import { inRange, TradeRefusal } from './refusal.ts';

export interface FlushInput {
  readonly hoses: readonly HoseSection[];
  /** Litres held by pump, filter and suction, 0 to 100. */
  readonly pumpAndFilterL: number;
  /** Litres held by the drain valve and its line, 0 to 100; flushed once with each solvent. */
  readonly drainLineL: number;
  /** Line volumes of (settled) solvent for the primary flush, 1 to 20. Common practice, no source. */
  readonly lineVolumesPrimary: number;
  /** Line volumes of clean solvent for the secondary flush, 1 to 20. Common practice, no source. */
  readonly lineVolumesSecondary: number;
  /** Litres the pump moves in one full cycle, 0.001 to 10. */
  readonly litresPerCycle: number;
  /** Cycles a minute while flushing at the lowest pressure that works, 1 to 300. */
  readonly cyclesPerMinute: number;
  /** Minutes for what is not pumping: relieving pressure, tip off, suction out and back; 0 to 240. */
  readonly fixedMinutes: number;
}

export interface FlushPlan {
  /** Litres in hoses, pump and filter. */
  readonly lineL: number;
  /** Solvent for the primary flush, its share for the drain line included. */
  readonly primaryL: number;
  /** Solvent for the secondary flush, its share for the drain line included. */
  readonly secondaryL: number;
  /** The drain line's share, contained once in `primaryL` and once in `secondaryL`. */
  readonly drainL: number;
  /** Solvent to have ready: primary and secondary together. */
  readonly solventL: number;
  /** Minutes for the whole flush. */
  readonly minutes: number;
  /** Minutes from the first step until the mixed paint is out of line and drain line: fixed steps and primary flush. */
  readonly primaryMinutes: number;
}

/**
 * Solvent and time to flush one rig.
 *
 * Assumptions, all common practice without a source: solvent goes through as a multiple of the line's own volume, at
 * least one; the pump moves its full stroke every cycle; solvent settled and used again still counts as solvent to have
 * ready; and all fixed minutes are spent before the paint is out, which rings the bell earlier rather than later.
 * @throws TradeRefusal for a value out of range.
 */
export function flushPlan(input: FlushInput): FlushPlan {
  const part = (field: 'pumpAndFilterL' | 'drainLineL') =>
    inRange(field, input[field], 0, 100, 'L', 'Give the volume in litres.');
  const volumes = (field: 'lineVolumesPrimary' | 'lineVolumesSecondary') =>
    inRange(field, input[field], 1, 20, 'line volumes', 'Less than one volume leaves paint in the line.');
  const litresPerMinute =
    inRange('litresPerCycle', input.litresPerCycle, 0.001, 10, 'L', 'Read it from the plate of the pump.') *
    inRange(
      'cyclesPerMinute',
      input.cyclesPerMinute,
      1,
      300,
      'cycles a minute',
      'Count them while flushing.',
    );
  const fixed = inRange('fixedMinutes', input.fixedMinutes, 0, 240, 'min', 'Time the steps without pumping.');

  const lineL = hoseVolumeL(input.hoses) + part('pumpAndFilterL');
  const drainL = part('drainLineL');
  const primaryL = volumes('lineVolumesPrimary') * lineL + drainL;
  const secondaryL = volumes('lineVolumesSecondary') * lineL + drainL;
  const solventL = primaryL + secondaryL;
  return {
    lineL,
    primaryL,
    secondaryL,
    drainL,
    solventL,
    minutes: fixed + solventL / litresPerMinute,
    primaryMinutes: fixed + primaryL / litresPerMinute,
  };
}

/**
 * Share of settled solvent that can be poured off clear; the rest stays behind with the sludge.
 * Common practice, no source: look at the can, it may be less.
 */
export const CLEAR_SHARE = 0.8;

export interface DaySolventInput {
  /** Solvent of one primary and one secondary flush, 0 to 500 L each, drain line included: see `flushPlan`. */
  readonly primaryL: number;
  readonly secondaryL: number;
  /** Full flushes expected in the day, 1 to 24. */
  readonly flushes: number;
  /** Settled solvent standing ready, sludge included, 0 to 1000 L; 0 where it may not be used. */
  readonly settledL: number;
}

export interface DaySolvent {
  /** Clear settled solvent to use, for primary flushes only, L. */
  readonly settledL: number;
  /** Clean solvent to bring, L. */
  readonly cleanL: number;
}

/**
 * Solvent for the day on one rig. Settled solvent replaces clean in primary flushes only; every secondary flush is
 * clean. What is flushed out today needs a night to settle and is not counted again.
 * Source: the sum of the flushes; number of flushes, clear share and settling time are common practice, no source.
 * @throws TradeRefusal for a value out of range, or a number of flushes that is not whole.
 */
export function solventForDay(input: DaySolventInput): DaySolvent {
  const flush = 'Work it out for this rig.';
  const primary = inRange('primaryL', input.primaryL, 0, 500, 'L', flush);
  const secondary = inRange('secondaryL', input.secondaryL, 0, 500, 'L', flush);
  const settled = inRange(
    'settledL',
    input.settledL,
    0,
    1000,
    'L',
    'Give what stands in the can, in litres.',
  );
  const flushes = inRange(
    'flushes',
    input.flushes,
    1,
    24,
    '',
    'There is one at the end of the shift at least.',
  );
  if (!Number.isInteger(flushes))
    throw new TradeRefusal('flushes', flushes, 'a whole number', 'Half a flush leaves paint in the line.');
  const settledL = Math.min(CLEAR_SHARE * settled, flushes * primary);
  return { settledL, cleanL: flushes * (primary + secondary) - settledL };
}
