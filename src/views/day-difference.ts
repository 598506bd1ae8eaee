import { canonicalJson } from '../journal/canonical-json.ts';
import type { Day } from '../model/day.ts';
import type { DayEntry, Job } from '../model/day-entry.ts';
import type { Texts } from '../texts/texts.ts';
import {
  type DayField,
  type DayWords,
  dayValues,
  fieldLabel,
  fieldValue,
  jobValues,
  weatherValues,
} from './day-fields.ts';

/** What is different between two entries of one day, a line each: hours, weather, jobs changed, new and taken off. */
export function dayDifference(words: DayWords, before: DayEntry, after: DayEntry): readonly string[] {
  const { pairs, gone, added } = matched(before.jobs, after.jobs);
  const { texts } = words;
  return [
    ...fieldChanges(dayValues, before, after, words),
    ...fieldChanges(weatherValues, before.weather, after.weather, words),
    ...pairs.flatMap(([was, is]) => {
      const changes = fieldChanges(jobValues, was, is, words);
      return changes.length === 0
        ? []
        : [texts.say('change.job', { job: jobTitle(is, words), changes: changes.join('; ') })];
    }),
    ...added.map((job) => texts.say('change.job-new', { job: jobWords(job, words) })),
    ...gone.map((job) => texts.say('change.job-gone', { job: jobTitle(job, words) })),
  ];
}

/** What else came with a changed day: it takes a new copy of the site pack. */
export function packDifference(texts: Texts, before: Day, after: Day): readonly string[] {
  const coatings = changedNames(before.coatings, after.coatings);
  const rigs = changedNames(before.rigs, after.rigs);
  const people = changedNames(before.people, after.people);
  return [
    ...(coatings ? [texts.say('change.coatings', { names: coatings })] : []),
    ...(rigs ? [texts.say('change.rigs', { names: rigs })] : []),
    ...(people ? [texts.say('change.people', { names: people })] : []),
    ...(differs(before.policy, after.policy) ? [texts.say('change.policy')] : []),
    ...(differs(before.emergency, after.emergency) ? [texts.say('change.emergency')] : []),
    ...(differs(before.site, after.site) ? [texts.say('change.site')] : []),
  ];
}

type Values<T> = { readonly [K in keyof T]: (value: never, words: DayWords) => string };

function fieldChanges<T extends object>(
  values: Values<T>,
  before: { readonly [K in keyof T]?: unknown },
  after: { readonly [K in keyof T]?: unknown },
  words: DayWords,
): readonly string[] {
  return (Object.keys(values) as (keyof T & DayField)[]).flatMap((field) => {
    if (!differs(before[field], after[field])) return [];
    const say = (value: unknown) => fieldValue(values, field, value, words);
    const what = fieldLabel(words.texts, field);
    return [words.texts.say('change.value', { what, before: say(before[field]), after: say(after[field]) })];
  });
}

/** Jobs have no ids: the one that is most alike is the same job. */
const alike: readonly ((one: Job, other: Job) => boolean)[] = [
  (one, other) => !differs(one, other),
  (one, other) => one.area === other.area && one.coating === other.coating && one.coat === other.coat,
  (one, other) => one.area === other.area && one.coat === other.coat,
  (one, other) => one.area === other.area,
  (one, other) => !differs({ ...one, area: '' }, { ...other, area: '' }),
];

function matched(before: readonly Job[], after: readonly Job[]) {
  const pairs: (readonly [Job, Job])[] = [];
  const gone = [...before];
  const added = [...after];
  for (const isSame of alike)
    for (const was of [...gone]) {
      const is = added.find((job) => isSame(was, job));
      if (!is) continue;
      pairs.push([was, is]);
      gone.splice(gone.indexOf(was), 1);
      added.splice(added.indexOf(is), 1);
    }
  return { pairs, gone, added };
}

function jobTitle(job: Job, words: DayWords): string {
  return words.texts.say('brief.job', {
    area: job.area,
    coating: jobValues.coating(job.coating, words),
    coat: jobValues.coat(job.coat, words),
  });
}

function jobWords(job: Job, words: DayWords): string {
  const say = (field: keyof Job) => fieldValue(jobValues, field, job[field], words);
  return words.texts.say('change.job-words', {
    job: jobTitle(job, words),
    area: say('areaM2'),
    dft: say('dftUm'),
    rig: say('rig'),
    pressure: say(job.airBar === undefined ? 'fluidBar' : 'airBar'),
    sprayers: say('sprayers'),
    mixers: say('mixers'),
  });
}

type Named = Readonly<Record<string, { readonly name: string }>>;

function changedNames(before: Named, after: Named): string {
  const ids = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return ids
    .filter((id) => differs(before[id], after[id]))
    .map((id) => after[id]?.name ?? before[id]?.name ?? id)
    .join(', ');
}

function differs(one: unknown, other: unknown): boolean {
  return canonicalJson({ value: one }) !== canonicalJson({ value: other });
}
