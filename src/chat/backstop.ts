import { flushPlanOf } from '../facts/flush-plan.ts';
import { type RigClock, rigClocks } from '../flow/clocks.ts';
import { nameOf } from '../flow/decision.ts';
import { rigName } from '../flow/rig-update.ts';
import type { RigId } from '../model/id.ts';
import type { Shift } from '../model/shift.ts';
import { clockTimeOn, type Instant, MINUTE } from '../model/time.ts';
import type { Texts } from '../texts/texts.ts';
import { lettersOf } from './backstop-ref.ts';

/** A notice is taken back in time only when the confirm comes so long before it; the platform's own trap is 5 min. */
const CLEAR_OF_CONFIRM_MS = 11 * MINUTE;
/** From the notice's time until somebody stands at the pump: a minute for the platform, one to walk. No source. */
const TO_THE_PUMP_MS = 2 * MINUTE;
/** News that leaves no time: long enough that the platform does not call it the past. */
const AFTER_NEWS_MS = 2 * MINUTE;

/** One rig that a notice speaks of. `since`: when its paint was mixed; only a flush confirmed after that settles it. */
export interface BackstopRig {
  readonly rig: RigId;
  readonly name: string;
  readonly since: Instant;
  /** Times as the notice says them, on the site's clock. */
  readonly by: string;
  readonly deadAt: string;
}

/** A notice to be posted by the chat service itself at `postAt`, also when Potbell does not run. */
export interface Backstop {
  /** Stands in the text, so that the notice is known again without anything else: see `refIn`. */
  readonly ref: string;
  readonly rig: string;
  readonly postAt: Instant;
  /** As people read it; not escaped for any platform. */
  readonly text: string;
  readonly rigs: readonly BackstopRig[];
}

/** The paint of this rig was last confirmed to be out at `at`; no older paint is in it. */
export interface ConfirmedFlush {
  readonly rig: RigId;
  readonly at: Instant;
  readonly time: string;
  readonly person: string;
}

/** What one shift wants of its backstops, all of it. Another shift's notices are no business of this one. */
export interface BackstopDay {
  readonly date: string;
  readonly wanted: readonly Backstop[];
  readonly confirmed: readonly ConfirmedFlush[];
  readonly call: string;
}

export function backstopDay(shift: Shift, now: Instant, texts: Texts): BackstopDay {
  return {
    date: shift.date,
    wanted: wantedBackstops(shift, now, texts),
    confirmed: confirmedFlushes(shift),
    call: shift.day.emergency.call,
  };
}

/**
 * BS1: one notice for each rig with mixed paint, for whichever of pot and line has its time first; none for a time that
 * has passed. An ended flush without a confirmed primary flush leaves the paint in, and the notice stands.
 */
export function wantedBackstops(shift: Shift, now: Instant, texts: Texts): readonly Backstop[] {
  return Object.keys(shift.rigs).flatMap((rig) => {
    const [first] = rigClocks(shift, rig)
      .map((clock) => ({ clock, postAt: postTime(shift, rig, clock) }))
      .filter(({ postAt }) => postAt > now)
      .sort((x, y) => x.postAt - y.postAt);
    return first ? [notice(shift, rig, first.clock, first.postAt, texts)] : [];
  });
}

/**
 * BS2: not before the bell that says "start the flush"; later by as much as it takes for a crew that stops at use-by to
 * have confirmed, if the paint can still be got out from then. News that puts the time into the past (a hose found warm)
 * counts from when it came, as the bells do. Whole seconds, early side.
 */
function postTime(shift: Shift, rig: RigId, { mixed, times }: RigClock): Instant {
  const spec = shift.day.rigs[rig];
  const primaryMs = spec ? flushPlanOf(shift.day, spec).primaryMinutes * MINUTE : 0;
  const confirmed = times.useBy + primaryMs + CLEAR_OF_CONFIRM_MS;
  const lastUse = times.deadAt - primaryMs - TO_THE_PUMP_MS;
  const at = confirmed <= lastUse ? Math.max(times.startFlushBy, confirmed) : times.startFlushBy;
  const inTime = at >= mixed.notedAt + MINUTE ? at : mixed.notedAt + AFTER_NEWS_MS;
  return Math.floor(inTime / 1000) * 1000;
}

function notice(
  shift: Shift,
  rig: RigId,
  { mixed, times }: RigClock,
  postAt: Instant,
  texts: Texts,
): Backstop {
  const { timeZone } = shift.day.site;
  const name = rigName(shift, rig);
  const by = clockTimeOn(postAt, timeZone, shift.date);
  const deadAt = clockTimeOn(times.deadAt, timeZone, shift.date);
  // Minutes from mixing stand for the deadline: a moved one gets a ref of its own, without anybody counting.
  const minutes = Math.floor((postAt - mixed.mixedAt) / MINUTE);
  const ref = `${dayPart(shift.date)}-${mixed.batch}${lettersOf(minutes)}`;
  const text = texts.say('backstop.notice', { ref, rig: name, by, deadAt, call: shift.day.emergency.call });
  return { ref, rig, postAt, text, rigs: [{ rig, name, since: mixed.mixedAt, by, deadAt }] };
}

/** "0608": with this begins every ref of the shift. */
export function dayPart(date: string): string {
  return date.slice(5, 7) + date.slice(8, 10);
}

/** Rigs whose paint is out, by the primary flush as it was confirmed; skipped is not confirmed. */
export function confirmedFlushes(shift: Shift): readonly ConfirmedFlush[] {
  return Object.entries(shift.rigs).flatMap(([rig, state]) => {
    const flushes = state.flush ? [...state.flushes, state.flush] : state.flushes;
    const last = flushes
      .map(({ steps }) => steps['primary-flush'])
      .filter((step) => step?.kind === 'done')
      .at(-1);
    if (!last) return [];
    if ([state.pot, state.line].some((inside) => inside !== null && inside.mixedAt <= last.at)) return [];
    const time = clockTimeOn(last.at, shift.day.site.timeZone, shift.date);
    return [{ rig, at: last.at, time, person: nameOf(shift, last.by) }];
  });
}
