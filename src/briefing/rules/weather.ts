import { strictestLimits } from '../../facts/limits.ts';
import { tenth, tenthDown, whole } from '../../facts/round.ts';
import { selectKey, type UsedCoating, usedCoatings } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import { assessClimate, type ClimateReading, type LimitName } from '../../trade/climate.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/** How near to a limit the forecast may come before it is said: °C for temperatures and margin, per cent for humidity. */
const NEAR_C = 2;
const NEAR_PCT = 5;

/**
 * The expected air and steel against the stricter of policy and sheet. Said when a limit is missed or nearly so. A
 * forecast decides nothing: the reading on the steel does.
 */
export const weather: CautionRule = {
  id: 'weather',
  grade: 'must',
  params: ['airC', 'rhPct', 'dewC', 'steel', 'steelC', 'marginC'],
  eachParams: ['coating', 'state', 'limit', 'value', 'allowed'],
  questions: [
    { id: 'which-surface', choices: 3 },
    { id: 'margin-lost', choices: 3 },
  ],
  find({ day }) {
    const reading = expected(day);
    const each = usedCoatings(day).flatMap((used) => rows(day, used, reading));
    if (each.length === 0) return null;
    const { dewPointC, marginC } = assessClimate(reading, { marginMinC: 0, rhMaxPct: 100 });
    return {
      params: {
        airC: tenth(reading.airC),
        rhPct: whole(reading.rhPct),
        dewC: tenth(dewPointC),
        steel: day.entry.weather.steelC === undefined ? 'taken' : 'given',
        steelC: tenth(reading.steelC),
        marginC: tenthDown(marginC),
      },
      each,
    };
  },
};

/** Steel nobody has named is taken at air temperature, and the words say so: at night and in shade it is often colder. */
function expected({ entry }: Day): ClimateReading {
  const { airC, rhPct, steelC } = entry.weather;
  return { airC, rhPct, steelC: steelC ?? airC };
}

function rows(day: Day, { name, sheet }: UsedCoating, reading: ClimateReading): readonly Params[] {
  const limits = strictestLimits(day, sheet);
  const { marginC, failures } = assessClimate(reading, limits);
  const missed = new Set(failures.map(({ limit }) => limit));
  const { airC, rhPct, steelC } = reading;
  const checks: readonly (readonly [LimitName, number, number | undefined, number])[] = [
    ['margin', tenthDown(marginC), limits.marginMinC, NEAR_C],
    ['rh-max', whole(rhPct), limits.rhMaxPct, NEAR_PCT],
    ['rh-min', whole(rhPct), limits.rhMinPct, NEAR_PCT],
    ['steel-min', tenth(steelC), limits.steelMinC, NEAR_C],
    ['steel-max', tenth(steelC), limits.steelMaxC, NEAR_C],
    ['air-min', tenth(airC), limits.airMinC, NEAR_C],
    ['air-max', tenth(airC), limits.airMaxC, NEAR_C],
  ];
  return checks.flatMap(([limit, value, allowed, near]) => {
    if (allowed === undefined) return [];
    if (!missed.has(limit) && Math.abs(value - allowed) >= near) return [];
    const state = missed.has(limit) ? 'missed' : 'near';
    return [{ coating: name, state, limit: selectKey(limit), value, allowed: tenth(allowed) }];
  });
}
