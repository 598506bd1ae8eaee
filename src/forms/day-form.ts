import { note } from '../message/build.ts';
import type { Field } from '../message/form.ts';
import type { CommandInput } from '../model/command.ts';
import type { DayEntry, Job } from '../model/day-entry.ts';
import type { Role, SitePack } from '../model/site.ts';
import { addDays, dateAt } from '../model/time.ts';
import { moreOfJob, spaceFields } from './day-form-more.ts';
import { type FormDef, numberField, type OpenForm, textField } from './form-def.ts';
import { readEntry } from './read-day.ts';

/** One empty place after the jobs there are: who needs more changes the day again, or posts a file. */
const placesFor = (jobs: readonly Job[]) => Math.max(2, jobs.length + 1);
const surroundings = ['open-air', 'enclosed', 'confined'] as const;
const coats = ['primer', 'stripe', 'intermediate', 'finish', 'repair'] as const;

/** DE6: posting starts from the running day, or else from the last one: "same as yesterday". */
export const postDayForm: FormDef = {
  build: (open) => {
    const { shift, previous, pack, texts, now } = open;
    // A shift that nobody closed does not stand in the way of the next day.
    const wanted = open.about.next !== 'yes';
    const running = wanted && shift?.status === 'open' && now < shift.day.endsAt ? shift : null;
    const base = running ?? shift ?? previous;
    const today = dateAt(now, pack.site.timeZone);
    const entry = base?.day.entry ?? open.example ?? null;
    const date = running ? null : shift?.date === today ? addDays(today, 1) : today;
    const same =
      base && !running ? [note('plain', texts.say('form.post-day.same', { date: base?.date ?? '' }))] : [];
    return {
      title: running ? texts.say('today.change') : texts.say('form.post-day.title'),
      intro: same,
      fields: [
        ...dayFields(open, entry, date),
        ...jobFields(open, running ? running.day.entry.jobs : (entry?.jobs ?? []).map(unprepared)),
        ...spaceFields(open, entry),
        ...restFields(open, entry),
      ],
      submit: running ? texts.say('today.change') : texts.say('form.post-day.submit'),
    };
  },
  read: (reader, open, values) => {
    const base = Number(open.about.base);
    const entry = readEntry(reader, open, values);
    return { type: 'post-day', entry, ...(base > 0 ? { base } : {}) } as CommandInput;
  },
};

/** Yesterday's "06:00" would read as this morning and give bare steel a day it has not got. */
function unprepared({ preparedAt: _old, ...job }: Job): Job {
  return job;
}

function dayFields({ texts }: OpenForm, entry: DayEntry | null, date: string | null): readonly Field[] {
  const breaks =
    entry?.breaks.map(({ from, to }) => `${from}-${to}`).join(', ') ?? '09:30-09:45, 12:00-12:30';
  return [
    // A change is of this day; another date would quietly post another shift.
    ...(date === null
      ? []
      : [
          {
            kind: 'date',
            name: 'date',
            label: texts.say('form.post-day.date'),
            required: true,
            value: date,
          } as const,
        ]),
    {
      kind: 'time',
      name: 'start',
      label: texts.say('form.post-day.start'),
      required: true,
      value: entry?.start ?? '07:00',
    },
    {
      kind: 'time',
      name: 'end',
      label: texts.say('form.post-day.end'),
      required: true,
      value: entry?.end ?? '16:00',
    },
    {
      ...textField('breaks', texts.say('form.post-day.breaks'), false, false, breaks),
      hint: texts.say('form.post-day.breaks-hint'),
    } as Field,
    {
      kind: 'choice',
      name: 'surroundings',
      label: texts.say('form.post-day.surroundings'),
      required: true,
      value: entry?.surroundings ?? 'open-air',
      options: surroundings.map((value) => ({ value, label: texts.say(`word.surroundings.${value}`) })),
    },
    numberField('airC', texts.say('form.post-day.air'), '°C', { value: entry?.weather.airC }),
    numberField('rhPct', texts.say('form.post-day.rh'), '%', { value: entry?.weather.rhPct, step: 1 }),
    numberField('steelC', texts.say('form.post-day.steel'), '°C', {
      required: false,
      value: entry?.weather.steelC,
    }),
    numberField('windMps', texts.say('form.post-day.wind'), 'm/s', {
      required: false,
      value: entry?.weather.windMps,
    }),
    {
      kind: 'choice',
      name: 'sun',
      label: texts.say('form.post-day.sun'),
      required: true,
      value: entry?.weather.sun ? 'yes' : 'no',
      options: [
        { value: 'no', label: texts.say('form.post-day.sun-no') },
        { value: 'yes', label: texts.say('form.post-day.sun-yes') },
      ],
    },
  ];
}

