import type { CautionRule } from '../rule.ts';
import { breathing } from './breathing.ts';
import { cold } from './cold.ts';
import { confinedSpace } from './confined-space.ts';
import { earthing } from './earthing.ts';
import { firstResponse } from './first-response.ts';
import { flush } from './flush.ts';
import { gunInspection } from './gun-inspection.ts';
import { heatForPeople } from './heat-for-people.ts';
import { hoseAndFittings } from './hose-and-fittings.ts';
import { ignition } from './ignition.ts';
import { injection } from './injection.ts';
import { leftoverPaint } from './leftover-paint.ts';
import { missedSteps } from './missed-steps.ts';
import { mixing } from './mixing.ts';
import { newToday } from './new-today.ts';
import { notKnown } from './not-known.ts';
import { openConcerns } from './open-concerns.ts';
import { potLife } from './pot-life.ts';
import { pressureRelief } from './pressure-relief.ts';
import { recoatWindow } from './recoat-window.ts';
import { rigTagged } from './rig-tagged.ts';
import { skinAndEyes } from './skin-and-eyes.ts';
import { solventCarryOver } from './solvent-carry-over.ts';
import { suctionAndSiphon } from './suction-and-siphon.ts';
import { surfaceTime } from './surface-time.ts';
import { tipAndFilters } from './tip-and-filters.ts';
import { unflushedLine } from './unflushed-line.ts';
import { vapour } from './vapour.ts';
import { washPot } from './wash-pot.ts';
import { waste } from './waste.ts';
import { weather } from './weather.ts';
import { wind } from './wind.ts';

/**
 * Every caution, in the order of what kills first; inside a grade the briefing keeps this order. A confined space comes
 * before the gun because it kills several at once. The fault in today's line comes before the general habits.
 */
export const cautionRules: readonly CautionRule[] = [
  // stop
  confinedSpace,
  injection,
  rigTagged,
  hoseAndFittings,
  unflushedLine,
  pressureRelief,
  ignition,
  vapour,
  earthing,
  breathing,
  // must
  firstResponse,
  gunInspection,
  newToday,
  notKnown,
  heatForPeople,
  openConcerns,
  missedSteps,
  skinAndEyes,
  leftoverPaint,
  potLife,
  mixing,
  flush,
  wind,
  weather,
  surfaceTime,
  recoatWindow,
  // watch
  cold,
  washPot,
  suctionAndSiphon,
  solventCarryOver,
  tipAndFilters,
  waste,
];
