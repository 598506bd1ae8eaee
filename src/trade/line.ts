import { inRange, someOf } from './refusal.ts';

/**
 * Fluid pressure in bar when an air-driven pump stalls against a closed gun: the most the line can see.
 * `ratio` is fluid to air, 1 to 200; `airBar` is gauge pressure at the pump, 0 to 15 bar.
 * Source: force balance on the piston, friction left out, so the true figure is lower.
 * @throws TradeRefusal for a value out of range.
 */
export function stallBar(ratio: number, airBar: number): number {
  return (
    inRange('ratio', ratio, 1, 200, 'to 1', 'Read the ratio from the plate on the pump.') *
    inRange('airBar', airBar, 0, 15, 'bar', 'Give the air pressure at the pump in bar.')
  );
}

export interface PressureRating {
  readonly part: string;
  /** Highest working pressure stamped on the part, 1 to 1500 bar. */
  readonly bar: number;
}

/**
 * The weakest part of the line; of equals the first listed. No part of the line may see more than this pressure
 * (common practice, no source; US Army TB 43-0213 says never to exceed the lowest rating).
 * @throws TradeRefusal for an empty list or a rating out of range.
 */
export function lowestRating(ratings: readonly PressureRating[]): PressureRating {
  const listed = someOf(
    'ratings',
    ratings,
    'Copy the ratings stamped on pump, filter, hose, swivel and gun.',
  );
  listed.forEach((one, i) => {
    inRange(`ratings[${i}].bar`, one.bar, 1, 1500, 'bar', `Read it from the ${one.part} itself.`);
  });
  return listed.reduce((weakest, one) => (one.bar < weakest.bar ? one : weakest));
}

export interface HoseSection {
  /** Inner diameter, 1 to 100 mm. */
  readonly boreMm: number;
  /** Length, 0.01 to 1000 m. */
  readonly lengthM: number;
}

/**
 * Litres held by hose sections joined one after the other.
 * Source: volume of a cylinder; the swelling of a hose under pressure is left out.
 * @throws TradeRefusal for no section or a size out of range.
 */
export function hoseVolumeL(sections: readonly HoseSection[]): number {
  return someOf('hoses', sections, 'A line has at least one hose.').reduce((sum, section, i) => {
    const bore = inRange(
      `hoses[${i}].boreMm`,
      section.boreMm,
      1,
      100,
      'mm',
      'Bore is the inner diameter in millimetres.',
    );
    const length = inRange(
      `hoses[${i}].lengthM`,
      section.lengthM,
      0.01,
      1000,
      'm',
      'Hose length is in metres.',
    );
    return sum + (Math.PI / 4) * (bore / 1000) ** 2 * length * 1000;
  }, 0);
}

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
