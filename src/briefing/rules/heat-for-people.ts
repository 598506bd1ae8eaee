import { expectedField, hottestAir, warmestAirC } from '../../facts/expected-air.ts';
import { tenth, tenthDown, tenthUp, UNREAD, whole, wholeUp } from '../../facts/round.ts';
import { placeKey, selectKey } from '../../facts/used.ts';
import type { Day } from '../../model/day.ts';
import { type FeltHeat, heatBandOf, SUN_ADDS_C } from '../../trade/heat.ts';
import { assessWbgt, COVERALLS_ADD_C } from '../../trade/wbgt.ts';
import { type Because, becauseDay, becauseSite } from '../because.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/** From this air temperature a spray suit makes heat illness likely, however dry the air. */
const HOT_FROM_C = 27;

const unread: Params = {
  c: UNREAD,
  sunC: UNREAD,
  band: UNREAD,
  suit: UNREAD,
  wornC: UNREAD,
  usedC: UNREAD,
  newC: UNREAD,
};

/**
 * Suit, hood and closed places keep the heat in. Heat stroke kills. Said for warm air, for a heat index in its first band
 * in shade, and for an expected WBGT that reaches a limit in today's coveralls: the hottest part of the shift counts.
 */
export const heatForPeople: CautionRule = {
  id: 'heat-for-people',
  grade: 'must',
  tasks: 'everybody',
  params: ['airC', 'place', 'sun', 'call'],
  eachParams: ['what', ...Object.keys(unread)],
  questions: [
    { id: 'confused', choices: 3 },
    { id: 'drinking', choices: 3 },
  ],
  find({ day }) {
    const airC = warmestAirC(day);
    const { felt } = hottestAir(day);
    const because = [...airIsHot(day, airC), ...wbgtIsHigh(day)];
    if (because.length === 0) return null;
    const { sun } = day.entry.weather;
    return {
      params: {
        airC: tenth(airC),
        place: placeKey(day),
        sun: sun ? 'yes' : 'no',
        call: day.emergency.call,
      },
      each: [...indexRow(felt, sun), ...suitRow(day)],
      because,
    };
  },
};

/** The band is that of full sun when sun is expected: people do not stay in the shade the chart is for. */
function indexRow(felt: FeltHeat, sun: boolean): readonly Params[] {
  if (felt.kind === 'cool') return [];
  if (felt.kind === 'off-chart') return [{ ...unread, what: 'off_chart' }];
  const worstC = felt.indexC + (sun ? SUN_ADDS_C : 0);
  const band = heatBandOf(worstC);
  const c = wholeUp(felt.indexC);
  if (band === null) return [{ ...unread, what: 'low', c }];
  const shown = { ...unread, c, band: selectKey(band) };
  return [sun ? { ...shown, what: 'index_sun', sunC: wholeUp(worstC) } : { ...shown, what: 'index' }];
}

/** What the coveralls do to the expected WBGT, or on their own when nobody gave one. */
function suitRow({ entry, policy }: Day): readonly Params[] {
  const { wbgtC } = entry.weather;
  const { coveralls } = policy;
  const adds = COVERALLS_ADD_C[coveralls];
  const suit = adds > 0 ? selectKey(coveralls) : UNREAD;
  if (wbgtC === undefined) return adds > 0 ? [{ ...unread, what: 'suit', suit, c: whole(adds) }] : [];
  const { wornC, usedC, newC } = assessWbgt(wbgtC, coveralls, policy.workW);
  const limits = { usedC: tenthDown(usedC), newC: tenthDown(newC) };
  const measured = { ...unread, ...limits, c: tenthUp(wbgtC) };
  return [
    adds > 0
      ? { ...measured, what: 'wbgt_suit', suit, wornC: tenthUp(wornC) }
      : { ...measured, what: 'wbgt' },
  ];
}

/** Warm air is reason enough; cooler air is one with the humidity that puts it into the first band. */
function airIsHot(day: Day, warmestC: number): readonly Because[] {
  if (warmestC >= HOT_FROM_C) return [expected(day, 'airC', warmestC)];
  const { felt, airC, rhPct } = hottestAir(day);
  if (felt.kind === 'cool' || felt.band === null) return [];
  return [expected(day, 'airC', airC), expected(day, 'rhPct', rhPct)];
}

function expected(day: Day, field: 'airC' | 'rhPct', value: number): Because {
  return becauseDay(expectedField(day, field, value), value);
}

function wbgtIsHigh({ entry, policy }: Day): readonly Because[] {
  const { wbgtC } = entry.weather;
  const { coveralls, workW } = policy;
  if (wbgtC === undefined || assessWbgt(wbgtC, coveralls, workW).state === 'under') return [];
  return [
    becauseDay('weather.wbgtC', wbgtC),
    becauseSite('policy.coveralls', coveralls),
    becauseSite('policy.workW', workW),
  ];
}
