import { foremen } from '../flow/decision.ts';
import { holdsOf, rigsInUse, unsigned } from '../flow/holds.ts';
import type { Page } from '../message/action.ts';
import { buttons, heading, list, message, note, paragraph } from '../message/build.ts';
import type { FormId } from '../message/form-ids.ts';
import type { Block, Button, Message } from '../message/message.ts';
import type { PersonId } from '../model/id.ts';
import type { Shift } from '../model/shift.ts';
import type { Texts } from '../texts/texts.ts';
import { bellsFor } from './bell.ts';
import type { View } from './context.ts';
import { rigGlance } from './glance-rig.ts';
import { holdText } from './holds.ts';
import type { PageContext } from './pages.ts';
import { stopMessage } from './stop.ts';
import { nextMessage, noShiftMessage, peopleMessage } from './today.ts';

type Stop = NonNullable<Shift['stop']>;

/** What nobody may have to look for, whoever they are. */
export const alwaysThere = (texts: Texts): readonly Block[] =>
  buttons(
    {
      label: texts.say('talk.stop'),
      tone: 'danger',
      action: { kind: 'open', form: { id: 'stop-work', about: {} } },
    },
    { label: texts.say('talk.page.emergency'), tone: 'danger', action: { kind: 'show', page: 'emergency' } },
  );

/**
 * Today on one small screen, for a chat's own page. Stop-work and the emergency card lead; then what is next for this
 * person, what holds, one's own rigs, the others, the way to everything else, who has signed, what rings next.
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
  const always = alwaysThere(texts);
  if (shift === null) {
    const none = noShiftMessage(texts, viewer !== null);
    return { ...none, blocks: [...always, ...none.blocks] };
  }
  const view: View = { shift, texts, now };
  if (shift.status === 'closed') {
    return message(
      texts.say('today.closed', { date: shift.date }),
      'attention',
      ...always,
      ...buttons(show('record'), open(texts.say('today.next-day'), 'post-day')),
    );
  }
  const title = texts.say('talk.today', { site: shift.day.site.name, date: shift.date });
  const holds = holdsOf(shift, now).filter(({ kind }) => kind !== 'stop-work');
  const isForeman = viewer !== null && foremen(shift).includes(viewer);
  const next = nextPresses(view, viewer, isForeman);
  const rigs = rigsInUse(shift);
  const own = rigs.filter((rig) => viewer !== null && worksOn(shift, viewer, rig));
  const others = rigs.filter((rig) => !own.includes(rig));
  return message(
    // What stands over the card is all that a locked phone shows of it.
    shift.stop ? stopMessage(view, shift.stop, viewer).summary : title,
    shift.stop ? 'danger' : holds.length > 0 ? 'attention' : 'plain',
    ...always,
    ...(shift.stop ? stopBlocks(view, shift.stop, viewer) : []),
    ...bellBlocks(view, viewer),
    ...(next.length > 0 ? [heading(texts.say('talk.for-you')), ...buttons(...next)] : []),
    ...(holds.length > 0
      ? [
          heading(texts.say('hold.title', { count: holds.length })),
          list(holds.map((hold) => holdText(view, hold))),
        ]
      : [heading(texts.say('today.holds')), note('plain', texts.say('hold.none'))]),
    ...own.flatMap((rig) => rigGlance(view, rig, true)),
    ...others.flatMap((rig) => rigGlance(view, rig, false)),
    { kind: 'divider' },
    ...buttons(
      open(texts.say('today.press-reading'), 'take-reading'),
      open(texts.say('today.press-concern'), 'raise-concern'),
      show('today'),
      show('briefing'),
      show('more'),
    ),
    heading(texts.say('today.people')),
    paragraph(peopleMessage(view).summary),
    heading(texts.say('today.next')),
    ...nextMessage(view).blocks,
  );
}

function bellBlocks(view: View, viewer: PersonId | null): readonly Block[] {
  const { texts } = view;
  const count = bellsFor(view, viewer).length;
  if (count === 0) return [];
  return [
    note('danger', texts.say('talk.bells', { count })),
    ...buttons({
      label: texts.say('talk.page.notices'),
      tone: 'main',
      action: { kind: 'show', page: 'notices' },
    }),
  ];
}

const worksOn = (shift: Shift, person: PersonId, rig: string): boolean =>
  shift.day.entry.jobs.some(
    (job) => job.rig === rig && (job.sprayers.includes(person) || job.mixers.includes(person)),
  );

/** What waits for this person and for nobody else, or for the foreman. The rigs have their own presses. */
function nextPresses(view: View, viewer: PersonId | null, isForeman: boolean): readonly Button[] {
  const { shift, texts } = view;
  const issued = shift.issuedAt !== null;
  const missing = unsigned(shift);
  const sign: Button = {
    label: texts.say('today.people-sign'),
    tone: 'main',
    action: { kind: 'show', page: 'sign-off' },
  };
  const issue: Button = {
    label: texts.say('today.issue'),
    tone: 'main',
    action: { kind: 'do', command: { type: 'issue-briefing' } },
  };
  const concern = shift.concerns.find(({ resolved }) => !resolved);
  return [
    // The foreman also reads to somebody whose phone lies at home, and signs as a witness.
    ...(issued && viewer !== null && (isForeman ? missing.length > 0 : missing.includes(viewer))
      ? [sign]
      : []),
    ...(!issued && isForeman ? [issue] : []),
    ...(concern && isForeman
      ? [
          {
            label: texts.say('today.press-resolve'),
            tone: 'main',
            action: { kind: 'open', form: { id: 'resolve-concern', about: { concern: concern.id } } },
          } as const,
        ]
      : []),
  ];
}

/** What a stop leads with, and for the foreman the way to clear it. */
function stopBlocks(view: View, stop: Stop, viewer: PersonId | null): readonly Block[] {
  return stopMessage(view, stop, viewer).blocks.filter(({ kind }) => kind !== 'heading');
}
