import type { z } from 'zod';
import type { FormRef } from '../message/action.ts';
import { message, note } from '../message/build.ts';
import type { Field, FieldProblem, Form, FormValues } from '../message/form.ts';
import type { FormId } from '../message/form-ids.ts';
import type { Message } from '../message/message.ts';
import { type Command, commandSchema } from '../model/command.ts';
import { quantityText } from '../units/write.ts';
import { mixBatchForm } from './batch-form.ts';
import { abandonFlushForm, voidBatchForm } from './correction-forms.ts';
import { postDayForm } from './day-form.ts';
import { testFanForm } from './fan-form.ts';
import { FieldReader } from './field.ts';
import { fieldUnit, filledFields, inSiteUnits } from './field-units.ts';
import type { FormContext, FormDef } from './form-def.ts';
import * as people from './people-forms.ts';
import { takeReadingForm, voidReadingForm } from './reading-forms.ts';
import * as rig from './rig-forms.ts';

export type { FormContext };

const forms: { readonly [K in FormId]: FormDef } = {
  'post-day': postDayForm,
  arrive: people.arriveForm,
  'read-back': people.readBackForm,
  'raise-concern': people.raiseConcernForm,
  'resolve-concern': people.resolveConcernForm,
  'check-rig': rig.checkRigForm,
  'take-reading': takeReadingForm,
  'void-reading': voidReadingForm,
  'mix-batch': mixBatchForm,
  'mend-mix-temperature': rig.mendMixTemperatureForm,
  'void-batch': voidBatchForm,
  'pot-temperature': rig.potTemperatureForm,
  'hose-temperature': rig.hoseTemperatureForm,
  pause: rig.pauseForm,
  'pot-empty': rig.potEmptyForm,
  'line-renewed': rig.lineRenewedForm,
  'test-fan': testFanForm,
  'confirm-step': rig.confirmStepForm,
  'skip-step': rig.skipStepForm,
  'abandon-flush': abandonFlushForm,
  'report-defect': rig.reportDefectForm,
  'clear-tag': rig.clearTagForm,
  'stop-work': people.stopWorkForm,
  'clear-stop-work': people.clearStopForm,
  'close-shift': people.closeShiftForm,
};

export type BuiltForm =
  | { readonly ok: true; readonly form: Form }
  | { readonly ok: false; readonly shown: Message };

export type ReadForm =
  | { readonly ok: true; readonly command: Command }
  | { readonly ok: false; readonly problems: readonly FieldProblem[] };

/** The form a button opens, or why it cannot be opened now. `typed` are values to show again after a problem. */
export function buildForm(ref: FormRef, context: FormContext, typed?: FormValues): BuiltForm {
  const parts = forms[ref.id].build({ ...context, about: ref.about });
  if ('gone' in parts) {
    const text = context.texts.say('form.gone', { why: parts.gone });
    return { ok: false, shown: message(text, 'attention', note('attention', text)) };
  }
  const { title, intro = [], fields, submit, tone = 'main' } = parts;
  const local = fields.map((field) => inSiteUnits(field, context.pack.site.units));
  const shown = typed ? local.map((field) => retyped(field, typed)) : local;
  return { ok: true, form: { id: ref.id, about: ref.about, title, intro, fields: shown, submit, tone } };
}

/** Turn what was typed into a command, or say which field cannot be taken and how to mend it. */
export function readForm(ref: FormRef, values: FormValues, context: FormContext): ReadForm {
  const { units } = context.pack.site;
  const open = { ...context, about: ref.about };
  const parts = forms[ref.id].build(open);
  const filled = filledFields('gone' in parts ? [] : parts.fields, units);
  const reader = new FieldReader(values, context.texts, units, filled);
  const input = forms[ref.id].read(reader, open, values);
  if (reader.problems.length > 0) return { ok: false, problems: reader.problems };
  const parsed = commandSchema.safeParse(input);
  if (parsed.success) return { ok: true, command: parsed.data };
  return {
    ok: false,
    problems: parsed.error.issues.map((issue) => ({
      field: fieldOf(issue.path),
      message: issueText(issue, context),
    })),
  };
}

/** A sentence of the reader's own language; the schema's English, for whoever writes files, never reaches the crew. */
function issueText(issue: z.core.$ZodIssue, { texts, pack }: FormContext): string {
  const unit = fieldUnit(fieldOf(issue.path));
  const figure = (limit: number) =>
    unit === null ? '' : quantityText(unit, limit, pack.site.units, texts.locale);
  if (unit !== null && issue.code === 'too_big')
    return texts.say('form.at-most-unit', { most: figure(Number(issue.maximum)) });
  if (unit !== null && issue.code === 'too_small')
    return texts.say(issue.inclusive === false ? 'form.above-unit' : 'form.at-least-unit', {
      least: figure(Number(issue.minimum)),
    });
  if (issue.code === 'too_big') {
    const id = issue.origin === 'string' ? 'form.too-long' : 'form.at-most';
    return texts.say(id, { most: Number(issue.maximum) });
  }
  if (issue.code === 'too_small') {
    if (issue.origin !== 'number') return texts.say('form.required');
    return texts.say('form.at-least', { least: Number(issue.minimum) });
  }
  const field = String(issue.path.at(-1));
  if (field === 'rhPct') return texts.say('form.one-humidity');
  if (field === 'date') return texts.say('form.date');
  if (['start', 'end', 'from', 'to', 'mixedAt'].includes(field)) return texts.say('form.time');
  return texts.say('form.not-taken');
}

/** Where a schema path stands on the form: the day entry's nested values have flat names there. */
function fieldOf(path: readonly PropertyKey[]): string {
  const [first, ...rest] = path.map(String);
  if (first !== 'entry') return first === 'results' ? (rest[0] ?? first) : (first ?? '');
  const flat = rest[0] === 'weather' ? rest.slice(1) : rest;
  return flat
    .join('.')
    .replace(/\.(airBar|fluidBar)$/, '.pressure')
    .replace(/^breaks\..*/, 'breaks');
}

function retyped(field: Field, typed: FormValues): Field {
  const value = typed[field.name];
  switch (field.kind) {
    case 'group':
      return field;
    case 'choices':
      return { ...field, value: value === undefined ? [] : typeof value === 'string' ? [value] : value };
    case 'number':
    case 'text':
    case 'time':
    case 'date':
    case 'choice':
      return value === undefined
        ? field
        : { ...field, value: typeof value === 'string' ? value : (value[0] ?? '') };
  }
}
