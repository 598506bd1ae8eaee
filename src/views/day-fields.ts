import type { Day } from '../model/day.ts';
import type { DayEntry, Job, Weather } from '../model/day-entry.ts';
import type { Texts } from '../texts/texts.ts';

/** The words, and the names of what a day entry calls by id. */
export interface DayWords {
  readonly texts: Texts;
  readonly names: Pick<Day, 'coatings' | 'rigs' | 'people'>;
}

/** For each field its value in words; the compiler asks for the words of a new field. */
type Values<T> = { readonly [K in keyof T]-?: (value: NonNullable<T[K]>, words: DayWords) => string };

const plain = (value: string | number) => String(value);
const degrees = (c: number, { texts }: DayWords) => texts.say('reading.degrees', { c });
const percent = (p: number, { texts }: DayWords) => texts.say('reading.percent', { p });
const microns = (um: number, { texts }: DayWords) => texts.say('change.um', { um });
const bar = (value: number, { texts }: DayWords) => texts.say('change.bar', { bar: value });
const people = (ids: readonly string[], { names }: DayWords) =>
  ids.map((id) => names.people[id]?.name ?? id).join(', ');

export const weatherValues: Values<Weather> = {
  airC: degrees,
  rhPct: percent,
  steelC: degrees,
  windMps: (wind, { texts }) => texts.say('change.mps', { wind }),
  sun: (sun, { texts }) => texts.say(sun ? 'form.post-day.sun-yes' : 'form.post-day.sun-no'),
  wbgtC: degrees,
};

export const dayValues: Values<Omit<DayEntry, 'jobs' | 'weather'>> = {
  date: plain,
  start: plain,
  end: plain,
  breaks: (breaks) => breaks.map(({ from, to }) => `${from}–${to}`).join(', '),
  surroundings: (kind, { texts }) => texts.say(`word.surroundings.${kind}`),
  forecast: (lines, { texts }) =>
    lines
      .map(({ at, airC, rhPct }) =>
        rhPct === undefined
          ? texts.say('change.forecast', { at, air: airC })
          : texts.say('change.forecast-rh', { at, air: airC, rh: rhPct }),
      )
      .join('; '),
  space: ({ volumeM3, airM3PerMin }, { texts }) =>
    texts.say('change.space', { volume: volumeM3, flow: airM3PerMin }),
  others: people,
  notes: plain,
};

export const jobValues: Values<Job> = {
  area: plain,
  coating: (id, { names }) => names.coatings[id]?.name ?? id,
  coat: (coat, { texts }) => texts.say(`word.coat.${coat}`),
  dftUm: microns,
  areaM2: (area, { texts }) => texts.say('change.m2', { area }),
  rig: (id, { names }) => names.rigs[id]?.name ?? id,
  airBar: bar,
  fluidBar: bar,
  thinnerPct: percent,
  lossPct: percent,
  profileUm: microns,
  liftM: (m, { texts }) => texts.say('change.m', { m }),
  tip: plain,
  preparedAt: plain,
  sprayers: people,
  mixers: people,
};

const NONE = '–';
type AnyValues = Readonly<Record<string, (value: never, words: DayWords) => string>>;
const fieldNames = [
  ...(Object.keys(weatherValues) as (keyof Weather)[]),
  ...(Object.keys(dayValues) as (keyof typeof dayValues)[]),
  ...(Object.keys(jobValues) as (keyof Job)[]),
] as const;
export type DayField = (typeof fieldNames)[number];

/** The name of a field, for example "Dry film". */
export function fieldLabel(texts: Texts, field: DayField): string {
  return texts.say(`change.field.${field}`);
}

/** The value of one field in words; a dash for what was not given. */
export function fieldValue(values: AnyValues, field: string, value: unknown, words: DayWords): string {
  if (value === undefined || value === null) return NONE;
  return values[field]?.(value as never, words) || NONE;
}

/**
 * A field by its place in a day entry, "end", "weather.airC" or "jobs.0.airBar": its name, and its value in words. Null
 * for a place inside a field, and for what is no field of the entry.
 */
export function fieldAt(
  path: string,
): { readonly field: DayField; readonly job: number | null; readonly values: AnyValues } | null {
  const [, job, inJob, weather, ofDay] =
    /^(?:jobs\.(\d+)\.([A-Za-z0-9]+)|weather\.([A-Za-z0-9]+)|([A-Za-z0-9]+))$/.exec(path) ?? [];
  const name = inJob ?? weather ?? ofDay;
  const values: AnyValues = inJob ? jobValues : weather ? weatherValues : dayValues;
  const field = fieldNames.find((one) => one === name && one in values);
  return field === undefined ? null : { field, job: job === undefined ? null : Number(job), values };
}
