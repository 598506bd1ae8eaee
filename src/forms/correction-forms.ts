import { mayAbandon } from '../flow/abandon-flush.ts';
import { rigClocks } from '../flow/clocks.ts';
import { rigName } from '../flow/rig-update.ts';
import { notVoidable, withoutBatch } from '../flow/void-batch.ts';
import { note, paragraph } from '../message/build.ts';
import type { Block } from '../message/message.ts';
import type { Batch, Shift } from '../model/shift.ts';
import { clockWords } from '../views/batch.ts';
import { at } from '../views/context.ts';
import { paintLeft } from '../views/corrections.ts';
import { refusalText } from '../views/refusal.ts';
import { type FormDef, type OpenForm, textField } from './form-def.ts';

const rigOf = (open: OpenForm) => open.about.rig ?? '';

/** Says what it takes away, what counts after it, and when it must not be used, before it asks for the reason. */
export const voidBatchForm: FormDef = {
  build: (open) => {
    const { shift, texts } = open;
    const rig = rigOf(open);
    const id = open.about.batch ?? '';
    if (!shift) return { gone: texts.say('refusal.no-shift') };
    const no = notVoidable(shift, rig, id);
    const batch = shift.rigs[rig]?.batches.find((one) => one.id === id);
    if (no || !batch)
      return {
        gone: no ? refusalText(no, texts) : texts.say('refusal.old-batch', { rig: rigName(shift, rig) }),
      };
    return {
      title: texts.say('form.void-batch.title', { batch: id, rig: rigName(shift, rig) }),
      intro: [
        note('danger', takes(open, shift, batch)),
        note('danger', texts.say('form.void-batch.only')),
        paragraph(texts.say('form.void-batch.then')),
        ...without(open, shift, batch),
        paragraph(texts.say('form.void-batch.who')),
      ],
      fields: [textField('reason', texts.say('form.void-batch.reason'), true)],
      submit: texts.say('form.void-batch.submit'),
      tone: 'danger',
    };
  },
  read: (reader, open) => ({
    type: 'void-batch',
    rig: rigOf(open),
    // The batch that was on the screen, not the one that is last now.
    batch: open.about.batch ?? '–',
    reason: reader.text('reason', true),
  }),
};

function takes({ texts, now }: OpenForm, shift: Shift, batch: Batch): string {
  const view = { shift, texts, now };
  const { id, litres, coating, rig } = batch;
  const clock = rigClocks(shift, rig).find(({ mixed }) => mixed.batch === id);
  const words = {
    batch: id,
    litres,
    coating: shift.day.coatings[coating]?.name ?? coating,
    time: at(view, batch.at),
  };
  if (!clock) return texts.say('form.void-batch.takes-no-clock', words);
  return texts.say('form.void-batch.takes', { ...words, deadAt: clockWords(view, clock).deadAt });
}

/** The rig as it would be, by the same rule that is used when the form is sent. */
function without({ texts, now }: OpenForm, shift: Shift, { rig, id }: Batch): readonly Block[] {
  const after = withoutBatch(shift, rig, id, { at: now, by: '–', reason: '–' });
  return paintLeft({ shift: after, texts, now }, rig);
}

export const abandonFlushForm: FormDef = {
  build: (open) => {
    const { shift, texts, now } = open;
    const rig = rigOf(open);
    const flush = shift?.rigs[rig]?.flush;
    if (!shift) return { gone: texts.say('refusal.no-shift') };
    const name = rigName(shift, rig);
    if (!flush || flush.id !== open.about.flush)
      return { gone: texts.say('refusal.old-flush', { rig: name }) };
    if (!mayAbandon(flush)) return { gone: texts.say('refusal.abandon-relieved', { rig: name }) };
    const [clock] = rigClocks(shift, rig);
    return {
      title: texts.say('form.abandon-flush.title', { rig: name }),
      intro: [
        note('danger', texts.say('form.abandon-flush.only')),
        ...(clock
          ? [
              note(
                'attention',
                texts.say('form.abandon-flush.clock', clockWords({ shift, texts, now }, clock)),
              ),
            ]
          : []),
      ],
      fields: [textField('reason', texts.say('form.abandon-flush.reason'), true)],
      submit: texts.say('form.abandon-flush.submit'),
      tone: 'danger',
    };
  },
  read: (reader, open) => ({
    type: 'abandon-flush',
    rig: rigOf(open),
    flush: open.about.flush ?? '–',
    reason: reader.text('reason', true),
  }),
};
