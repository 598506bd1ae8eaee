import { settledUse } from '../facts/settled-solvent.ts';
import { nameOf, namesOf } from '../flow/decision.ts';
import { unsigned } from '../flow/holds.ts';
import { rigName } from '../flow/rig-update.ts';
import { comingBells } from '../flow/ringing.ts';
import { buttons, list, message, note, paragraph } from '../message/build.ts';
import type { Block, Button, Message } from '../message/message.ts';
import type { FlushStep } from '../model/checks.ts';
import type { Texts } from '../texts/texts.ts';
import { dayBlocks, signList } from './briefing.ts';
import { at, type View } from './context.ts';
import { stepName } from './flush.ts';
import { tagWords } from './holds.ts';
import { bellName } from './next.ts';
import { openTexts } from './open-items.ts';

const form = (
  label: string,
  id: 'post-day' | 'raise-concern' | 'close-shift' | 'arrive',
  tone: Button['tone'],
): Button => ({
  label,
  tone,
  action: { kind: 'open', form: { id, about: {} } },
});

export function noShiftMessage(texts: Texts, known: boolean): Message {
  const text = texts.say('today.no-shift-text');
  const post = form(texts.say('today.post'), 'post-day', 'main');
  return message(
    texts.say('today.no-shift'),
    known ? 'plain' : 'attention',
    paragraph(text),
    ...buttons(post),
  );
}

/** Who has signed and who has not, with the ways to put that right. */
export function peopleMessage(view: View): Message {
  const { shift, texts } = view;
  const all = shift.day.crew.length;
  const missing = unsigned(shift);
  const count = texts.say('sign.count', { signed: all - missing.length, all });
  const summary =
    missing.length === 0
      ? texts.say('sign.everyone')
      : `${count}. ${texts.say('sign.missing', { people: namesOf(shift, missing) })}`;
  const issued = shift.issuedAt !== null;
  return message(
    summary,
    missing.length === 0 && issued ? 'good' : 'attention',
    ...(issued ? [] : [paragraph(texts.say('sign.wait', { time: at(view, shift.day.prestartAt) }))]),
    signList(view),
    ...buttons(
      issued
        ? { label: texts.say('today.people-sign'), tone: 'main', action: { kind: 'show', page: 'sign-off' } }
        : {
            label: texts.say('today.issue'),
            tone: 'main',
            action: { kind: 'do', command: { type: 'issue-briefing' } },
          },
      form(texts.say('today.arrived'), 'arrive', 'plain'),
      form(texts.say('today.press-concern'), 'raise-concern', 'plain'),
    ),
  );
}

/** What rings next, in order, with its time. */
export function nextMessage(view: View): Message {
  const { shift, texts, now } = view;
  const coming = comingBells(shift, now);
  const first = coming[0];
  if (!first) {
    const none = texts.say('today.next-none');
    return message(none, 'plain', paragraph(none));
  }
  // One line for everybody who is chased at the same time.
  const lines = new Map<string, string[]>();
  for (const wanted of coming) {
    const { about, name } = bellName(view, wanted);
    const key = `${at(view, wanted.dueAt)} ${name}`;
    lines.set(key, [...(lines.get(key) ?? []), ...(about === '' ? [] : [about])]);
  }
  const items = [...lines]
    .map(([key, abouts]) => (abouts.length === 0 ? key : `${key}: ${abouts.join(', ')}`))
    .slice(0, 6);
  return message(`${texts.say('today.next')}: ${items[0]}`, 'plain', list(items));
}

