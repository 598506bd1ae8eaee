import { nameOf } from '../../flow/decision.ts';
import { rigName } from '../../flow/rig-update.ts';
import { message, note, paragraph } from '../../message/build.ts';
import type { Shift } from '../../model/shift.ts';
import { at } from '../context.ts';
import { fanMessage } from '../fan.ts';
import { flushMessage, stepName } from '../flush.ts';
import { tagText } from '../holds.ts';
import { type Announce, crew, line, nobody, type Say } from './say.ts';

/** Tags and flushes. */
export const rigSays = {
  'rig-checked': nobody,
  'rig-tagged': ({ rig }) => [
    {
      key: `tag:${rig}`,
      to: crew,
      urgency: 'bell',
      words: (view) => {
        const { shift, texts } = view;
        const text = tagText(view, rig);
        const line =
          shift.rigs[rig]?.tag?.cause === 'not-flushed' ? [paragraph(texts.say('tag.not-flushed'))] : [];
        return message(text, 'danger', note('danger', text), ...line, paragraph(texts.say('tag.do')));
      },
    },
  ],
  'tag-cleared': ({ rig, by, text }) => [
    line(`tag:${rig}`, 'good', ({ shift, texts }) =>
      texts.say('tag.cleared', { rig: rigName(shift, rig), person: nameOf(shift, by), text }),
    ),
  ],
  'fan-tested': ({ rig }, { event }) => [
    { key: `fan:${event.seq}`, to: crew, words: (view) => fanMessage(view, rig) },
  ],
  'flush-started': ({ rig, flush }, { after }) => flushSays(after, rig, flush),
  'step-confirmed': ({ rig, flush, step }, { after }) => [
    ...flushSays(after, rig, flush),
    ...(step === 'primary-flush'
      ? [
          line(`${flush}:clean`, 'good', ({ texts }) =>
            texts.say('flush.line-clean', { rig: rigName(after, rig) }),
          ),
        ]
      : []),
  ],
  'step-skipped': ({ rig, flush, step, reason }, { after }) => [
    ...flushSays(after, rig, flush),
    line(`${flush}:${step}`, 'attention', (view) =>
      view.texts.say('flush.skip', { rig: rigName(after, rig), step: stepName(view, rig, step), reason }),
    ),
  ],
  'flush-finished': ({ rig, flush }, { after, event }) => [
    line(`${flush}:finished`, 'good', (view) => {
      const done = after.rigs[rig]?.flushes.find(({ id }) => id === flush);
      const skipped = Object.values(done?.steps ?? {}).filter(({ kind }) => kind === 'skipped').length;
      return view.texts.say('flush.finished', {
        rig: rigName(after, rig),
        time: at(view, event.at),
        skipped,
      });
    }),
  ],
} satisfies {
  readonly [T in
    | 'rig-checked'
    | 'rig-tagged'
    | 'tag-cleared'
    | 'fan-tested'
    | 'flush-started'
    | 'step-confirmed'
    | 'step-skipped'
    | 'flush-finished']: Announce<T>;
};

function flushSays(after: Shift, rig: string, id: string): readonly Say[] {
  const state = after.rigs[rig];
  const flush = state?.flush ?? state?.flushes.find((one) => one.id === id);
  return flush ? [{ key: `flush:${id}`, to: crew, words: (view) => flushMessage(view, rig, flush) }] : [];
}
