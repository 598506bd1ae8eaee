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
