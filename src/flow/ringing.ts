import type { EventBody } from '../model/event.ts';
import { own } from '../model/own.ts';
import type { BellLevel, BellState, Shift } from '../model/shift.ts';
import { type Instant, MINUTE } from '../model/time.ts';
import { type WantedBell, wantedBells } from './bells.ts';
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

/**
 * BE2: when step `n` of a bell rings: crew, then foreman, then safety contact, then again and again. Counted from its
 * first ring. A bell that a new fact makes due in the past (a hose found warm) is due from that fact, and not late.
 */
function stepAt(shift: Shift, wanted: WantedBell, step: number): Instant {
  const { foremanAfterMinutes, safetyAfterMinutes, repeatEveryMinutes } = shift.day.policy;
  const safety = Math.max(foremanAfterMinutes, safetyAfterMinutes);
  const after = [0, foremanAfterMinutes, safety][step] ?? safety + (step - 2) * repeatEveryMinutes;
  const first = stateFor(shift, wanted)?.rings[0]?.scheduledFor ?? Math.max(wanted.dueAt, wanted.knownAt);
  return first + after * MINUTE;
}

function levelOf(wanted: WantedBell, step: number): BellLevel {
  return LEVELS[Math.min(LEVELS.indexOf(wanted.first) + step, LEVELS.length - 1)] ?? 'safety';
}

/** The next ring of a bell; null when it is answered, has rung its one time, or gives way to a louder one before. */
function nextRing(
  shift: Shift,
  wanted: WantedBell,
  now: Instant,
): { readonly step: number; readonly at: Instant } | null {
  const state = stateFor(shift, wanted);
  if (state?.answered) return null;
  const rung = state?.rings.at(-1)?.step;
  if (rung !== undefined && wanted.once) return null;
  const step = rung === undefined ? 0 : rung + 1;
  const at = stepAt(shift, wanted, step);
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
    let { step } = next;
    while (!wanted.once && stepAt(shift, wanted, step + 1) <= now) step += 1;
    events.push({
      type: 'bell-rang',
      bell: wanted.key,
      kind: wanted.kind,
      rig: wanted.rig,
      person: wanted.person,
      level: levelOf(wanted, step),
      step,
      dueAt: wanted.dueAt,
      scheduledFor: next.at,
      late: now - next.at > LATE_AFTER_MS,
      missedRings: missed(shift, wanted, next.step, step),
    });
  }
  return accept(...events);
};

/** Rings that should have come before this one; steps set to the same minute are one ring. */
function missed(shift: Shift, wanted: WantedBell, from: number, to: number): number {
  const steps = Array.from({ length: to - from }, (_, index) => from + index);
  return steps.filter((step) => stepAt(shift, wanted, step) < stepAt(shift, wanted, to)).length;
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
    past: continued || !before ? (before?.past ?? []) : [...before.past, ...before.rings],
  };
  return { ...shift, bells: { ...shift.bells, [event.bell]: state } };
};

/** BE7: anybody on the job answers a bell once, for everybody; the cause goes on being watched by the other bells. */
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
