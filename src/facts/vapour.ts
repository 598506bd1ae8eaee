import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { Day } from '../model/day.ts';
import type { Job } from '../model/day-entry.ts';
import { pressureAtHPa } from '../trade/pressure-at.ts';
import { worstCommonSolvent } from '../trade/solvents.ts';
import {
  airM3PerMin,
  dilutionAirM3PerL,
  litresToLelFraction,
  type SolventVapour,
  type VapourPlace,
} from '../trade/vapour.ts';
import { warmestAirC } from './expected-air.ts';
import { flammableOf, flushBurns, isThinned, paintBurns, thinnerBurns } from './hazards.ts';
import { loadsOf, meanRate, type PaintRate, type SolventLoad, tipHour } from './solvent-load.ts';
import { type UsedCoating, usedCoatings } from './used.ts';

/** Solvent in the air from some jobs in their busiest hour, and the fresh air it takes. */
export interface HourLoad {
  readonly parts: readonly LoadPart[];
  readonly litresPerHour: number;
  readonly needM3PerMin: number;
}

export interface LoadPart extends SolventLoad {
  readonly job: Job;
  readonly rate: PaintRate;
  /** Fresh air for each litre of this solvent, m³. */
  readonly airM3PerL: number;
  readonly needM3PerMin: number;
}

export interface CoatingVapour extends HourLoad {
  readonly name: string;
  /** False: there is no sheet, so nothing can be worked out. */
  readonly known: boolean;
}

export interface DayVapour {
  readonly coatings: readonly CoatingVapour[];
  /** All rigs together in their busiest hour; null when it cannot be worked out. */
  readonly load: HourLoad | null;
  /** Air blown through as posted, m³/min; null: not given, which counts as none. */
  readonly haveM3PerMin: number | null;
  readonly spaceM3: number | null;
  /** Litres of evaporated solvent that take this space to the fraction without air; null: its size is not given. */
  readonly fillL: number | null;
  /** The solvent of which the fewest litres do that. */
  readonly filler: SolventVapour;
  readonly fillerBasis: 'sheet' | 'worst';
  readonly fractionPct: number;
  readonly place: VapourPlace & { readonly c: number; readonly pressureHPa: number };
}

/** Litres of solvent an hour that today's paint and thinner give off at the busiest; null: not known, or none that burns. */
export function solventLoadLPerHour(day: Day): number | null {
  return dayVapour(day)?.load?.litresPerHour ?? null;
}

/**
 * Everything about vapour that follows from the posted day; null when nothing that can burn is used. Whether the place is
 * in the open is not asked here.
 * @throws TradeRefusal when a figure of the day or a sheet cannot be right.
 */
export function dayVapour(day: Day): DayVapour | null {
  const burning = usedCoatings(day).filter((used) => flammableOf(used) !== null);
  if (burning.length === 0) return null;
  const place = placeOf(day);
  const coatings = burning.map(({ name, sheet, jobs }) => ({
    name,
    known: sheet !== null,
    ...hourLoad(day, jobs, place),
  }));
  const all = hourLoad(
    day,
    burning.flatMap(({ jobs }) => jobs),
    place,
  );
  // Nothing to count although something burns: only the flush solvent does, and how much of it nobody knows.
  const known = all.parts.length > 0 && coatings.every((coating) => coating.known);
  const fractionPct = day.policy.lelFractionPct;
  const worst = worstCommonSolvent();
  const filler = worstOf(
    burning.flatMap((used) => solventsOf(used, worst)),
    place,
  );
  const { space } = day.entry;
  const fill = space && { ...place, solvent: filler, spaceM3: space.volumeM3, fractionPct };
  return {
    coatings,
    load: known ? all : null,
    haveM3PerMin: space?.airM3PerMin ?? null,
    spaceM3: space?.volumeM3 ?? null,
    fillL: fill ? litresToLelFraction(fill) : null,
    filler,
    fillerBasis: filler === worst ? 'worst' : 'sheet',
    fractionPct,
    place,
  };
}

/** The warmest air expected: warm vapour takes the most room. */
function placeOf(day: Day): DayVapour['place'] {
  return { c: warmestAirC(day), pressureHPa: pressureAtHPa(day.site.altitudeM) };
}

