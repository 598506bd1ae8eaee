import type { FormValues } from '../message/form.ts';
import type { DayEntry, DayEntryInput, Job } from '../model/day-entry.ts';
import type { SitePack } from '../model/site.ts';
import type { Texts } from '../texts/texts.ts';
import type { FieldReader } from './field.ts';
import type { OpenForm } from './form-def.ts';
import { readMoreOfJob, readSpace } from './read-day-more.ts';

/** The day as it was typed; what cannot be read becomes a problem of its field. */
export function readEntry(
  reader: FieldReader,
  { pack, texts, shift }: OpenForm,
  values: FormValues,
): DayEntryInput {
  const steelC = reader.optionalNumber('steelC', 14);
  const windMps = reader.optionalNumber('windMps', 4);
  const places = Object.keys(values).flatMap((key) => /^jobs\.(\d+)\.area$/.exec(key)?.[1] ?? []);
  const used = places.filter(
    (index, place) => place === 0 || reader.text(`jobs.${index}.area`, false) !== '',
  );
  return {
    date: reader.text('date', false) || (shift?.date ?? reader.text('date', true)),
    start: reader.text('start', true),
    end: reader.text('end', true),
    breaks: readBreaks(reader, texts.say('form.post-day.breaks-wrong')),
    surroundings: reader.text('surroundings', true) as DayEntry['surroundings'],
    weather: {
      airC: reader.number('airC', 18),
      rhPct: reader.number('rhPct', 65),
      ...(steelC === undefined ? {} : { steelC }),
      ...(windMps === undefined ? {} : { windMps }),
      sun: reader.text('sun', true) === 'yes',
    },
    ...readSpace(reader, texts),
    jobs: used.map((index) => readJob(reader, pack, texts, `jobs.${index}`)),
    others: [...reader.many('others')],
    notes: reader.text('notes', false),
  };
}

function readJob(reader: FieldReader, pack: SitePack, texts: Texts, at: string): Job {
  const rig = reader.text(`${at}.rig`, true);
  const pressure = reader.number(`${at}.pressure`, 5);
  const driven =
    pack.rigs.find(({ id }) => id === rig)?.drive === 'air' ? { airBar: pressure } : { fluidBar: pressure };
  return {
    area: reader.text(`${at}.area`, true),
    coating: reader.text(`${at}.coating`, true),
    coat: reader.text(`${at}.coat`, true) as Job['coat'],
    dftUm: reader.number(`${at}.dftUm`, 120),
    areaM2: reader.number(`${at}.areaM2`, 80),
    rig,
    ...driven,
    thinnerPct: reader.optionalNumber(`${at}.thinnerPct`, 5) ?? 0,
    ...readMoreOfJob(reader, at, texts),
    sprayers: [...reader.many(`${at}.sprayers`)],
    mixers: [...reader.many(`${at}.mixers`)],
  };
}

function readBreaks(reader: FieldReader, wrong: string): { from: string; to: string }[] {
  const typed = reader.text('breaks', false);
  if (typed === '') return [];
  return typed.split(/[,;]/).flatMap((part) => {
    const match = /^\s*(\d{1,2})[:.](\d{2})\s*[-–]\s*(\d{1,2})[:.](\d{2})\s*$/.exec(part);
    if (!match) {
      reader.problem('breaks', wrong);
      return [];
    }
    const [, h1 = '', m1 = '', h2 = '', m2 = ''] = match;
    return [{ from: `${h1.padStart(2, '0')}:${m1}`, to: `${h2.padStart(2, '0')}:${m2}` }];
  });
}
