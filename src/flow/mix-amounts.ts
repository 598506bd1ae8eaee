import { litresForRatio, litresForRatioDown, tenth } from '../facts/round.ts';
import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { CommandOf } from '../model/command.ts';
import type { MixFault } from '../trade/mix.ts';
import { checkMix } from '../trade/mix-check.ts';
import { type Refusal, refuse } from './decision.ts';

/** BA3, BA4: full kits by ratio, or a part kit only with both parts measured and the ratio kept; thinner by the sheet. */
export function mixAmounts(
  command: CommandOf<'mix-batch'>,
  sheet: CoatingSheet,
): { readonly aL: number; readonly bL: number } | Refusal {
  const checked = checkMix({
    mixedLitres: command.litres,
    thinnerL: command.thinnerL,
    aL: command.aL,
    bL: command.bL,
    ratio: sheet.parts === 1 ? null : (sheet.mixRatio ?? null),
    kitLitres: sheet.kitLitres,
    thinnerMostPct: sheet.thinner?.maxPercent ?? 0,
  });
  return checked.fault ? refusalOf(checked.fault, command, sheet) : { aL: checked.aL, bL: checked.bL };
}

function refusalOf(fault: MixFault, command: CommandOf<'mix-batch'>, sheet: CoatingSheet): Refusal {
  switch (fault.kind) {
    case 'thinner-over':
      return refuse('refusal.thinner-over-sheet', {
        coating: sheet.name,
        percent: tenth(fault.foundPct),
        most: fault.mostPct,
      });
    case 'one-part-missing':
      return refuse('refusal.both-parts');
    case 'off-ratio':
      return refuse('refusal.off-ratio', {
        ratio: `${sheet.mixRatio?.a ?? '?'}:${sheet.mixRatio?.b ?? '?'}`,
        a: command.aL ?? 0,
        b: command.bL ?? 0,
        needed: litresForRatio(fault.neededBL),
        error: tenth(Math.abs(fault.hardenerErrorPct)),
        way: fault.hardenerErrorPct < 0 ? 'short' : 'over',
      });
    case 'parts-do-not-add':
      return refuse('refusal.parts-do-not-add', {
        parts: litresForRatio(fault.partsL),
        litres: fault.mixedL,
      });
    case 'part-kit':
      return refuse('refusal.part-kit', {
        litres: command.litres,
        kit: sheet.kitLitres ?? 0,
        coating: sheet.name,
        below: fault.below?.count ?? 0,
        belowL: litresForRatioDown(fault.below?.litres ?? 0),
        above: fault.above.count,
        aboveL: litresForRatio(fault.above.litres),
      });
  }
}
