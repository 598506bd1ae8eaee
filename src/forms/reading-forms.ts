import { note, paragraph } from '../message/build.ts';
import { conditionsMessage } from '../views/conditions.ts';
import { type FormDef, numberField, textField } from './form-def.ts';

export const takeReadingForm: FormDef = {
  build: ({ texts, shift }) => {
    const last = shift?.readings.at(-1);
    return {
      title: texts.say('form.take-reading.title'),
      intro: [paragraph(texts.say('form.take-reading.hint'))],
      fields: [
        numberField('airC', texts.say('form.take-reading.air'), '°C'),
        numberField('rhPct', texts.say('form.take-reading.rh'), '%', { required: false, step: 1 }),
        numberField('wetC', texts.say('form.take-reading.wet'), '°C', { required: false }),
        numberField('steelC', texts.say('form.take-reading.steel'), '°C'),
        numberField('wbgtC', texts.say('form.take-reading.wbgt'), '°C', {
          required: false,
          hint: texts.say('form.take-reading.wbgt-hint'),
        }),
        textField('place', texts.say('form.take-reading.place'), false, false, last?.place),
      ],
      submit: texts.say('form.take-reading.submit'),
    };
  },
  read: (reader) => {
    const rhPct = reader.optionalNumber('rhPct', 65);
    const wetC = reader.optionalNumber('wetC', 12);
    const wbgtC = reader.optionalNumber('wbgtC', 24);
    return {
      type: 'take-reading',
      airC: reader.number('airC', 18.5),
      steelC: reader.number('steelC', 16),
      ...(rhPct === undefined ? {} : { rhPct }),
      ...(wetC === undefined ? {} : { wetC }),
      ...(wbgtC === undefined ? {} : { wbgtC }),
      place: reader.text('place', false),
    };
  },
};

export const voidReadingForm: FormDef = {
  build: ({ texts, shift, now, about }) => {
    const reading = shift?.readings.find(({ at }) => String(at) === about.at);
    if (!shift || !reading) return { gone: texts.say('refusal.no-such-reading') };
    const last = conditionsMessage({ shift: { ...shift, readings: [reading] }, texts, now }).summary;
    return {
      title: texts.say('form.void-reading.title'),
      intro: [note('attention', last)],
      fields: [textField('reason', texts.say('form.void-reading.reason'), true)],
      submit: texts.say('form.void-reading.submit'),
    };
  },
  read: (reader, { about }) => ({
    type: 'void-reading',
    takenAt: Number(about.at) || 1,
    reason: reader.text('reason', true),
  }),
};