function jobFields(open: OpenForm, jobs: readonly Job[]): readonly Field[] {
  const { texts, pack } = open;
  return Array.from({ length: placesFor(jobs) }, (_, index) => index).flatMap((index): readonly Field[] => {
    const job = jobs[index];
    const name = (field: string) => `jobs.${index}.${field}`;
    const required = index === 0;
    return [
      {
        kind: 'group',
        name: `jobs.${index}`,
        label: texts.say('form.post-day.job', { number: index + 1 }),
      },
      {
        ...textField(name('area'), texts.say('form.post-day.area'), required, false, job?.area),
        ...(required ? {} : { hint: texts.say('form.post-day.job-hint') }),
      } as Field,
      choice(
        name('coating'),
        texts.say('form.post-day.coating'),
        pack.coatings.map(({ id, name: label }) => ({ value: id, label })),
        job?.coating,
      ),
      choice(
        name('coat'),
        texts.say('form.post-day.coat'),
        coats.map((value) => ({ value, label: texts.say(`word.coat.${value}`) })),
        job?.coat,
      ),
      numberField(name('dftUm'), texts.say('form.post-day.dft'), 'µm', {
        required,
        value: job?.dftUm,
        step: 1,
      }),
      numberField(name('areaM2'), texts.say('form.post-day.m2'), 'm²', {
        required,
        value: job?.areaM2,
        step: 1,
      }),
      choice(
        name('rig'),
        texts.say('form.post-day.rig'),
        pack.rigs.map(({ id, name: label }) => ({ value: id, label })),
        job?.rig,
      ),
      numberField(name('pressure'), texts.say('form.post-day.pressure'), 'bar', {
        required,
        value: job?.airBar ?? job?.fluidBar,
      }),
      numberField(name('thinnerPct'), texts.say('form.post-day.thinner'), '%', {
        required: false,
        value: job?.thinnerPct ?? 0,
      }),
      people(
        name('sprayers'),
        texts.say('form.post-day.sprayers'),
        pack,
        'sprayer',
        job?.sprayers ?? [],
        required,
      ),
      people(name('mixers'), texts.say('form.post-day.mixers'), pack, 'mixer', job?.mixers ?? [], required),
      ...moreOfJob(open, `jobs.${index}`, job),
    ];
  });
}

function choice(
  name: string,
  label: string,
  options: readonly { value: string; label: string }[],
  value: string | undefined,
): Field {
  return { kind: 'choice', name, label, required: true, options, value: value ?? options[0]?.value ?? '' };
}

function people(
  name: string,
  label: string,
  pack: SitePack,
  role: Role,
  value: readonly string[],
  required: boolean,
): Field {
  const options = pack.people
    .filter(({ roles }) => roles.includes(role))
    .map((person) => ({ value: person.id, label: person.name }));
  return { kind: 'choices', name, label, required, options, value };
}

function restFields({ texts, pack }: OpenForm, entry: DayEntry | null): readonly Field[] {
  return [
    { kind: 'group', name: 'rest', label: texts.say('form.post-day.others') },
    {
      kind: 'choices',
      name: 'others',
      label: texts.say('form.post-day.others'),
      required: false,
      value: entry?.others ?? [],
      options: pack.people.map((person) => ({ value: person.id, label: person.name })),
    },
    textField('notes', texts.say('form.post-day.notes'), false, true, entry?.notes ?? ''),
  ];
}