export function concernsMessage(view: View): Message {
  const { shift, texts } = view;
  const open = shift.concerns.filter(({ resolved }) => !resolved);
  const blocks = shift.concerns.flatMap((concern): readonly Block[] => {
    const person = nameOf(shift, concern.by);
    if (concern.resolved)
      return [
        note(
          'good',
          texts.say('today.concern-done', { person, text: concern.text, answer: concern.resolved.text }),
        ),
      ];
    return [
      note(
        'attention',
        texts.say('today.concern-open', { person, time: at(view, concern.at), text: concern.text }),
      ),
      ...buttons({
        label: texts.say('today.press-resolve'),
        tone: 'main',
        action: { kind: 'open', form: { id: 'resolve-concern', about: { concern: concern.id } } },
      }),
    ];
  });
  return message(texts.say('today.concerns'), open.length > 0 ? 'attention' : 'plain', ...blocks);
}

/** What the last shift left, and messages of this one that reached nobody. Null when there is nothing. */
export function carriedMessage(view: View): Message | null {
  const { shift, texts } = view;
  const carried = shift.carriedIn;
  const lines = [
    ...(carried?.tags ?? []).map(({ rig, text }) =>
      texts.say('hold.rig-tagged', { rig: rigName(shift, rig), text: tagWords(view, text) }),
    ),
    ...(carried?.unflushed ?? []).map(({ rig, coating, mixedAt }) =>
      texts.say('hold.unflushed-line', {
        rig: rigName(shift, rig),
        coating: shift.day.coatings[coating]?.name ?? coating,
        since: at(view, mixedAt),
      }),
    ),
    ...(carried?.settledSolvent ?? [])
      .filter(({ rig }) => settledUse(shift.day, carried, rig) === 'rinse')
      .map(
        ({ rig, litres }) =>
          `${rigName(shift, rig)}: ${texts.say('flush.settled', { litres, date: carried?.fromDate ?? '' })}`,
      ),
    ...(carried?.skippedSteps ?? []).map(({ rig, step, reason }) =>
      texts.say('flush.skip', {
        rig: rigName(shift, rig),
        step: stepName(view, rig, step as FlushStep),
        reason,
      }),
    ),
    ...(carried?.concerns ?? []).map(({ by, text }) => texts.say('concern.raised', { person: by, text })),
  ];
  const lost = shift.undelivered.map(({ to, surface, why }) =>
    texts.say('undelivered.summary', { to, surface, why }),
  );
  if (lines.length + lost.length === 0) return null;
  return message(
    texts.say('today.carried'),
    lost.length > 0 ? 'danger' : 'plain',
    ...(lost.length > 0 ? [note('danger', texts.say('today.undelivered')), list(lost)] : []),
    ...(lines.length > 0 ? [list(lines)] : []),
  );
}

/** The day's jobs with what the foreman can do to the day. */
export function dayMessage(view: View, isForeman: boolean): Message {
  const { shift, texts } = view;
  const closed = shift.status === 'closed';
  const presses: Button[] = [
    { label: texts.say('today.press-briefing'), tone: 'plain', action: { kind: 'show', page: 'briefing' } },
    { label: texts.say('why.press'), tone: 'plain', action: { kind: 'show', page: 'why' } },
    { label: texts.say('today.press-record'), tone: 'plain', action: { kind: 'show', page: 'record' } },
  ];
  if (isForeman && !closed) {
    presses.push({
      label: texts.say('today.change'),
      tone: 'plain',
      action: { kind: 'open', form: { id: 'post-day', about: { base: String(shift.briefing.revision) } } },
    });
    presses.push(form(texts.say('today.press-close'), 'close-shift', 'plain'));
    presses.push({
      label: texts.say('today.next-day'),
      tone: 'plain',
      action: { kind: 'open', form: { id: 'post-day', about: { next: 'yes' } } },
    });
  }
  if (closed) presses.unshift(form(texts.say('today.next-day'), 'post-day', 'main'));
  const open = openTexts(view);
  return message(
    closed ? texts.say('today.closed', { date: shift.date }) : texts.say('brief.jobs'),
    'plain',
    ...(closed ? [note('attention', texts.say('today.closed', { date: shift.date }))] : []),
    ...(closed && open.length > 0 ? [note('attention', texts.say('close.open')), list(open)] : []),
    ...dayBlocks(view),
    ...buttons(...presses),
  );
}
