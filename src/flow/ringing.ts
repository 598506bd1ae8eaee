import type { EventBody } from '../model/event.ts';
import { own } from '../model/own.ts';
import type { BellLevel, BellState, Shift } from '../model/shift.ts';
import { type Instant, MINUTE } from '../model/time.ts';
import { foremanKnows } from './bells/people.ts';
import type { WantedBell } from './bells/wanted.ts';
import { wantedBells } from './bells.ts';
import { issueEvents } from './day-entry.ts';
import { type Apply, accept, type Decide, personOf, refuse } from './decision.ts';

/** A ring this much behind its time is marked late. */
export const LATE_AFTER_MS = MINUTE;
/** A time that moved later by more than this rings again; less is rounding. */
const MOVED_MS = MINUTE;
const LEVELS: readonly BellLevel[] = ['crew', 'foreman', 'safety'];

/** What has been rung for the time the bell is wanted at now; a bell that moved later starts anew. */
function stateFor(shift: Shift, wanted: WantedBell): BellState | null {
  const state = shift.bells[wanted.key];
  return state && wanted.dueAt <= state.dueAt + MOVED_MS ? state : null;
}

/** BE2: minutes from the first ring to step `n`: crew, then foreman, then safety contact, then again and again. */
function minutesTo(shift: Shift, step: number): number {
  const { foremanAfterMinutes, safetyAfterMinutes, repeatEveryMinutes } = shift.day.policy;
  const safety = Math.max(foremanAfterMinutes, safetyAfterMinutes);
  return [0, foremanAfterMinutes, safety][step] ?? safety + (step - 2) * repeatEveryMinutes;
}

/** BE7: an answer buys this much time; if the cause still stands then, the bell rings again, one level up. */
function answerHoldsMs(shift: Shift): number {
  return 2 * shift.day.policy.repeatEveryMinutes * MINUTE;
}

/** BE10: a bell to one person goes past them once, to a foreman who does not know from the crew's bell. */
function levelOf(
  shift: Shift,
  wanted: WantedBell,
  step: number,
  now: Instant,
  rang: readonly EventBody[],
): BellLevel {
  if (wanted.person !== null) {
    const told = stateFor(shift, wanted)?.rings.some(({ level }) => level !== 'crew') === true;
    return step === 0 || told || foremanKnows(shift, wanted.dueAt, now, rang) ? 'crew' : 'foreman';
  }
  return LEVELS[Math.min(LEVELS.indexOf(wanted.first) + step, LEVELS.length - 1)] ?? 'safety';
}

/**
 * The next ring of a bell; null when it has rung its one time or gives way to a louder one before. A bell that a new fact
 * makes due in the past (a hose found warm) is due from that fact, and not late.
 */
function nextRing(
  shift: Shift,
  wanted: WantedBell,
  now: Instant,
): { readonly step: number; readonly at: Instant } | null {
  const state = stateFor(shift, wanted);
  const last = state?.rings.at(-1);
  if (last && wanted.once) return null;
  const step = last ? last.step + 1 : 0;
  const after = last && last.at + (minutesTo(shift, step) - minutesTo(shift, last.step)) * MINUTE;
  const held = state?.answered ? state.answered.at + answerHoldsMs(shift) : 0;
  const at = Math.max(after ?? Math.max(wanted.dueAt, wanted.knownAt), held);
  return wanted.until !== null && Math.max(at, now) >= wanted.until ? null : { step, at };
}

/** When the shift next needs the bell loop: the earliest ring, or the prestart time of a briefing not yet out. */
export function nextRingAt(shift: Shift, now: Instant): Instant | null {
  if (shift.status === 'closed') return null;
  const times = wantedBells(shift).flatMap((wanted) => {
    const next = nextRing(shift, wanted, now);
    return next ? [next.at] : [];
  });
  if (shift.issuedAt === null) times.push(shift.day.prestartAt);
  return times.length === 0 ? null : Math.min(...times);
}

