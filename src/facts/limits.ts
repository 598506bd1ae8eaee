import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { Day } from '../model/day.ts';
import type { ClimateLimits } from '../trade/climate.ts';

/** The stricter of the site's policy and the coating sheet, limit by limit. */
export function strictestLimits(day: Day, sheet: CoatingSheet | null): ClimateLimits {
  const own: Partial<CoatingSheet['limits']> = sheet?.limits ?? {};
  return {
    marginMinC: Math.max(day.policy.marginMinC, own.marginMinC ?? 0),
    rhMaxPct: Math.min(day.policy.rhMaxPct, own.rhMaxPct ?? 100),
    rhMinPct: own.rhMinPct,
    steelMinC: own.steelMinC,
    steelMaxC: own.steelMaxC,
    airMinC: own.airMinC,
    airMaxC: own.airMaxC,
  };
}
