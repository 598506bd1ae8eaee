import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { Day } from '../model/day.ts';
import type { Rig } from '../model/rig.ts';
import type { Instant } from '../model/time.ts';
import { assessClimate, type LimitFailure } from '../trade/climate.ts';
import type { TemperatureStep } from '../trade/dose.ts';
import type { WarmingHose } from '../trade/plan/types.ts';
import { hoseSolAirC, hoseTimeConstantMinutes } from '../trade/sun.ts';
import { BEYOND, expectedWeather } from './forecast.ts';
import { strictestLimits } from './limits.ts';

/** A part of the day in which the forecast misses what a coating needs, with every limit it misses. */
export interface WeatherGap {
  readonly from: Instant;
  readonly to: Instant;
  readonly failures: readonly LimitFailure[];
}

export interface PaintTemperatures {
  /** In the pot, from the warm side: in sun a pot is counted as warm as the steel it stands on. */
  readonly paintC: readonly TemperatureStep[];
  /** In the pot, from the cold side: the air. */
  readonly coldC: readonly TemperatureStep[];
  /** A hose that stands still: in sun it warms as `src/trade/sun.ts` has it, the thinnest section first. */
  readonly hose: WarmingHose;
}

export function paintTemperatures(day: Day, rig: Rig): PaintTemperatures {
  const { sun } = day.entry.weather;
  const steps = expectedWeather(day);
  return {
    coldC: steps.map(({ at, airC }) => ({ at, c: airC })),
    paintC: steps.map(({ at, airC, steelC }) => ({ at, c: sun ? Math.max(airC, steelC) : airC })),
    hose: {
      towardsC: steps.map(({ at, airC }) => ({ at, c: sun ? hoseSolAirC(airC, rig.hoseColour) : airC })),
      timeConstantMinutes: hoseTimeConstantMinutes(Math.min(...rig.hoses.map(({ boreMm }) => boreMm))),
    },
  };
}

/** When the forecast misses the stricter of the site's and the sheet's limits, in the shift and some hours around it. */
export function weatherGaps(day: Day, sheet: CoatingSheet): readonly WeatherGap[] {
  const steps = expectedWeather(day);
  const limits = strictestLimits(day, sheet);
  const gaps: WeatherGap[] = [];
  steps.forEach((step, i) => {
    const { failures } = assessClimate(step, limits);
    if (failures.length === 0) return;
    const to = steps[i + 1]?.at ?? day.endsAt + BEYOND;
    const last = gaps.at(-1);
    if (last && last.to === step.at)
      gaps[gaps.length - 1] = { ...last, to, failures: worse(last.failures, failures) };
    else if (to > step.at) gaps.push({ from: step.at, to, failures });
  });
  return gaps;
}

/** One line for each limit, with the value that misses it most. */
function worse(known: readonly LimitFailure[], more: readonly LimitFailure[]): readonly LimitFailure[] {
  const by = ({ value, allowed }: LimitFailure) => Math.abs(value - allowed);
  const all = [...known, ...more].sort((x, y) => by(y) - by(x));
  return all.filter((one, i) => all.findIndex(({ limit }) => limit === one.limit) === i);
}
