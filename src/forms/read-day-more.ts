import type { DayEntry, Job } from '../model/day-entry.ts';
import { dayTimeSchema } from '../model/time.ts';
import type { Texts } from '../texts/texts.ts';
import type { FieldReader } from './field.ts';

/** The folded fields of a job; an empty one is left out, so that the site's or the sheet's figure holds. */
export function readMoreOfJob(
  reader: FieldReader,
  at: string,
  texts: Texts,
): Pick<Job, 'lossPct' | 'profileUm' | 'liftM' | 'tip' | 'preparedAt'> {
  const lossPct = reader.optionalNumber(`${at}.lossPct`, 30);
  const profileUm = reader.optionalNumber(`${at}.profileUm`, 20);
  const liftM = reader.optionalNumber(`${at}.liftM`, 12);
  const tip = reader.text(`${at}.tip`, false);
  const preparedAt = reader.text(`${at}.preparedAt`, false);
  if (preparedAt !== '' && !dayTimeSchema.safeParse(preparedAt).success)
    reader.problem(`${at}.preparedAt`, texts.say('form.post-day.prepared-wrong'));
  return {
    ...(lossPct === undefined ? {} : { lossPct }),
    ...(profileUm === undefined ? {} : { profileUm }),
    ...(liftM === undefined ? {} : { liftM }),
    ...(tip === '' ? {} : { tip }),
    ...(preparedAt === '' ? {} : { preparedAt }),
  };
}

/** Both figures or none: a space whose air nobody gave is a space without air, and somebody has to write that 0. */
export function readSpace(reader: FieldReader, texts: Texts): Pick<DayEntry, 'space'> {
  const volumeM3 = reader.optionalNumber('space.volumeM3', 40);
  const airM3PerMin = reader.optionalNumber('space.airM3PerMin', 25);
  if (volumeM3 !== undefined && airM3PerMin !== undefined) return { space: { volumeM3, airM3PerMin } };
  const missing = [
    ...(volumeM3 === undefined ? ['space.volumeM3'] : []),
    ...(airM3PerMin === undefined ? ['space.airM3PerMin'] : []),
  ];
  const unread = new Set(reader.problems.map(({ field }) => field));
  if (missing.length === 1)
    for (const field of missing)
      if (!unread.has(field)) reader.problem(field, texts.say('form.post-day.space-both'));
  return {};
}
