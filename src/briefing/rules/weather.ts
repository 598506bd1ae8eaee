import { type ExpectedSpell, expectedAir, expectedField } from '../../facts/expected-air.ts';
import { strictestLimits } from '../../facts/limits.ts';
import { tenth, tenthDown, tenthUp, UNREAD } from '../../facts/round.ts';
import { selectKey, type UsedCoating, usedCoatings } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import { clockTimeOn } from '../../model/time.ts';
import { assessClimate, type ClimateLimits, type LimitName } from '../../trade/climate.ts';
import { type Because, becauseCoating, becauseDay, becauseSite, distinct } from '../because.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/** How near to a limit the forecast may come before it is said: °C for temperatures and margin, per cent for humidity. */
const NEAR_C = 2;
const NEAR_PCT = 5;

/**
 * Air and steel of every part of the shift, posted and forecast, against the stricter of policy and sheet. Said when a limit
 * is missed or nearly so; missed, it says not to mix and is never folded away. A forecast decides nothing: the reading on the
 * steel does.
 */
export const weather: CautionRule = {
  id: 'weather',
  grade: 'must',
  tasks: ['spraying'],
  params: ['when', 'at', 'airC', 'rhPct', 'dewC', 'steel', 'steelC', 'marginC'],
  eachParams: ['coating', 'state', 'limit', 'value', 'allowed', 'when', 'at'],
  questions: [
    { id: 'which-surface', choices: 3 },
    { id: 'margin-lost', choices: 3 },
  ],
  find({ day }) {
    const found = usedCoatings(day).flatMap((used) => limitsOf(day, used));
    if (found.length === 0) return null;
    const { spell, dewPointC, marginC } = leastMargin(day);
    return {
      ...(found.some(({ row }) => row.state === 'missed') && { unfolded: true }),
      params: {
        ...whenOf(day, spell),
        airC: tenth(spell.airC),
        rhPct: tenth(spell.rhPct),
        dewC: tenth(dewPointC),
        steel: spell.steelGiven ? 'given' : 'taken',
        steelC: tenth(spell.steelC),
        marginC: tenthDown(marginC),
      },
      each: found.map(({ row }) => row),
      because: distinct(found.flatMap(({ because }) => because)),
    };
  },
};

/** The part of the shift in which dew is nearest, the earlier of two. */
function leastMargin(day: Day) {
  const [first, ...later] = expectedAir(day);
  const at = (spell: ExpectedSpell) => ({ spell, ...assessClimate(spell, { marginMinC: 0, rhMaxPct: 100 }) });
  return later.map(at).reduce((one, other) => (other.marginC < one.marginC ? other : one), at(first));
}

/** `now`: from the start of the shift on. */
function whenOf(day: Day, { from }: ExpectedSpell): Params {
  return from > day.startsAt
    ? { when: 'later', at: clockTimeOn(from, day.site.timeZone, day.entry.date) }
    : { when: 'now', at: UNREAD };
}

interface Limited {
  readonly row: Params;
  readonly because: readonly Because[];
}

interface Check {
  readonly limit: LimitName;
  readonly field: keyof ClimateLimits;
  /** Whether the limit is a highest value; else it is a lowest one. */
  readonly most: boolean;
  readonly near: number;
}

const checks: readonly Check[] = [
  { limit: 'margin', field: 'marginMinC', most: false, near: NEAR_C },
  { limit: 'rh-max', field: 'rhMaxPct', most: true, near: NEAR_PCT },
  { limit: 'rh-min', field: 'rhMinPct', most: false, near: NEAR_PCT },
  { limit: 'steel-min', field: 'steelMinC', most: false, near: NEAR_C },
  { limit: 'steel-max', field: 'steelMaxC', most: true, near: NEAR_C },
  { limit: 'air-min', field: 'airMinC', most: false, near: NEAR_C },
  { limit: 'air-max', field: 'airMaxC', most: true, near: NEAR_C },
];

/** The worst value of the shift for each limit, and from when on the limit is missed or near. */
function limitsOf(day: Day, used: UsedCoating): readonly Limited[] {
  const limits = strictestLimits(day, used.sheet);
  const spells = expectedAir(day).map((spell) => ({ spell, ...assessClimate(spell, limits) }));
  return checks.flatMap((check) => {
    const limit = limits[check.field];
    if (limit === undefined) return [];
    // Compared as they are shown, each rounded to the side that warns: nothing is "not met" by a figure that meets it.
    const allowed = check.most ? tenthDown(limit) : tenthUp(limit);
    const rated = spells.map(({ spell, marginC }) => {
      const read = readingOf(check.limit, spell, marginC);
      const value = check.most ? tenthUp(read) : tenthDown(read);
      return { spell, value, over: check.most ? value - allowed : allowed - value };
    });
    const over = Math.max(...rated.map((one) => one.over));
    if (over <= -check.near) return [];
    const missed = over > 0;
    const worst = rated.find((one) => one.over === over);
    const first = rated.find((one) => (missed ? one.over > 0 : one.over > -check.near));
    if (!worst || !first) return [];
    const state = missed ? 'missed' : 'near';
    const { value } = worst;
    return [
      {
        row: {
          coating: used.name,
          state,
          limit: selectKey(check.limit),
          value,
          allowed,
          ...whenOf(day, first.spell),
        },
        because: [...readFrom(day, worst.spell, check.limit), limitFrom(day, used, check)],
      },
    ];
  });
}

function readingOf(limit: LimitName, { airC, rhPct, steelC }: ExpectedSpell, marginC: number): number {
  switch (limit) {
    case 'margin':
      return marginC;
    case 'rh-max':
    case 'rh-min':
      return rhPct;
    case 'steel-min':
    case 'steel-max':
      return steelC;
    case 'air-min':
    case 'air-max':
      return airC;
  }
}

/** Which figures of the posted weather or the forecast come near the limit. Steel that nobody gave is one of them. */
function readFrom(day: Day, spell: ExpectedSpell, limit: LimitName): readonly Because[] {
  const { airC, rhPct, steelC, steelGiven } = spell;
  const air = becauseDay(expectedField(day, 'airC', airC), airC);
  const humidity = becauseDay(expectedField(day, 'rhPct', rhPct), rhPct);
  const steel = steelGiven
    ? [becauseDay(expectedField(day, 'steelC', steelC), steelC)]
    : [becauseDay(spell.posted ? 'weather.steelC' : 'forecast.steelC', null), air];
  switch (limit) {
    case 'margin':
      return [...steel, humidity];
    case 'rh-max':
    case 'rh-min':
      return [humidity];
    case 'steel-min':
    case 'steel-max':
      return steel;
    case 'air-min':
    case 'air-max':
      return [air];
  }
}

/** The sheet's limit where it is the stricter one, else the site's. */
function limitFrom(day: Day, { name, sheet }: UsedCoating, { field }: Check): Because {
  const own = sheet?.limits[field];
  if (own !== undefined && own === strictestLimits(day, sheet)[field])
    return becauseCoating(name, `limits.${field}`, own);
  return field === 'marginMinC' || field === 'rhMaxPct'
    ? becauseSite(`policy.${field}`, day.policy[field])
    : becauseCoating(name, `limits.${field}`, own);
}
