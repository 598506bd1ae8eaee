import { airUp, tenthDown, tenthUp, UNREAD } from '../../facts/round.ts';
import { placeKey, usedCoatings } from '../../facts/used.ts';
import { type CoatingVapour, type DayVapour, dayVapour } from '../../facts/vapour.ts';
import { becauseDay } from '../because.ts';
import { burns } from '../causes.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/**
 * Solvent in a space with walls: how much comes off, how much air that takes, how little fills the space. An enclosed place
 * is no stop only where the air planned is enough on paper.
 */
export const vapour: CautionRule = {
  id: 'vapour',
  grade: 'stop',
  tasks: 'everybody',
  params: ['load', 'solventL', 'needM3', 'given', 'haveM3', 'size', 'fillL', 'pct'],
  eachParams: ['coating', 'basis', 'solventL', 'needM3', 'rate'],
  questions: [
    { id: 'meter-low', choices: 3 },
    { id: 'where-to-test', choices: 3 },
  ],
  find({ day }) {
    const place = placeKey(day);
    if (place === 'open') return null;
    const found = dayVapour(day);
    if (!found) return null;
    const { load, haveM3PerMin, fractionPct } = found;
    const given = givenOf(found);
    return {
      grade: place === 'confined' || given !== 'enough' ? 'stop' : 'must',
      params: {
        load: load ? 'known' : 'unknown',
        solventL: load ? tenthUp(load.litresPerHour) : UNREAD,
        needM3: load ? airUp(load.needM3PerMin) : UNREAD,
        given,
        haveM3: haveM3PerMin === null ? UNREAD : tenthDown(haveM3PerMin),
        ...fillOf(found),
        pct: tenthDown(fractionPct),
      },
      each: found.coatings.map(row),
      because: [becauseDay('surroundings', day.entry.surroundings), ...usedCoatings(day).flatMap(burns)],
    };
  },
};

/**
 * Not given counts as none, but says that somebody should find out; `enough` is so on paper only, by the figures as they are
 * shown.
 */
function givenOf({ haveM3PerMin, load }: DayVapour): 'unknown' | 'none' | 'unmatched' | 'short' | 'enough' {
  if (haveM3PerMin === null) return 'unknown';
  const have = tenthDown(haveM3PerMin);
  if (have === 0) return 'none';
  if (!load) return 'unmatched';
  return have < airUp(load.needM3PerMin) ? 'short' : 'enough';
}

function fillOf({ fillL }: DayVapour): Params {
  if (fillL === null) return { size: 'unknown', fillL: UNREAD };
  const said = tenthDown(fillL);
  return said > 0 ? { size: 'known', fillL: said } : { size: 'tiny', fillL: UNREAD };
}

function row({ name, known, parts, litresPerHour, needM3PerMin }: CoatingVapour): Params {
  const nothing = { coating: name, solventL: UNREAD, needM3: UNREAD, rate: UNREAD };
  if (!known) return { ...nothing, basis: 'unknown' };
  if (parts.length === 0) return { ...nothing, basis: 'flush' };
  return {
    coating: name,
    basis: parts.some((part) => part.basis === 'worst') ? 'worst' : 'sheet',
    solventL: tenthUp(litresPerHour),
    needM3: airUp(needM3PerMin),
    rate: parts.some(({ rate }) => rate.by === 'mean') ? 'mean' : 'tip',
  };
}
