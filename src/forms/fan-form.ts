import { tipOf } from '../facts/spray.ts';
import { rigName } from '../flow/rig-update.ts';
import { note } from '../message/build.ts';
import { type FormDef, numberField, type OpenForm, textField } from './form-def.ts';

const rigOf = (open: OpenForm) => open.about.rig ?? '';

/** The tip that is most likely fitted: the one of the last fan, else of the job whose coating is in the line. */
function likelyTip({ shift, about }: OpenForm): string | null {
  const rig = about.rig ?? '';
  const state = shift?.rigs[rig];
  const last = state?.fans?.at(-1)?.tip;
  if (last !== undefined) return last;
  const jobs = (shift?.day.entry.jobs ?? []).filter((job) => job.rig === rig);
  const coating = state?.line?.coating ?? state?.pot?.coating;
  const job = jobs.find((one) => one.coating === coating) ?? jobs[0];
  return shift && job ? tipOf(shift.day, job) : null;
}

export const testFanForm: FormDef = {
  build: (open) => {
    const { shift, texts } = open;
    const rig = shift ? rigName(shift, rigOf(open)) : rigOf(open);
    const state = shift?.rigs[rigOf(open)];
    if (!state?.line && !state?.pot) return { gone: texts.say('refusal.no-mixed-paint', { rig }) };
    return {
      title: texts.say('form.test-fan.title', { rig }),
      intro: [
        note('danger', texts.say('form.test-fan.safety')),
        note('plain', texts.say('form.test-fan.how')),
      ],
      fields: [
        textField('tip', texts.say('form.test-fan.tip'), true, false, likelyTip(open) ?? undefined),
        numberField('widthMm', texts.say('form.test-fan.width'), 'mm', { step: 1 }),
      ],
      submit: texts.say('form.test-fan.submit'),
    };
  },
  read: (reader, open) => ({
    type: 'test-fan',
    rig: rigOf(open),
    tip: reader.text('tip', true),
    widthMm: reader.number('widthMm', 250),
  }),
};
