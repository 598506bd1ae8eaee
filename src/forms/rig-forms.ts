import { flushPlanOf } from '../facts/flush-plan.ts';
import { tenthUp } from '../facts/round.ts';
import { rigClocks } from '../flow/clocks.ts';
import { tooSoon } from '../flow/flush-pace.ts';
import { rigName } from '../flow/rig-update.ts';
import { note, paragraph } from '../message/build.ts';
import type { Field } from '../message/form.ts';
import type { Block } from '../message/message.ts';
import { type FlushStep, flushSteps, rigChecks } from '../model/checks.ts';
import type { CommandInput } from '../model/command.ts';
import { conflictBlocks } from '../views/batch.ts';
import { stepHow, stepName } from '../views/flush.ts';
import { tagText } from '../views/holds.ts';
import { type FormDef, numberField, type OpenForm, textField } from './form-def.ts';

const rigOf = (open: OpenForm) => open.about.rig ?? '';
const nameOfRig = (open: OpenForm) => (open.shift ? rigName(open.shift, rigOf(open)) : rigOf(open));

export const checkRigForm: FormDef = {
  build: (open) => ({
    title: open.texts.say('form.check-rig.title', { rig: nameOfRig(open) }),
    fields: [
      ...rigChecks.map(
        (check) =>
          ({
            kind: 'choice',
            name: check,
            label: open.texts.say(`check.${check}`),
            required: true,
            options: [
              { value: 'ok', label: open.texts.say('form.check-rig.ok') },
              { value: 'defect', label: open.texts.say('form.check-rig.defect') },
            ],
          }) as const,
      ),
      textField('note', open.texts.say('form.check-rig.note'), false),
    ],
    submit: open.texts.say('form.check-rig.submit'),
  }),
  read: (reader, open) => {
    const results = Object.fromEntries(rigChecks.map((check) => [check, reader.text(check, true)]));
    return { type: 'check-rig', rig: rigOf(open), results, note: reader.text('note', false) } as CommandInput;
  },
};

/** The clock as it stands, so that a number is typed with the times in sight. */
function clockNotes({ shift, texts, now, about }: OpenForm): readonly Block[] {
  if (!shift) return [];
  const rig = about.rig ?? '';
  const clock = rigClocks(shift, rig)[0];
  return clock ? conflictBlocks({ shift, texts, now }, rig, clock) : [];
}

const temperatureForm = (id: 'pot-temperature' | 'hose-temperature'): FormDef => ({
  build: (open) => ({
    title: open.texts.say(`form.${id}.title`, { rig: nameOfRig(open) }),
    intro: clockNotes(open),
    fields: [numberField('c', open.texts.say(`form.${id}.c`), '°C')],
    submit: open.texts.say(`form.${id}.submit`),
  }),
  read: (reader, open) => ({ type: id, rig: rigOf(open), c: reader.number('c', 24) }),
});
export const potTemperatureForm = temperatureForm('pot-temperature');
export const hoseTemperatureForm = temperatureForm('hose-temperature');

export const mendMixTemperatureForm: FormDef = {
  build: (open) => {
    const last = open.shift?.rigs[rigOf(open)]?.batches.at(-1);
    if (!last) return { gone: open.texts.say('refusal.no-mixed-paint', { rig: nameOfRig(open) }) };
    const written = open.texts.say('form.mend-mix-temperature.written', { batch: last.id, c: last.paintC });
    return {
      title: open.texts.say('form.mend-mix-temperature.title', { rig: nameOfRig(open) }),
      intro: [note('attention', written)],
      fields: [numberField('c', open.texts.say('form.mend-mix-temperature.c'), '°C')],
      submit: open.texts.say('form.mend-mix-temperature.submit'),
    };
  },
  read: (reader, open) => ({
    type: 'mend-mix-temperature',
    rig: rigOf(open),
    batch: open.shift?.rigs[rigOf(open)]?.batches.at(-1)?.id ?? '–',
    c: reader.number('c', 22),
  }),
};

export const pauseForm: FormDef = {
  build: (open) => ({
    title: open.texts.say('form.pause.title', { rig: nameOfRig(open) }),
    intro: clockNotes(open),
    fields: [textField('why', open.texts.say('form.pause.why'), false, false)],
    submit: open.texts.say('form.pause.submit'),
  }),
  read: (reader, open) => ({ type: 'pause', rig: rigOf(open), why: reader.text('why', false) }),
};

export const potEmptyForm: FormDef = {
  build: (open) => ({
    title: open.texts.say('form.pot-empty.title', { rig: nameOfRig(open) }),
    fields: [
      numberField('sprayedL', open.texts.say('form.pot-empty.sprayed'), 'L', { required: false }),
      numberField('wastedL', open.texts.say('form.pot-empty.wasted'), 'L', { required: false }),
    ],
    submit: open.texts.say('form.pot-empty.submit'),
  }),
  read: (reader, open) => {
    const sprayedL = reader.optionalNumber('sprayedL', 18);
    const wastedL = reader.optionalNumber('wastedL', 2) ?? 0;
    return { type: 'pot-empty', rig: rigOf(open), wastedL, ...(sprayedL === undefined ? {} : { sprayedL }) };
  },
};

