import { rigClocks } from '../flow/clocks.ts';
import { foremen } from '../flow/decision.ts';
import { holdsOf, rigsInUse } from '../flow/holds.ts';
import { rigName } from '../flow/rig-update.ts';
import type { Page } from '../message/action.ts';
import { buttons, heading, list, message, note, paragraph } from '../message/build.ts';
import type { FormId } from '../message/form-ids.ts';
import type { Block, Button, Message } from '../message/message.ts';
import type { PersonId } from '../model/id.ts';
import type { Shift } from '../model/shift.ts';
import { clockSentence } from './batch.ts';
import { bellsFor } from './bell.ts';
import type { View } from './context.ts';
import { flushMessage } from './flush.ts';
import { holdText } from './holds.ts';
import type { PageContext } from './pages.ts';
import { rigPresses } from './rig.ts';
import { stopMessage } from './stop.ts';
import { nextMessage, noShiftMessage, peopleMessage } from './today.ts';

type Stop = NonNullable<Shift['stop']>;

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
  const title = texts.say('brief.title', { site: shift.day.site.name, date: shift.date });
  if (shift.status === 'closed') {
    const closed = texts.say('today.closed', { date: shift.date });
    return message(
      title,
      'plain',
      note('attention', closed),
      ...always,
      ...buttons(show('record'), open(texts.say('today.next-day'), 'post-day')),
    );
  }
  const holds = holdsOf(shift, now).filter(({ kind }) => kind !== 'stop-work');
  const bells = bellsFor(view, viewer).length;
  const isForeman = viewer !== null && foremen(shift).includes(viewer);
  return message(
    title,
    shift.stop ? 'danger' : holds.length > 0 ? 'attention' : 'plain',
    ...(shift.stop ? stopBlocks(view, shift.stop, viewer) : []),
    ...always,
    ...(bells > 0
      ? [note('danger', texts.say('talk.bells', { count: bells })), ...buttons(show('notices'))]
      : []),
    ...(holds.length > 0
      ? [
          heading(texts.say('hold.title', { count: holds.length })),
          list(holds.map((hold) => holdText(view, hold))),
        ]
      : [heading(texts.say('today.holds')), note('plain', texts.say('hold.none'))]),
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

/** What a stop leads with, and for the foreman the way to clear it. */
function stopBlocks(view: View, stop: Stop, viewer: PersonId | null): readonly Block[] {
  const { summary, blocks } = stopMessage(view, stop, viewer);
  return [note('danger', summary), ...blocks.filter(({ kind }) => kind !== 'heading')];
}

function rigBlocks(view: View, rig: string): readonly Block[] {
  const { shift, texts } = view;
  const flush = shift.rigs[rig]?.flush;
  if (flush) return [heading(rigName(shift, rig)), ...flushMessage(view, rig, flush).blocks];
  const clock = rigClocks(shift, rig)[0];
  const times = clock ? clockSentence(view, rig, clock) : texts.say('today.rig-idle');
  return [heading(rigName(shift, rig)), paragraph(times), ...buttons(...rigPresses(view, rig))];
}
