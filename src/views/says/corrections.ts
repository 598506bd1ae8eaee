import { rigClocks } from '../../flow/clocks.ts';
import { nameOf } from '../../flow/decision.ts';
import { rigName } from '../../flow/rig-update.ts';
import { heading, message, note } from '../../message/build.ts';
import { clockWords } from '../batch.ts';
import { at } from '../context.ts';
import { paintLeft } from '../corrections.ts';
import { type Announce, crew } from './say.ts';

/** What was logged or begun by mistake, and what counts now that it is taken back. */
export const correctionSays = {
  'batch-voided': ({ rig, batch, by, reason }) => [
    {
      // The batch's own message: its times must not stand there any longer.
      key: `batch:${batch}`,
      to: crew,
      urgency: 'bell',
      words: (view) => {
        const { shift, texts } = view;
        const words = { rig: rigName(shift, rig), batch, person: nameOf(shift, by), reason };
        const summary = texts.say('void.said', words);
        return message(
          summary,
          'attention',
          heading(summary),
          ...paintLeft(view, rig),
          note('danger', texts.say('void.elsewhere')),
        );
      },
    },
  ],
  'flush-abandoned': ({ rig, flush, by, reason }, { after }) => [
    {
      key: `flush:${flush}`,
      to: crew,
      words: (view) => {
        const { shift, texts } = view;
        const summary = texts.say('flush.abandoned', {
          rig: rigName(shift, rig),
          person: nameOf(shift, by),
          reason,
        });
        const { pausedAt = null } = after.rigs[rig] ?? {};
        return message(
          summary,
          'attention',
          heading(summary),
          ...rigClocks(after, rig)
            .slice(0, 1)
            .map((clock) => note('attention', texts.say('flush.abandoned-clock', clockWords(view, clock)))),
          ...(pausedAt === null
            ? []
            : [note('attention', texts.say('flush.abandoned-paused', { time: at(view, pausedAt) }))]),
        );
      },
    },
  ],
} satisfies { readonly [T in 'batch-voided' | 'flush-abandoned']: Announce<T> };
