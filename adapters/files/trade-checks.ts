import { flushPlan } from '../../src/trade/flush.ts';
import { inductionMinutes } from '../../src/trade/induction.ts';
import { lowestRating } from '../../src/trade/line.ts';
import { checkedPotLife } from '../../src/trade/pot-life.ts';
import { recoatTable } from '../../src/trade/recoat.ts';
import { TradeRefusal } from '../../src/trade/refusal.ts';
import { type Entry, problemAt } from './check-entry.ts';
import type { PackProblem } from './problem.ts';

/** A sheet that reads well but that the arithmetic refuses must be found now, not at the mixing bench. */
export function coatingArithmetic(entry: Entry<'coatings'>): readonly PackProblem[] {
  const sheet = entry.value;
  if (!sheet) return [];
  const { potLife, induction, recoat } = sheet;
  return [
    ...(potLife ? tried(entry, 'potLife', () => checkedPotLife(potLife)) : []),
    ...tried(entry, 'recoat', () => recoatTable(recoat)),
    ...(induction.length > 0 ? tried(entry, 'induction', () => inductionMinutes(induction, 20)) : []),
  ];
}

/** The same for a rig: its weakest part and its flush, with any policy. */
export function rigArithmetic(entry: Entry<'rigs'>): readonly PackProblem[] {
  const rig = entry.value;
  if (!rig) return [];
  const plan = () =>
    flushPlan({
      hoses: rig.hoses,
      pumpAndFilterL: rig.pumpAndFilterLitres,
      drainLineL: rig.drainLineLitres,
      litresPerCycle: rig.litresPerCycle,
      cyclesPerMinute: rig.flushCyclesPerMinute,
      lineVolumesPrimary: 1,
      lineVolumesSecondary: 1,
      fixedMinutes: 1,
    });
  return [
    ...(rig.ratings.length > 0 ? tried(entry, 'ratings', () => lowestRating(rig.ratings)) : []),
    ...tried(entry, 'hoses', plan),
  ];
}

function tried(
  entry: Entry<'coatings'> | Entry<'rigs'>,
  field: string,
  arithmetic: () => unknown,
): readonly PackProblem[] {
  try {
    arithmetic();
    return [];
  } catch (error) {
    if (!(error instanceof TradeRefusal)) throw error;
    const message = `${String(error.value)} cannot be right here: it must be ${error.valid}`;
    const write = `${error.why.charAt(0).toLowerCase()}${error.why.slice(1).replace(/\.$/, '')}`;
    return [problemAt(entry, [field], message, write)];
  }
}
