import type { BellKind, WantedBell } from '../flow/bells/wanted.ts';
import { foremen, nameOf } from '../flow/decision.ts';
import { ringingBells } from '../flow/ringing.ts';
import type { Action } from '../message/action.ts';
import { buttons, message, note, paragraph, strong } from '../message/build.ts';
import type { Block, Button, Message, Tone } from '../message/message.ts';
import type { EventOf } from '../model/event.ts';
import type { PersonId } from '../model/id.ts';
import type { BellState } from '../model/shift.ts';
import type { Instant } from '../model/time.ts';
import { calledName, callWords } from './bell-calls.ts';
import { bellWords, type RungBell } from './bell-words.ts';
import { at, type View } from './context.ts';

const tones: Readonly<Record<BellKind, Tone>> = {
  unsigned: 'attention',
  concern: 'attention',
  'stop-work': 'danger',
  'reading-due': 'attention',
  'margin-closing': 'attention',
  'induction-over': 'plain',
  'fan-due': 'plain',
  'before-break': 'attention',
  'before-end': 'attention',
  'use-by-soon': 'attention',
  'use-by': 'danger',
  'start-flush': 'danger',
  dead: 'danger',
  'flush-stalled': 'danger',
  'recoat-open': 'plain',
  'recoat-closing': 'attention',
  'shift-end': 'attention',
};

/** `reader`: whose it is alone, null where everybody reads it. */
export function bellMessage(view: View, rung: RungBell, reader: PersonId | null = null): Message {
  const { texts } = view;
  const { say: once, todo } = bellWords(view, rung);
  const { again, before } = callWords(view, rung);
  const say = again === null ? once : `${again} ${once}`;
  const late: Block[] = rung.late
    ? [
        note(
          'danger',
          texts.say('late.rang', {
            minutes: Math.round((rung.rangAt - rung.scheduledFor) / 60_000),
            time: at(view, rung.scheduledFor),
          }),
        ),
        ...(rung.missedRings > 0
          ? [note('attention', texts.say('late.missed', { count: rung.missedRings }))]
          : []),
      ]
    : [];
  return message(
    say,
    tones[rung.kind],
    paragraph(strong(say)),
    paragraph(todo),
    ...(before === null ? [] : [note('attention', before)]),
    ...late,
    note('plain', texts.say('bell.to', { level: calledName(view, rung, rung.level) })),
    ...buttons(...bellButtons(view, rung, reader)),
  );
}

/** Bells that wait for an answer, as one reader sees them: those to one person alone only as that person. */
export function bellsFor({ shift, now }: Pick<View, 'shift' | 'now'>, reader: PersonId | null) {
  return ringingBells(shift, now).filter(({ wanted }) => wanted.person === null || wanted.person === reader);
}

/** A bell that somebody has taken: what it was about, and who is on it since when. No buttons are left. */
export function answeredMessage(view: View, rung: RungBell, by: PersonId, since: Instant): Message {
  const { texts, shift } = view;
  const { say, todo } = bellWords(view, rung);
  const taken = texts.say('bell.taken', { person: nameOf(shift, by), time: at(view, since) });
  // Somebody being on it is no "in order": the words of what must be done stay.
  return message(`${say} ${taken}`, 'plain', paragraph(strong(taken)), paragraph(todo));
}

/** A bell as it stands in the shift, with the ring it last made. */
export function rungOf(bell: string, state: BellState, wanted: WantedBell): RungBell {
  const first = state.rings[0];
  return {
    bell,
    kind: wanted.kind,
    rig: wanted.rig,
    person: wanted.person,
    level: state.rings.at(-1)?.level ?? wanted.first,
    scheduledFor: first?.scheduledFor ?? state.dueAt,
    rangAt: first?.at ?? state.dueAt,
    calledAt: state.rings.at(-1)?.at ?? state.dueAt,
    late: first?.late ?? false,
    missedRings: 0,
  };
}

export function rungBell(event: EventOf<'bell-rang'>, rangAt: number): RungBell {
  return { ...event, kind: event.kind as BellKind, rangAt, calledAt: rangAt };
}

function bellButtons(view: View, rung: RungBell, reader: PersonId | null): readonly Button[] {
  const { texts, shift } = view;
  const press = (label: string, tone: Button['tone'], action: Action): Button => ({ label, tone, action });
  const flushing = rung.rig !== null && shift.rigs[rung.rig]?.flush;
  const list: Button[] = [];
  if (
    rung.rig !== null &&
    !flushing &&
    ['use-by-soon', 'use-by', 'start-flush', 'dead', 'before-break', 'before-end'].includes(rung.kind)
  )
    list.push(
      press(texts.say('today.press-flush'), 'main', {
        kind: 'do',
        command: { type: 'start-flush', rig: rung.rig },
      }),
    );
  if (rung.kind === 'reading-due' || rung.kind === 'margin-closing')
    list.push(
      press(texts.say('today.press-reading'), 'main', {
        kind: 'open',
        form: { id: 'take-reading', about: {} },
      }),
    );
  if (rung.kind === 'fan-due' && rung.rig !== null)
    list.push(
      press(texts.say('today.press-test-fan'), 'main', {
        kind: 'open',
        form: { id: 'test-fan', about: { rig: rung.rig } },
      }),
    );
  // Where everybody presses, most would be told that a foreman answers it.
  const answers = reader !== null && foremen(shift).includes(reader);
  const concern = shift.concerns.find(({ id, resolved }) => !resolved && rung.bell === `concern:${id}`);
  if (answers && concern)
    list.push(
      press(texts.say('today.press-resolve'), 'main', {
        kind: 'open',
        form: { id: 'resolve-concern', about: { concern: concern.id } },
      }),
    );
  if (rung.kind === 'unsigned')
    list.push(press(texts.say('today.people-sign'), 'main', { kind: 'show', page: 'sign-off' }));
  list.push(
    press(texts.say('bell.answer'), 'plain', {
      kind: 'do',
      command: { type: 'answer-bell', bell: rung.bell },
    }),
  );
  return list;
}
