import { needsToSign } from '../briefing/build.ts';
import { nameOf, refuse } from '../flow/decision.ts';
import { needReason } from '../flow/shift-record.ts';
import { list, note, paragraph, strong } from '../message/build.ts';
import type { CommandInput } from '../model/command.ts';
import { coatBlocks } from '../views/coats.ts';
import { openTexts } from '../views/open-items.ts';
import { refusalText } from '../views/refusal.ts';
import { questionWords } from '../views/sign-off.ts';
import { type FormDef, type OpenForm, textField } from './form-def.ts';

export const arriveForm: FormDef = {
  build: ({ pack, shift, texts }) => {
    const away = pack.people.filter(({ id }) => !shift?.day.crew.includes(id));
    if (away.length === 0) return { gone: texts.say('form.arrive.nobody') };
    return {
      title: texts.say('form.arrive.title'),
      fields: [
        {
          kind: 'choice',
          name: 'person',
          label: texts.say('form.arrive.person'),
          required: true,
          options: away.map(({ id, name }) => ({ value: id, label: name })),
        },
      ],
      submit: texts.say('form.arrive.submit'),
    };
  },
  read: (reader) => ({ type: 'arrive', person: reader.text('person', true) }),
};

/** One question to one person; with `witness` the foreman puts it to somebody who stands beside. */
export const readBackForm: FormDef = {
  build: (open) => {
    const { shift, texts } = open;
    const person = open.about.person ?? open.viewer ?? '';
    const words = shift ? questionWords({ shift, texts, now: open.now }, person) : null;
    if (!shift || !words) return { gone: notAskable(open, person) };
    return {
      title: texts.say('form.read-back.title', { person: nameOf(shift, person) }),
      intro: [paragraph(strong(words.ask))],
      fields: [
        {
          kind: 'choice',
          name: 'choice',
          label: texts.say('form.read-back.choose'),
          required: true,
          options: words.choices.map((label, index) => ({
            value: `${index}|${words.id}|${shift.briefing.revision}`,
            label,
          })),
        },
      ],
      submit: texts.say('form.read-back.submit'),
    };
  },
  // The choice carries its question and revision: what is answered is what was on the screen, not what is asked now.
  read: (reader, { about, shift, viewer }) => {
    const [choice = '', question = '', revision = ''] = reader.text('choice', true).split('|');
    const person = about.person ?? viewer ?? '';
    return {
      type: 'answer',
      revision: Number(revision) || (shift?.briefing.revision ?? 1),
      question: question || '–',
      choice: Number(choice) || 0,
      ...(about.witness === 'yes' ? { witnessFor: person } : {}),
    } satisfies CommandInput;
  },
};

function notAskable({ shift, texts }: OpenForm, person: string): string {
  if (!shift) return refusalText(refuse('refusal.no-shift'), texts);
  const name = nameOf(shift, person);
  const needed = needsToSign(shift.briefing, shift.people[person]?.signed ?? {});
  if (!shift.day.crew.includes(person))
    return refusalText(refuse('refusal.not-on-shift', { person: name }), texts);
  if (needed.length === 0)
    return refusalText(
      refuse('refusal.already-signed', { person: name, revision: shift.briefing.revision }),
      texts,
    );
  return refusalText(refuse('refusal.already-answered', { person: name }), texts);
}

export const raiseConcernForm: FormDef = {
  build: ({ texts }) => ({
    title: texts.say('form.raise-concern.title'),
    intro: [note('plain', texts.say('concern.holds'))],
    fields: [textField('text', texts.say('form.raise-concern.text'), true)],
    submit: texts.say('form.raise-concern.submit'),
  }),
  read: (reader) => ({ type: 'raise-concern', text: reader.text('text', true) }),
};

export const resolveConcernForm: FormDef = {
  build: ({ shift, texts, about }) => {
    const concern = shift?.concerns.find(({ id }) => id === about.concern);
    if (!shift || !concern)
      return { gone: texts.say('refusal.unknown-concern', { concern: about.concern ?? '' }) };
    if (concern.resolved)
      return { gone: texts.say('refusal.already-resolved', { text: concern.resolved.text }) };
    return {
      title: texts.say('form.resolve-concern.title'),
      intro: [
        note(
          'attention',
          texts.say('concern.raised', { person: nameOf(shift, concern.by), text: concern.text }),
        ),
      ],
      fields: [textField('text', texts.say('form.resolve-concern.text'), true)],
      submit: texts.say('form.resolve-concern.submit'),
    };
  },
  read: (reader, { about }) => ({
    type: 'resolve-concern',
    concern: about.concern ?? '',
    text: reader.text('text', true),
  }),
};

export const stopWorkForm: FormDef = {
  build: ({ texts }) => ({
    title: texts.say('form.stop-work.title'),
    intro: [note('danger', texts.say('form.stop-work.not-yet'))],
    fields: [textField('text', texts.say('form.stop-work.text'), false)],
    submit: texts.say('form.stop-work.submit'),
    tone: 'danger',
  }),
  read: (reader) => ({ type: 'stop-work', text: reader.text('text', false) }),
};

export const clearStopForm: FormDef = {
  build: ({ texts }) => ({
    title: texts.say('form.clear-stop-work.title'),
    intro: [note('attention', texts.say('stop.check'))],
    fields: [textField('text', texts.say('form.clear-stop-work.text'), true)],
    submit: texts.say('form.clear-stop-work.submit'),
  }),
  read: (reader) => ({ type: 'clear-stop-work', text: reader.text('text', true) }),
};

export const closeShiftForm: FormDef = {
  build: ({ shift, texts, now }) => {
    const open = shift ? openTexts({ shift, texts, now }) : [];
    return {
      title: texts.say('form.close-shift.title'),
      intro: [
        ...(open.length === 0
          ? [note('good', texts.say('form.close-shift.none-open'))]
          : [note('attention', texts.say('close.open')), list(open)]),
        ...(shift ? coatBlocks({ shift, texts, now }) : []),
      ],
      fields:
        !shift || needReason(shift).length === 0
          ? []
          : [textField('reason', texts.say('form.close-shift.reason'), true)],
      submit: texts.say('form.close-shift.submit'),
    };
  },
  read: (reader, { shift }) => ({
    type: 'close-shift',
    reason: reader.text('reason', shift !== null && needReason(shift).length > 0),
  }),
};
