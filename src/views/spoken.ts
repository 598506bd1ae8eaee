import type { Params } from '../briefing/caution.ts';
import { inWeekdays } from '../model/time.ts';
import type { Texts } from '../texts/texts.ts';

/** What a caution is filled with, for one reader: a briefing keeps times with their date in no language at all. */
export function spoken(params: Params, { locale }: Pick<Texts, 'locale'>): Params {
  return Object.fromEntries(
    Object.entries(params).map(([name, value]) => [
      name,
      typeof value === 'string' ? inWeekdays(value, locale) : value,
    ]),
  );
}
