import { litresForRatio, litresForRatioDown } from '../facts/round.ts';
import { holdsOf } from '../flow/holds.ts';
import { rigName } from '../flow/rig-update.ts';
import { list, note } from '../message/build.ts';
import type { Block } from '../message/message.ts';
import type { CommandInput } from '../model/command.ts';
import { dateAt, instantOf, wallTimeSchema } from '../model/time.ts';
import { splitMix } from '../trade/mix.ts';
import { holdText } from '../views/holds.ts';
import { type FormDef, numberField, type OpenForm } from './form-def.ts';

export const mixBatchForm: FormDef = {
  build: (open) => {
    const { shift, texts } = open;
    const rig = open.about.rig ?? '';
    if (!shift) return { gone: texts.say('refusal.no-shift') };
    const state = shift.rigs[rig];
    const name = rigName(shift, rig);
    if (!state)
      return { gone: texts.say('refusal.unknown-rig', { rig, known: Object.keys(shift.rigs).join(', ') }) };
    if (state.tag) return { gone: texts.say('refusal.tagged-out', { rig: name }) };
    const planned = shift.day.entry.jobs.filter((job) => job.rig === rig).map((job) => job.coating);
    const inLine = state.line?.coating;
    const offered = inLine
      ? [inLine]
      : planned.length > 0
        ? [...new Set(planned)]
        : Object.keys(shift.day.coatings);
    const first = offered[0] ?? '';
    const sheet = shift.day.coatings[first];
    const kit = sheet?.kitLitres;
    const kits = offered.flatMap((id) => {
      const one = shift.day.coatings[id];
      return one?.kitLitres === undefined
        ? []
        : [`${one.name}: ${texts.say('form.mix-batch.kit', { litres: one.kitLitres })}`];
    });
    const parts = sheet?.parts === 2;
    const thinnerPct =
      shift.day.entry.jobs.find((job) => job.rig === rig && job.coating === first)?.thinnerPct ?? 0;
    const thinner = litresForRatioDown(((kit ?? 0) * thinnerPct) / 100);
    return {
      title: texts.say('form.mix-batch.title', { rig: name }),
      intro: [...holdNotes(open, rig), ...mixNotes(open, offered)],
      fields: [
        {
          kind: 'choice',
          name: 'coating',
          label: texts.say('form.mix-batch.coating'),
          required: true,
          value: first,
          options: offered.map((id) => ({ value: id, label: shift.day.coatings[id]?.name ?? id })),
        },
        numberField('litres', texts.say('form.mix-batch.litres'), 'L', { value: kit, hint: kits.join('. ') }),
        numberField('paintC', texts.say('form.mix-batch.c'), '°C'),
        numberField('thinnerL', texts.say('form.mix-batch.thinner'), 'L', { value: thinner, step: 0.01 }),
        {
          kind: 'choice',
          name: 'pot',
          label: texts.say('form.mix-batch.pot'),
          required: true,
          value: 'fresh',
          options: [
            { value: 'fresh', label: texts.say('form.mix-batch.fresh') },
            ...(state.pot ? [{ value: 'on-top', label: texts.say('form.mix-batch.on-top') }] : []),
          ],
        },
        { kind: 'time', name: 'mixedAt', label: texts.say('form.mix-batch.at'), required: false },
        ...(parts
          ? [
              numberField('aL', texts.say('form.mix-batch.a'), 'L', { required: false }),
              numberField('bL', texts.say('form.mix-batch.b'), 'L', { required: false }),
            ]
          : []),
      ],
      submit: texts.say('form.mix-batch.submit'),
    };
  },
  read: (reader, open) => {
    const aL = reader.optionalNumber('aL', 8);
    const bL = reader.optionalNumber('bL', 2);
    const time = reader.text('mixedAt', false);
    const mixedAt = time === '' ? undefined : lastInstantOf(time, open);
    if (time !== '' && mixedAt === undefined) reader.problem('mixedAt', open.texts.say('form.time'));
    return {
      type: 'mix-batch',
      rig: open.about.rig ?? '',
      coating: reader.text('coating', true),
      litres: reader.number('litres', 20),
      paintC: reader.number('paintC', 21),
      thinnerL: reader.optionalNumber('thinnerL', 0) ?? 0,
      pot: reader.text('pot', true) === 'on-top' ? 'on-top' : 'fresh',
      ...(aL === undefined ? {} : { aL }),
      ...(bL === undefined ? {} : { bL }),
      ...(mixedAt === undefined ? {} : { mixedAt }),
    } satisfies CommandInput;
  },
};

/** "23:50" typed just after midnight is yesterday's: the latest such time that is not in the future. */
function lastInstantOf(typed: string, { pack, now }: OpenForm): number | undefined {
  const match = /^(\d{1,2})[:.](\d{2})$/.exec(typed);
  const time = `${match?.[1]?.padStart(2, '0')}:${match?.[2]}`;
  if (!match || !wallTimeSchema.safeParse(time).success) return undefined;
  const zone = pack.site.timeZone;
  const today = instantOf(dateAt(now, zone), time, zone);
  if (today <= now) return today;
  const yesterday = instantOf(dateAt(now - 24 * 3_600_000, zone), time, zone);
  // A time a little ahead is a slip and refused as such; half a day ahead can only mean yesterday.
  return today - now < 6 * 3_600_000 ? today : yesterday;
}

function holdNotes({ shift, texts, now }: OpenForm, rig: string): readonly Block[] {
  if (!shift) return [];
  const view = { shift, texts, now };
  const holds = holdsOf(shift, now, rig);
  if (holds.length === 0) return [];
  return [
    note('danger', texts.say('hold.title', { count: holds.length })),
    list(holds.map((hold) => holdText(view, hold))),
  ];
}

/** What goes into one full kit: the figures the mixer needs at the bench. */
function mixNotes({ shift, texts }: OpenForm, offered: readonly string[]): readonly Block[] {
  const lines = offered.flatMap((id) => {
    const sheet = shift?.day.coatings[id];
    if (!sheet?.mixRatio || sheet.kitLitres === undefined) return [];
    const { a, b } = sheet.mixRatio;
    const split = splitMix({ ratioA: a, ratioB: b, mixedLitres: sheet.kitLitres, thinnerPct: 0 });
    const figures = {
      ratio: `${a}:${b}`,
      kit: sheet.kitLitres,
      a: litresForRatio(split.aL),
      b: litresForRatio(split.bL),
    };
    const most = sheet.thinner
      ? { name: sheet.thinner.name, percent: sheet.thinner.maxPercent }
      : { name: '', percent: 0 };
    return [texts.say('form.mix-batch.mix', { coating: sheet.name, ...figures, ...most })];
  });
  return lines.length === 0 ? [] : [list(lines)];
}
