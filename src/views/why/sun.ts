import { tenth } from '../../facts/round.ts';
import { rigName } from '../../flow/rig-update.ts';
import { estimatedC, openStand } from '../../flow/standing.ts';
import { MINUTE } from '../../model/time.ts';
import {
  absorptanceOf,
  CLEAR_SKY_W_PER_M2,
  FILM_W_PER_M2K,
  hoseSolAirC,
  hoseTimeConstantMinutes,
  stalledHoseC,
} from '../../trade/sun.ts';
import { at, type View } from '../context.ts';
import { decimals } from './figures.ts';
import type { WhyItem } from './item.ts';

/** A hose counted warm because it stood in the sun: what that estimate is made of. */
export function sunItems(view: View, rig: string): readonly WhyItem[] {
  const { shift, texts, now } = view;
  const line = shift.rigs[rig]?.line;
  const c = line ? estimatedC(line, now) : null;
  const stand = line && (openStand(line) ?? line.sun?.at(-1));
  if (!stand || c === null) return [];
  const minutes = (Math.max(stand.from, Math.min(now, stand.until ?? now)) - stand.from) / MINUTE;
  const name = rigName(shift, rig);
  return [
    {
      topic: 'hose-in-sun',
      about: name,
      result: texts.say('why.sun.result', { rig: name, c: Math.ceil(c) }),
      inputs: [
        [
          texts.say('why.in.stood'),
          texts.say('why.v.from', { time: at(view, stand.from), c: tenth(stand.startC) }),
        ],
        [texts.say('why.in.air-warmest'), texts.say('why.v.celsius', { c: tenth(stand.airC) })],
        [texts.say('why.in.hose-colour'), texts.say('why.v.colour', { colour: stand.colour })],
        [texts.say('why.in.bore-thinnest'), texts.say('why.v.mm', { n: stand.boreMm })],
      ],
      formula: texts.say('why.sun.formula', {
        air: tenth(stand.airC),
        absorptance: absorptanceOf(stand.colour),
        sun: CLEAR_SKY_W_PER_M2,
        film: FILM_W_PER_M2K,
        towards: tenth(hoseSolAirC(stand.airC, stand.colour)),
        start: tenth(stand.startC),
        minutes: decimals(minutes, 1),
        tau: decimals(hoseTimeConstantMinutes(stand.boreMm), 1),
        c: tenth(stalledHoseC({ ...stand, minutes })),
      }),
      source: texts.say('why.sun.source'),
    },
  ];
}
