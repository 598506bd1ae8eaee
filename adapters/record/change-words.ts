import type { Texts } from '../../src/texts/texts.ts';

/** Where the day entry and its form have one name for a field. */
const fields = {
  date: 'form.post-day.date',
  start: 'form.post-day.start',
  end: 'form.post-day.end',
  breaks: 'form.post-day.breaks',
  surroundings: 'form.post-day.surroundings',
  'weather.airC': 'form.post-day.air',
  'weather.rhPct': 'form.post-day.rh',
  'weather.steelC': 'form.post-day.steel',
  'weather.windMps': 'form.post-day.wind',
  'weather.sun': 'form.post-day.sun',
  others: 'form.post-day.others',
  notes: 'form.post-day.notes',
  area: 'form.post-day.area',
  coating: 'form.post-day.coating',
  coat: 'form.post-day.coat',
  dftUm: 'form.post-day.dft',
  areaM2: 'form.post-day.m2',
  rig: 'form.post-day.rig',
  airBar: 'form.post-day.pressure',
  fluidBar: 'form.post-day.pressure',
  thinnerPct: 'form.post-day.thinner',
  sprayers: 'form.post-day.sprayers',
  mixers: 'form.post-day.mixers',
} as const;

/** The place of a change in the words of the form, for example "Job 1: Dry film"; as it is when the form has none. */
export function changeWords(texts: Texts, path: string): string {
  const [, job, rest] = /^(?:entry\.)?jobs\.(\d+)(?:\.(.+))?$/.exec(path) ?? [];
  if (job === undefined) return fieldWords(texts, path.replace(/^entry\./, ''));
  const which = texts.say('form.post-day.job', { number: Number(job) + 1 });
  return rest === undefined ? which : `${which}: ${fieldWords(texts, rest)}`;
}

function fieldWords(texts: Texts, path: string): string {
  const known = Object.keys(fields).find((field) => path === field || path.startsWith(`${field}.`));
  return known === undefined ? path : texts.say(fields[known as keyof typeof fields]);
}