/**
 * BE3: what rings at `now`. After a silence (process down, clock jumped) a bell rings once at the highest step that is
 * due, marked late, instead of once for each ring that was missed.
 */
export const decideRing: Decide<'ring'> = (shift, _command, { now, before }) => {
  const events: EventBody[] = [];
  if (shift.issuedAt === null && now >= shift.day.prestartAt) events.push(...issueEvents(shift, before));
  for (const wanted of wantedBells(shift)) {
    const next = nextRing(shift, wanted, now);
    if (!next || next.at > now) continue;
    const timeOf = (step: number) =>
      next.at + (minutesTo(shift, step) - minutesTo(shift, next.step)) * MINUTE;
    let { step } = next;
    while (!wanted.once && timeOf(step + 1) <= now) step += 1;
    events.push({
      type: 'bell-rang',
      bell: wanted.key,
      kind: wanted.kind,
      rig: wanted.rig,
      person: wanted.person,
      level: levelOf(shift, wanted, step, now, events),
      step,
      dueAt: wanted.dueAt,
      scheduledFor: next.at,
      late: now - next.at > LATE_AFTER_MS,
      // Steps set to the same minute are one ring.
      missedRings: range(next.step, step).filter((missed) => timeOf(missed) < timeOf(step)).length,
    });
  }
  return accept(...events);
};

function range(from: number, to: number): readonly number[] {
  return Array.from({ length: to - from }, (_, index) => from + index);
}

export const applyRang: Apply<'bell-rang'> = (shift, event, { at }) => {
  const before = shift.bells[event.bell];
  const continued = before && event.dueAt <= before.dueAt + MOVED_MS && event.step > 0;
  const ring = {
    at,
    scheduledFor: event.scheduledFor,
    step: event.step,
    level: event.level,
    late: event.late,
  };
  const state: BellState = {
    kind: event.kind,
    rig: event.rig,
    person: event.person,
    dueAt: continued ? before.dueAt : event.dueAt,
    rings: continued ? [...before.rings, ring] : [ring],
    answered: null,
    answers: continued ? [...(before.answers ?? []), ...(before.answered ? [before.answered] : [])] : [],
    past: continued || !before ? (before?.past ?? []) : [...before.past, ...before.rings],
  };
  return { ...shift, bells: { ...shift.bells, [event.bell]: state } };
};

/** BE7: anybody on the job answers a bell, for everybody, for a while: while its cause stands it comes back. */
export const decideAnswerBell: Decide<'answer-bell'> = (shift, command, context) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const state = own(shift.bells, command.bell);
  if (!state) return refuse('refusal.unknown-bell');
  if (state.answered) {
    const { people } = shift.day;
    return refuse('refusal.bell-answered', { person: people[state.answered.by]?.name ?? state.answered.by });
  }
  return accept({ type: 'bell-answered', bell: command.bell, by: who.person.id });
};

export const applyBellAnswered: Apply<'bell-answered'> = (shift, event, { at }) => {
  const state = shift.bells[event.bell];
  if (!state) return shift;
  return { ...shift, bells: { ...shift.bells, [event.bell]: { ...state, answered: { at, by: event.by } } } };
};

/** Bells that have rung for their present cause and wait for an answer, oldest first. */
export function ringingBells(
  shift: Shift,
  now: Instant,
): readonly { readonly key: string; readonly state: BellState; readonly wanted: WantedBell }[] {
  return wantedBells(shift)
    .flatMap((wanted) => {
      const state = stateFor(shift, wanted);
      const replaced = wanted.until !== null && wanted.until <= now;
      return state && !state.answered && !wanted.once && !replaced
        ? [{ key: wanted.key, state, wanted }]
        : [];
    })
    .sort((x, y) => x.state.dueAt - y.state.dueAt);
}

/** The next bells to come, for people who want to know what is next. */
export function comingBells(shift: Shift, now: Instant): readonly WantedBell[] {
  return wantedBells(shift)
    .filter((wanted) => wanted.dueAt > now && stateFor(shift, wanted) === null)
    .sort((x, y) => x.dueAt - y.dueAt);
}
