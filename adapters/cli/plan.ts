import { plainText } from '../../src/message/plain-text.ts';
import type { DayEntry } from '../../src/model/day-entry.ts';
import type { SitePack } from '../../src/model/site.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import { planMessage } from '../../src/views/plan.ts';
import { briefDay } from './brief.ts';
import { planJson } from './plan-json.ts';
import type { PlanJson } from './plan-schema.ts';

/** The plan of a day file, as people read it and as programs do; no server, nothing stored, nothing carried in. */
export function planDay(
  pack: SitePack,
  entry: DayEntry,
  textsFor: TextsFor,
): { readonly text: string; readonly json: PlanJson } {
  const { shift } = briefDay(pack, entry, textsFor);
  const texts = textsFor(pack.site.language);
  return {
    text: plainText(planMessage({ shift, texts, now: shift.day.startsAt })),
    json: planJson(shift.day, shift.carriedIn),
  };
}