interface SheetedJob {
  readonly job: Job;
  readonly sheet: CoatingSheet;
}

/** All rigs spray at once, each at its busiest: its busiest hour by the tips, or the mean of the day where that is more. */
function hourLoad(day: Day, jobs: readonly Job[], place: VapourPlace): HourLoad {
  const sheeted = jobs.flatMap((job): readonly SheetedJob[] => {
    const sheet = day.coatings[job.coating];
    return sheet ? [{ job, sheet }] : [];
  });
  const rigs = [...new Set(sheeted.map(({ job }) => job.rig))];
  const parts = rigs.flatMap((rig) => {
    const own = sheeted.filter(({ job }) => job.rig === rig);
    const mean = own.flatMap((one) => meanParts(day, one, place));
    const busiest = busiestHour(day, own, place);
    return airOf(mean) > airOf(busiest) ? mean : busiest;
  });
  const litresPerHour = parts.reduce((sum, part) => sum + part.litresPerHour, 0);
  return { parts, litresPerHour, needM3PerMin: airOf(parts) };
}

/**
 * One hour of a rig filled with the jobs that need most air while they are sprayed, one after the other: small jobs can
 * all fall into the same hour. Jobs without a known tip come on top with their mean.
 */
function busiestHour(day: Day, jobs: readonly SheetedJob[], place: VapourPlace): readonly LoadPart[] {
  const full = jobs.flatMap(({ job, sheet }) => {
    const tip = tipHour(day, job, sheet);
    if (!tip) return [];
    const at = (litresPerHour: number) => partsOf(day, job, sheet, { litresPerHour, by: 'tip' }, place);
    return [{ ...tip, at, air: airOf(at(tip.litresPerHour)) }];
  });
  const parts: LoadPart[] = [];
  let left = 1;
  for (const { at, litresPerHour, hours } of full.sort((x, y) => y.air - x.air)) {
    const share = Math.min(left, hours);
    left -= share;
    if (share > 0) parts.push(...at(litresPerHour * share));
  }
  const untold = jobs.filter(({ job, sheet }) => tipHour(day, job, sheet) === null);
  return [...parts, ...untold.flatMap((one) => meanParts(day, one, place))];
}

const meanParts = (day: Day, { job, sheet }: SheetedJob, place: VapourPlace): readonly LoadPart[] =>
  partsOf(day, job, sheet, meanRate(day, job, sheet), place);

function partsOf(
  day: Day,
  job: Job,
  sheet: CoatingSheet,
  rate: PaintRate,
  place: VapourPlace,
): readonly LoadPart[] {
  return loadsOf(job, sheet, rate).map((load) => {
    const asked = { ...place, solvent: load.solvent, fractionPct: day.policy.lelFractionPct };
    const airM3PerL = dilutionAirM3PerL(asked).neededM3;
    return { ...load, job, rate, airM3PerL, needM3PerMin: airM3PerMin(airM3PerL, load.litresPerHour) };
  });
}

/** Air for several vapours adds up, because their shares of their own limits do (Le Chatelier's rule). */
const airOf = (parts: readonly LoadPart[]): number =>
  parts.reduce((sum, { needM3PerMin }) => sum + needM3PerMin, 0);

/** What may evaporate of a coating in use: its own solvent, thinner and flush solvent, the worst common one for unknowns. */
function solventsOf(used: UsedCoating, worst: SolventVapour): readonly SolventVapour[] {
  const { sheet } = used;
  if (!sheet) return [worst];
  const { vapour } = sheet;
  const thinned = isThinned(used) && thinnerBurns(sheet);
  return [
    ...(paintBurns(sheet) === null ? [] : [vapour?.paint ?? worst]),
    ...(thinned ? [vapour?.thinner ?? worst] : []),
    ...(flushBurns(sheet) ? [vapour?.flush ?? worst] : []),
  ];
}

/** The solvent that needs the most air a litre, which is the one that fills a space with the fewest litres. */
function worstOf(solvents: readonly SolventVapour[], place: VapourPlace): SolventVapour {
  const fill = (solvent: SolventVapour) =>
    litresToLelFraction({ ...place, solvent, spaceM3: 1, fractionPct: 100 });
  return solvents.reduce((worst, one) => (fill(one) < fill(worst) ? one : worst));
}
