import { warmestSurfaceC } from '../../facts/expected-air.ts';
import {
  type Flammable,
  flammableCodes,
  flammableOf,
  lowestFlashC,
  nearestFlashC,
} from '../../facts/hazards.ts';
import { tenth, UNREAD } from '../../facts/round.ts';
import { placeKey, type UsedCoating, usedCoatings } from '../../facts/used.ts';
import { burns } from '../causes.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/** A solvent mixture can give off enough vapour to burn a good way below its flash point (from memory). */
const NEAR_FLASH_C = 15;

/** What can burn today, and whether it is warm enough for the vapour to catch at once. */
export const ignition: CautionRule = {
  id: 'ignition',
  grade: 'stop',
  tasks: 'everybody',
  params: ['place', 'warm', 'assembly'],
  eachParams: ['coating', 'basis', 'flash', 'codes', 'solvent', 'flush', 'flushC'],
  questions: [
    { id: 'grinder', choices: 3 },
    { id: 'phone', choices: 3 },
  ],
  find({ day }) {
    const warmest = warmestSurfaceC(day);
    const burning = usedCoatings(day).flatMap((used) => {
      const basis = flammableOf(used);
      return basis ? [{ used, basis }] : [];
    });
    if (burning.length === 0) return null;
    const warm = burning.some(({ used }) => (nearestFlashC(used) ?? warmest) - NEAR_FLASH_C <= warmest);
    return {
      params: { place: placeKey(day), warm: warm ? 'yes' : 'no', assembly: day.emergency.assembly },
      each: burning.map(({ used, basis }) => row(used, basis)),
      because: burning.flatMap(({ used }) => burns(used)),
    };
  },
};

function row(used: UsedCoating, basis: Flammable): Params {
  const { name, sheet } = used;
  const flush = sheet?.flushFlashPointC;
  return {
    coating: name,
    basis,
    flash: basis === 'flash' || basis === 'thinned' ? tenth(lowestFlashC(used) ?? 0) : UNREAD,
    codes: basis === 'code' ? flammableCodes(sheet) : UNREAD,
    solvent: sheet?.flushSolvent ?? UNREAD,
    flush: flush === undefined ? 'unknown' : 'known',
    flushC: flush === undefined ? UNREAD : tenth(flush),
  };
}
