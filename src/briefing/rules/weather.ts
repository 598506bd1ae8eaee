import { strictestLimits } from '../../facts/limits.ts';
import { tenth, tenthDown, whole } from '../../facts/round.ts';
import { selectKey, type UsedCoating, usedCoatings } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import { assessClimate, type ClimateReading, type LimitName } from '../../trade/climate.ts';
import { type Because, becauseCoating, becauseDay, becauseSite, distinct } from '../because.ts';
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
  tasks: ['spraying'],
  params: ['airC', 'rhPct', 'dewC', 'steel', 'steelC', 'marginC'],
  eachParams: ['coating', 'state', 'limit', 'value', 'allowed'],
  questions: [
    { id: 'which-surface', choices: 3 },
    { id: 'margin-lost', choices: 3 },
  ],
  find({ day }) {
    const reading = expected(day);
    const found = usedCoatings(day).flatMap((used) => limitsOf(day, used, reading));
    if (found.length === 0) return null;
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
      each: found.map(({ row }) => row),
      because: distinct(found.flatMap(({ because }) => because)),
    };
  },
};

/** Steel nobody has named is taken at air temperature, and the words say so: at night and in shade it is often colder. */
function expected({ entry }: Day): ClimateReading {
  const { airC, rhPct, steelC } = entry.weather;
  return { airC, rhPct, steelC: steelC ?? airC };
}

interface Limited {
  readonly row: Params;
  readonly because: readonly Because[];
}

function limitsOf(day: Day, used: UsedCoating, reading: ClimateReading): readonly Limited[] {
  const { name, sheet } = used;
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
    return [
      {
        row: { coating: name, state, limit: selectKey(limit), value, allowed: tenth(allowed) },
        because: [...readFrom(day, limit), limitFrom(day, used, limit)],
      },
    ];
  });
}

/** Which figures of the posted weather come near the limit. Steel that nobody gave is one of them. */
function readFrom({ entry }: Day, limit: LimitName): readonly Because[] {
  const { airC, rhPct, steelC } = entry.weather;
  const air = becauseDay('weather.airC', airC);
  const steel = [becauseDay('weather.steelC', steelC), ...(steelC === undefined ? [air] : [])];
  switch (limit) {
    case 'margin':
      return [...steel, becauseDay('weather.rhPct', rhPct)];
    case 'rh-max':
    case 'rh-min':
      return [becauseDay('weather.rhPct', rhPct)];
    case 'steel-min':
    case 'steel-max':
      return steel;
    case 'air-min':
    case 'air-max':
      return [air];
  }
}

const fieldOf = {
  margin: 'marginMinC',
  'rh-max': 'rhMaxPct',
  'rh-min': 'rhMinPct',
  'steel-min': 'steelMinC',
  'steel-max': 'steelMaxC',
  'air-min': 'airMinC',
  'air-max': 'airMaxC',
} as const;

/** The sheet's limit where it is the stricter one, else the site's. */
function limitFrom(day: Day, { name, sheet }: UsedCoating, limit: LimitName): Because {
  const field = fieldOf[limit];
  const own = sheet?.limits[field];
  if (own !== undefined && own === strictestLimits(day, sheet)[field])
    return becauseCoating(name, `limits.${field}`, own);
  return field === 'marginMinC' || field === 'rhMaxPct'
    ? becauseSite(`policy.${field}`, day.policy[field])
    : becauseCoating(name, `limits.${field}`, own);
}
