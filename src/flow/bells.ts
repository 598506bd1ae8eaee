import { needsToSign } from '../briefing/build.ts';
import { flushPlanOf } from '../facts/flush-plan.ts';
import type { PersonId, RigId } from '../model/id.ts';
import type { BellLevel, Shift } from '../model/shift.ts';
import { type Instant, MINUTE } from '../model/time.ts';
import { inductionMinutes } from '../trade/induction.ts';
import { conflictsOf, type RigClock, rigClocks } from './clocks.ts';
import { nextReadingDue } from './holds.ts';
import { openItems } from './shift-record.ts';

export const bellKinds = [
  'unsigned',
  'concern',
  'stop-work',
  'reading-due',
  'induction-over',
  'before-break',
  'before-end',
  'use-by-soon',
  'use-by',
  'start-flush',
  'dead',
  'flush-stalled',
  'shift-end',
] as const;
export type BellKind = (typeof bellKinds)[number];

/** A bell that should ring, as computed from the shift: nothing sets it and nothing has to cancel it. */
export interface WantedBell {
  readonly key: string;
  readonly kind: BellKind;
  readonly dueAt: Instant;
  readonly rig: RigId | null;
  readonly person: PersonId | null;
  /** Whom the first ring is for. `once` bells inform and do not escalate. */
  readonly first: BellLevel;
  readonly once: boolean;
  /** When the news came that makes it due; due times before it are due from then, and not late. */
  readonly knownAt: Instant;
  /** From then on a louder bell of the same clock speaks; this one rings no more. */
  readonly until: Instant | null;
}

/** BE1: every bell this shift wants now, rung or not. */
export function wantedBells(shift: Shift): readonly WantedBell[] {
  if (shift.status === 'closed') return [];
  return [
    ...signOffBells(shift),
    ...holdBells(shift),
    ...readingBells(shift),
    ...Object.keys(shift.rigs).flatMap((rig) => rigBells(shift, rig)),
    ...endBells(shift),
  ];
}

function bell(
  kind: BellKind,
  key: string,
  dueAt: Instant,
  more: Partial<Omit<WantedBell, 'key' | 'kind' | 'dueAt'>> = {},
): WantedBell {
  return {
    key: `${kind}:${key}`,
    kind,
    // Whole milliseconds, rounded to the early side.
    dueAt: Math.floor(dueAt),
    rig: null,
    person: null,
    first: 'crew',
    once: false,
    until: null,
    knownAt: Math.floor(dueAt),
    ...more,
  };
}

function signOffBells(shift: Shift): readonly WantedBell[] {
  if (shift.issuedAt === null) return [];
  return shift.day.crew.flatMap((person) => {
    const state = shift.people[person];
    if (!state || state.askedAt === null || needsToSign(shift.briefing, state.signed).length === 0) return [];
    // Somebody who raised a concern instead is not chased for the sign-off they held back.
    const own = shift.concerns.filter(({ by }) => by === person);
    if (own.some(({ resolved }) => !resolved)) return [];
    const asked = Math.max(state.askedAt, ...own.map(({ resolved }) => resolved?.at ?? 0));
    const dueAt = asked + shift.day.policy.chaseSignOffMinutes * MINUTE;
    return [bell('unsigned', `${person}:${shift.briefing.revision}`, dueAt, { person })];
  });
}

/** Concern and stop-work are cried out when they happen; these bells ask again while nobody has dealt with them. */
function holdBells(shift: Shift): readonly WantedBell[] {
  const { foremanAfterMinutes, repeatEveryMinutes } = shift.day.policy;
  const open = shift.concerns.filter(({ resolved }) => !resolved);
  return [
    ...open.map(({ id, at }) => bell('concern', id, at + foremanAfterMinutes * MINUTE, { first: 'foreman' })),
    ...(shift.stop
      ? [
          bell('stop-work', String(shift.stop.at), shift.stop.at + repeatEveryMinutes * MINUTE, {
            first: 'foreman',
          }),
        ]
      : []),
  ];
}

function readingBells(shift: Shift): readonly WantedBell[] {
  const last = shift.readings.at(-1);
  if (!last) return [];
  // With every line flushed there is nothing to measure for; the next batch meets the old reading as a hold.
  const rigs = Object.values(shift.rigs);
  const spraying = rigs.some(({ line, pot }) => line || pot);
  const before = rigs.every(({ batches }) => batches.length === 0);
  const dueAt = nextReadingDue(shift, last);
  if (dueAt >= shift.day.endsAt || !(spraying || before)) return [];
  return [
    bell('reading-due', String(last.at), dueAt, {
      until: shift.day.endsAt,
      knownAt: spraying ? firstPaint(shift) : dueAt,
    }),
  ];
}

/** When the paint now in the lines began to come in: before that there was nothing to measure for. */
function firstPaint(shift: Shift): Instant {
  const logged = Object.values(shift.rigs).flatMap(({ line, pot, batches }) =>
    [line, pot].flatMap((mixed) => batches.find(({ id }) => id === mixed?.batch)?.loggedAt ?? []),
  );
  return logged.length === 0 ? shift.postedAt : Math.min(...logged);
}