export const lineRenewedForm: FormDef = {
  build: (open) => {
    const litres = open.shift?.rigs[rigOf(open)]?.renewLitres;
    if (litres === null || litres === undefined)
      return { gone: open.texts.say('refusal.line-is-fresh', { rig: nameOfRig(open) }) };
    const hint = open.texts.say('form.line-renewed.hint', { litres });
    return {
      title: open.texts.say('form.line-renewed.title', { rig: nameOfRig(open) }),
      fields: [numberField('sprayedL', open.texts.say('form.line-renewed.litres'), 'L', { hint })],
      submit: open.texts.say('form.line-renewed.submit'),
    };
  },
  read: (reader, open) => ({
    type: 'line-renewed',
    rig: rigOf(open),
    sprayedL: reader.number('sprayedL', 8),
  }),
};

const stepOf = (open: OpenForm): FlushStep =>
  flushSteps.find((step) => step === open.about.step) ?? 'solvent-away';

/** FL7: asked before, not refused: they may have pressed the step before late. */
function soonNotes({ shift, texts, now, about }: OpenForm, step: FlushStep): readonly Block[] {
  const flush = shift?.rigs[about.rig ?? '']?.flush;
  const soon = shift && flush ? tooSoon(shift.day, about.rig ?? '', flush, step, now) : null;
  return soon ? [note('attention', texts.say('form.confirm-step.too-soon', { ...soon }))] : [];
}

export const confirmStepForm: FormDef = {
  build: (open) => {
    const { shift, texts } = open;
    const rig = rigOf(open);
    if (!shift || shift.rigs[rig]?.flush?.id !== open.about.flush)
      return { gone: texts.say('refusal.old-flush', { rig: nameOfRig(open) }) };
    const step = stepOf(open);
    const view = { shift, texts, now: open.now };
    const spec = shift.day.rigs[rig];
    const plan = spec ? flushPlanOf(shift.day, spec) : null;
    const planned =
      step === 'primary-flush'
        ? plan?.primaryL
        : step === 'secondary-flush'
          ? plan?.secondaryL
          : plan?.solventL;
    const label =
      step === 'solvent-away'
        ? texts.say('form.confirm-step.settling')
        : texts.say('form.confirm-step.litres');
    // Never filled in: a figure somebody only waved through proves nothing.
    const hint = texts.say('form.confirm-step.planned', { litres: tenthUp(planned ?? 0) });
    return {
      title: texts.say('form.confirm-step.title', { rig: nameOfRig(open), step: stepName(view, rig, step) }),
      intro: [paragraph(stepHow(view, rig, step)), ...soonNotes(open, step)],
      fields: [
        numberField('litres', label, 'L', planned === undefined ? {} : { hint }),
        textField('note', texts.say('form.confirm-step.note'), false, false),
      ],
      submit: texts.say('form.confirm-step.submit'),
    };
  },
  read: (reader, open) => ({
    type: 'confirm-step',
    rig: rigOf(open),
    flush: open.about.flush ?? '',
    step: stepOf(open),
    litres: reader.number('litres', 6),
    note: reader.text('note', false),
  }),
};

export const skipStepForm: FormDef = {
  build: (open) => {
    const { shift, texts } = open;
    if (!shift) return { gone: texts.say('refusal.no-shift') };
    return {
      title: texts.say('form.skip-step.title', {
        step: stepName({ shift, texts, now: open.now }, rigOf(open), stepOf(open)),
      }),
      fields: [textField('reason', texts.say('form.skip-step.reason'), true)],
      submit: texts.say('form.skip-step.submit'),
      tone: 'danger',
    };
  },
  read: (reader, open) => ({
    type: 'skip-step',
    rig: rigOf(open),
    flush: open.about.flush ?? '',
    step: stepOf(open),
    reason: reader.text('reason', true),
  }),
};

export const reportDefectForm: FormDef = {
  build: (open) => ({
    title: open.texts.say('form.report-defect.title', { rig: nameOfRig(open) }),
    fields: [
      textField('part', open.texts.say('form.report-defect.part'), true, false),
      textField('text', open.texts.say('form.report-defect.text'), true),
    ],
    submit: open.texts.say('form.report-defect.submit'),
    tone: 'danger',
  }),
  read: (reader, open) => ({
    type: 'report-defect',
    rig: rigOf(open),
    part: reader.text('part', true),
    text: reader.text('text', true),
  }),
};

/** Asked for itself: a mended valve does not mean that the old paint is out of the hose. */
const lineField = (texts: OpenForm['texts']): Field => ({
  kind: 'choice',
  name: 'line',
  label: texts.say('form.clear-tag.line'),
  required: true,
  options: [
    { value: 'old', label: texts.say('form.clear-tag.line-old') },
    { value: 'clean', label: texts.say('form.clear-tag.line-clean') },
  ],
});

export const clearTagForm: FormDef = {
  build: (open) => {
    const { shift, texts, now } = open;
    if (!shift?.rigs[rigOf(open)]?.tag)
      return { gone: texts.say('refusal.not-tagged', { rig: nameOfRig(open) }) };
    return {
      title: texts.say('form.clear-tag.title', { rig: nameOfRig(open) }),
      intro: [note('danger', tagText({ shift, texts, now }, rigOf(open)))],
      fields: [
        textField('text', texts.say('form.clear-tag.text'), true),
        ...(shift.rigs[rigOf(open)]?.unflushed ? [lineField(texts)] : []),
      ],
      submit: texts.say('form.clear-tag.submit'),
    };
  },
  read: (reader, open) => ({
    type: 'clear-tag',
    rig: rigOf(open),
    text: reader.text('text', true),
    lineClean: reader.text('line', false) === 'clean',
  }),
};
