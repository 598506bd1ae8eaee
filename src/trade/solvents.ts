import { someOf } from './refusal.ts';
import { dilutionAirM3PerL, type SolventVapour } from './vapour.ts';

export type SolventId =
  | 'xylene'
  | 'toluene'
  | 'ethylbenzene'
  | 'n-butyl-acetate'
  | 'mek'
  | 'acetone'
  | 'n-butanol'
  | 'isopropanol'
  | 'white-spirit';

export interface CommonSolvent extends SolventVapour {
  readonly id: SolventId;
  /** Recommended exposure limit over a working day, ppm by volume; null where it is given by weight. */
  readonly exposureLimitPpm: number | null;
}

/**
 * Solvents that coatings and thinners are commonly made of, for sheets without vapour data.
 *
 * LEL: the lower of IEC 60079-20-1 (2010) and NFPA 497 (2008); for mixed xylenes the lowest isomer; white spirit from
 * memory. Exposure limit: NIOSH recommended limit (n-butanol: its ceiling; ethylbenzene, n-butanol and isopropanol from
 * memory). Liquid density at 20 °C from handbooks, from memory; vapour density: molar mass over 28.96, for white spirit a
 * mean of 140 g/mol, from memory.
 */
export const commonSolvents: readonly CommonSolvent[] = [
  { id: 'xylene', lelPct: 0.9, vapourDensity: 3.666, densityKgPerL: 0.864, exposureLimitPpm: 100 },
  { id: 'toluene', lelPct: 1, vapourDensity: 3.182, densityKgPerL: 0.867, exposureLimitPpm: 100 },
  { id: 'ethylbenzene', lelPct: 0.8, vapourDensity: 3.666, densityKgPerL: 0.867, exposureLimitPpm: 100 },
  { id: 'n-butyl-acetate', lelPct: 1.2, vapourDensity: 4.011, densityKgPerL: 0.882, exposureLimitPpm: 150 },
  { id: 'mek', lelPct: 1.4, vapourDensity: 2.49, densityKgPerL: 0.805, exposureLimitPpm: 200 },
  { id: 'acetone', lelPct: 2.5, vapourDensity: 2.006, densityKgPerL: 0.791, exposureLimitPpm: 250 },
  { id: 'n-butanol', lelPct: 1.4, vapourDensity: 2.559, densityKgPerL: 0.81, exposureLimitPpm: 50 },
  { id: 'isopropanol', lelPct: 2, vapourDensity: 2.075, densityKgPerL: 0.785, exposureLimitPpm: 400 },
  { id: 'white-spirit', lelPct: 0.6, vapourDensity: 4.834, densityKgPerL: 0.78, exposureLimitPpm: null },
];

/** Of the common solvents the one that needs most air a litre: what a solvent counts as of which nothing is known. */
export function worstCommonSolvent(): CommonSolvent {
  const air = (solvent: CommonSolvent) => dilutionAirM3PerL({ solvent, fractionPct: 25, c: 20 }).neededM3;
  const [worst] = [...commonSolvents].sort((x, y) => air(y) - air(x));
  return someOf('solvents', worst ? [worst] : [], 'The table of common solvents is empty.')[0];
}
