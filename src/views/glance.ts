import { rigClocks } from '../flow/clocks.ts';
import { foremen } from '../flow/decision.ts';
import { holdsOf, rigsInUse } from '../flow/holds.ts';
import { rigName } from '../flow/rig-update.ts';
import { ringingBells } from '../flow/ringing.ts';
import type { Page } from '../message/action.ts';
import { buttons, heading, list, message, note, paragraph } from '../message/build.ts';
import type { FormId } from '../message/form-ids.ts';
import type { Block, Button, Message } from '../message/message.ts';
import { clockWords } from './batch.ts';
import type { View } from './context.ts';
import { flushMessage } from './flush.ts';
import { holdText } from './holds.ts';
import type { PageContext } from './pages.ts';
import { rigPresses } from './rig.ts';
import { nextMessage, noShiftMessage, peopleMessage } from './today.ts';

/**
 * Today on one small screen, for a chat's own page: what holds, each rig's times with its next presses, who has signed,
 * what is next, and the way to everything else. Stop-work and the emergency card lead.
 */
export function glance({ shift, now, texts, viewer }: PageContext): Message {
  const open = (label: string, id: FormId, tone: Button['tone'] = 'plain'): Button => ({
    label,
    tone,
    action: { kind: 'open', form: { id, about: {} } },
  });
  const show = (page: Page): Button => ({
    label: texts.say(`talk.page.${page}`),
    tone: 'plain',
    action: { kind: 'show', page },
  });
  const always = buttons(
    open(texts.say('talk.stop'), 'stop-work', 'danger'),
    { ...show('emergency'), tone: 'danger' },
    show('sign-off'),
  );
  if (shift === null) {
    const none = noShiftMessage(texts, viewer !== null);
    return { ...none, blocks: [...none.blocks, ...always] };
  }
  const view: View = { shift, texts, now };
  const holds = holdsOf(shift, now);
  const bells = ringingBells(shift, now).length;
  const isForeman = viewer !== null && foremen(shift).includes(viewer);
  const title = texts.say('brief.title', { site: shift.day.site.name, date: shift.date });
  return message(
    title,
    shift.stop ? 'danger' : holds.length > 0 ? 'attention' : 'plain',
    ...always,
    ...(bells > 0
      ? [note('danger', texts.say('talk.bells', { count: bells })), ...buttons(show('notices'))]
      : []),
    heading(holds.length > 0 ? texts.say('hold.title', { count: holds.length }) : texts.say('today.holds')),
    holds.length > 0
      ? list(holds.map((hold) => holdText(view, hold)))
      : note('plain', texts.say('hold.none')),
    ...rigsInUse(shift).flatMap((rig) => rigBlocks(view, rig)),
    heading(texts.say('today.people')),
    paragraph(peopleMessage(view).summary),
    heading(texts.say('today.next')),
    ...nextMessage(view).blocks,
    { kind: 'divider' },
    ...buttons(
      open(texts.say('today.press-reading'), 'take-reading'),
      open(texts.say('today.press-concern'), 'raise-concern'),
      show('today'),
      show('briefing'),
      show('record'),
      ...(isForeman
        ? [open(texts.say('today.change'), 'post-day'), open(texts.say('today.press-close'), 'close-shift')]
        : []),
    ),
  );
}

function rigBlocks(view: View, rig: string): readonly Block[] {
  const { shift, texts } = view;
  const flush = shift.rigs[rig]?.flush;
  if (flush) return [heading(rigName(shift, rig)), ...flushMessage(view, rig, flush).blocks];
  const clock = rigClocks(shift, rig)[0];
  const times = clock
    ? texts.say('batch.summary', {
        rig: rigName(shift, rig),
        batch: clock.mixed.batch,
        ...clockWords(view, clock),
      })
    : texts.say('today.rig-idle');
  return [heading(rigName(shift, rig)), paragraph(times), ...buttons(...rigPresses(view, rig))];
}