function rigBells(shift: Shift, rig: RigId): readonly WantedBell[] {
  const state = shift.rigs[rig];
  if (!state) return [];
  if (state.flush) return flushBells(shift, rig);
  const clocks = rigClocks(shift, rig);
  return [
    ...clocks.flatMap((clock) => clockBells(shift, rig, clock)),
    ...earliestOfEach(clocks.flatMap((clock) => conflictBells(shift, rig, clock))),
    ...inductionBells(shift, rig),
  ];
}

/** Pot and line can run into the same break; it is said once, by the one that has less time. */
function earliestOfEach(bells: readonly WantedBell[]): readonly WantedBell[] {
  const byKey = new Map<string, WantedBell>();
  for (const one of bells) {
    const other = byKey.get(one.key);
    if (!other || one.dueAt < other.dueAt) byKey.set(one.key, one);
  }
  return [...byKey.values()];
}

/** BE4: the bells of one clock, named by the batch that governs it, so that a fresh pot brings bells of its own. */
function clockBells(shift: Shift, rig: RigId, clock: RigClock): readonly WantedBell[] {
  const { useBy, startFlushBy, deadAt } = clock.times;
  const key = `${rig}:${clock.where}:${clock.mixed.batch}`;
  const soon = Math.max(clock.mixed.mixedAt, useBy - shift.day.policy.warnBeforeMinutes * MINUTE);
  const knownAt = clock.mixed.notedAt;
  const bells = [bell('use-by-soon', key, soon, { rig, once: true, knownAt, until: useBy })];
  // When the flush takes all the time there is, "use by" and "start the flush" are one moment and ring once.
  if (startFlushBy - useBy >= MINUTE)
    bells.push(bell('use-by', key, useBy, { rig, until: startFlushBy, knownAt }));
  bells.push(
    bell('start-flush', key, startFlushBy, { rig, until: deadAt, knownAt }),
    bell('dead', key, deadAt, { rig, knownAt }),
  );
  return bells;
}

/** BE5: paint that will not last over the break or has to be out by the end is said before, with the time to start. */
function conflictBells(shift: Shift, rig: RigId, clock: RigClock): readonly WantedBell[] {
  const warn = shift.day.policy.warnBeforeMinutes * MINUTE;
  const { batch, mixedAt, notedAt: knownAt } = clock.mixed;
  return conflictsOf(shift.day, rig, clock, mixedAt).map((conflict) => {
    const dueAt = Math.max(mixedAt, conflict.flushBy - warn);
    const which = conflict.kind === 'break' ? `${batch}:${conflict.index}` : batch;
    return bell(`before-${conflict.kind}`, `${rig}:${which}`, dueAt, {
      rig,
      knownAt,
      until: clock.times.useBy,
    });
  });
}

function inductionBells(shift: Shift, rig: RigId): readonly WantedBell[] {
  const state = shift.rigs[rig];
  const batch = state?.batches.at(-1);
  const table = batch && shift.day.coatings[batch.coating]?.induction;
  if (!batch || !table || table.length === 0 || !state?.pot) return [];
  const { minutes } = inductionMinutes(table, batch.paintC);
  return [
    bell('induction-over', batch.id, batch.at + minutes * MINUTE, {
      rig,
      once: true,
      knownAt: batch.loggedAt,
    }),
  ];
}

/** Minutes without a confirmed step before a flush is chased; the first flush alone may take longer than the policy. */
export function flushPatience(shift: Shift, rig: RigId): number {
  const spec = shift.day.rigs[rig];
  const primary = spec ? flushPlanOf(shift.day, spec).primaryMinutes : 0;
  return Math.max(shift.day.policy.flushStepMinutes, primary);
}

/** BE6: a flush that has begun is chased when no step is confirmed for a while; paint past its life still rings. */
function flushBells(shift: Shift, rig: RigId): readonly WantedBell[] {
  const flush = shift.rigs[rig]?.flush;
  if (!flush) return [];
  const answers = Object.values(flush.steps);
  const lastAt = Math.max(flush.startedAt, ...answers.map((step) => step.at));
  return [
    bell('flush-stalled', `${flush.id}:${answers.length}`, lastAt + flushPatience(shift, rig) * MINUTE, {
      rig,
    }),
    ...rigClocks(shift, rig).map((clock) =>
      bell('dead', `${rig}:${clock.where}:${clock.mixed.batch}`, clock.times.deadAt, {
        rig,
        knownAt: clock.mixed.notedAt,
      }),
    ),
  ];
}

function endBells(shift: Shift): readonly WantedBell[] {
  const untouched = Object.values(shift.rigs).every((rig) => rig.batches.length === 0);
  if (untouched && openItems(shift).length === 0)
    return [bell('shift-end', 'close', shift.day.endsAt, { first: 'foreman', once: true })];
  return [bell('shift-end', 'close', shift.day.endsAt, { first: 'foreman' })];
}
