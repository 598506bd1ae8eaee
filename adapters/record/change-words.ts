import type { Texts } from '../../src/texts/texts.ts';
import { type DayWords, fieldAt, fieldLabel, fieldValue } from '../../src/views/day-fields.ts';
import { shortly } from './difference.ts';

/** The place of a change in words, for example "Job 1: Dry film"; as it is when it is no field of the day entry. */
export function changeWords(texts: Texts, path: string): string {
  const inEntry = path.replace(/^entry\./, '');
  const [, whole, inside] = /^(jobs\.\d+)$|^(jobs\.\d+\.\w+|weather\.\w+|\w+)(?:\..*)?$/.exec(inEntry) ?? [];
  if (whole !== undefined) return jobName(texts, Number(whole.slice('jobs.'.length)));
  const found = inside === undefined ? null : fieldAt(inside);
  if (!found) return inEntry;
  const name = fieldLabel(texts, found.field);
  return found.job === null ? name : `${jobName(texts, found.job)}: ${name}`;
}

/** A changed value as people write it, with its unit; the bare data where it is no field of the day entry. */
export function changedValue(words: DayWords, path: string, value: unknown): string {
  const found = /^entry\./.test(path) ? fieldAt(path.replace(/^entry\./, '')) : null;
  if (found) return fieldValue(found.values, found.field, value, words);
  if (value === null || value === undefined) return '–';
  return typeof value === 'string' ? value : shortly(value);
}

function jobName(texts: Texts, index: number): string {
  return texts.say('form.post-day.job', { number: index + 1 });
}
