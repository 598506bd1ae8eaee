import { type FlushStep, flushSteps } from '../model/checks.ts';
import type { CarryOver } from '../model/day.ts';
import type { RigId } from '../model/id.ts';
import type { Flush, RigState, Shift, StepOutcome } from '../model/shift.ts';
import { clockTime, type Instant } from '../model/time.ts';
import { rigClocks } from './clocks.ts';
import { coatsToCarry } from './coats.ts';
import { crewMemory } from './crew-memory.ts';
import { type Apply, accept, type Decide, foremanOf, nameOf, refuse } from './decision.ts';
import { rigName } from './rig-update.ts';

/** Something that is open at the end, as a text id with a name: a rig's, or the words of a concern. */
export type OpenItem =
  | {
      readonly text: 'open.mixed-paint' | 'open.flush' | 'open.concern' | 'open.stop' | 'open.tag';
      readonly name: string;
    }
  | {
      readonly text: 'open.step';
      readonly name: string;
      readonly rig: RigId;
      readonly step: FlushStep;
      readonly reason: string;
    };

/** SR1: what is still open at the end; empty means nothing is left in a line, left out or unanswered. */
export function openItems(shift: Shift): readonly OpenItem[] {
  const rigs = Object.entries(shift.rigs);
  return [
    ...(shift.stop ? [{ text: 'open.stop', name: '' } as const] : []),
    ...rigs
      .filter(([, state]) => !state.flush && (state.line || state.pot))
      .map(([rig]) => ({ text: 'open.mixed-paint', name: rigName(shift, rig) }) as const),
    ...rigs
      .filter(([, state]) => state.flush)
      .map(([rig]) => ({ text: 'open.flush', name: rigName(shift, rig) }) as const),
    ...leftOutSteps(shift).map(
      ({ rig, ...left }) => ({ text: 'open.step', name: rigName(shift, rig), rig, ...left }) as const,
    ),
    ...shift.concerns
      .filter(({ resolved }) => !resolved)
      .map(({ text }) => ({ text: 'open.concern', name: text }) as const),
    ...rigs
      .filter(([, state]) => state.tag)
      .map(([rig]) => ({ text: 'open.tag', name: rigName(shift, rig) }) as const),
  ];
}

/** SR2: what the foreman has to give a reason for. A step left out has its own already. */
export function needReason(shift: Shift): readonly OpenItem[] {
  return openItems(shift).filter(({ text }) => text !== 'open.step');
}

/**
 * SR2: the foreman closes the shift; what is open needs a reason and goes to the next briefing. Bells end with the shift,
 * so it is not closed over mixed paint in a line, unless the rig is tagged out and thereby held.
 */
export const decideCloseShift: Decide<'close-shift'> = (shift, command, context) => {
  const foreman = foremanOf(shift, context);
  if ('refused' in foreman) return foreman;
  for (const [id, state] of Object.entries(shift.rigs)) {
    if (!state.line && !state.pot) continue;
    const rig = rigName(shift, id);
    const deadAt = Math.max(0, ...rigClocks(shift, id).map(({ times }) => times.deadAt));
    const time = clockTime(deadAt, shift.day.site.timeZone);
    if (deadAt > context.now) return refuse('refusal.close-live-paint', { rig, time });
    if (!state.tag) return refuse('refusal.close-mixed-paint', { rig });
  }
  const open = needReason(shift);
  if (open.length > 0 && command.reason === '')
    return refuse('refusal.close-needs-reason', { count: open.length });
  const { reason } = command;
  return accept({
    type: 'shift-closed',
    by: foreman.person.id,
    reason,
    carryOver: carryOverOf(shift, context.now),
  });
};

/** SR4: a later day has taken over what this shift left; an unflushed line is a tagged rig there. Only the host asks this. */
export const decideHandOver: Decide<'hand-over'> = (shift, { to }, { now }) =>
  accept({ type: 'shift-closed', by: null, reason: to, carryOver: carryOverOf(shift, now) });

export const applyClosed: Apply<'shift-closed'> = (shift, event, { at }) => ({
  ...shift,
  status: 'closed',
  closedAt: at,
  closeReason: event.reason,
});

/** SR3: what this shift leaves behind, whether it was closed or forgotten. */
export function carryOverOf(shift: Shift, now: Instant): CarryOver {
  const rigs = Object.entries(shift.rigs);
  const done = (outcome: StepOutcome | undefined) => (outcome?.kind === 'done' ? outcome : null);
  const settled = rigs.flatMap(([rig, state]) => {
    const flush = state.flushes.at(-1);
    const away = done(flush?.steps['solvent-away']);
    if (!flush || !away || away.litres === null || away.litres === 0) return [];
    const solvent = (flush.coating && shift.day.coatings[flush.coating]?.flushSolvent) || '';
    return [{ rig, solvent, litres: away.litres }];
  });
  const flushed = flushedRigs(shift);
  const stillSettled = (shift.carriedIn?.settledSolvent ?? []).filter(({ rig }) => !flushed.has(rig));
  return {
    fromShift: shift.id,
    fromDate: shift.date,
    tags: rigs.flatMap(([rig, { tag }]) =>
      tag ? [{ rig, cause: tag.cause, text: tag.text, since: tag.at }] : [],
    ),
    unflushed: rigs.flatMap(([rig, state]) => {
      const left = state.line ?? state.pot ?? state.unflushed;
      return left ? [{ rig, coating: left.coating, mixedAt: left.mixedAt }] : [];
    }),
    skippedSteps: [
      ...leftOutSteps(shift),
      ...rigs.flatMap(([rig, { flush }]) => unreachedSteps(flush).map((missed) => ({ rig, ...missed }))),
    ],
    settledSolvent: [...stillSettled, ...settled],
    concerns: shift.concerns
      .filter(({ resolved }) => !resolved)
      .map(({ by, text }) => ({ by: nameOf(shift, by), person: by, text })),
    stop: shift.stop,
    coats: coatsToCarry(shift, now),
    ...crewMemory(shift),
  };
}

interface MissedStep {
  readonly step: FlushStep;
  readonly reason: string;
}

function flushedRigs(shift: Shift): ReadonlySet<RigId> {
  const rigs = Object.entries(shift.rigs).filter(([, { flushes }]) => flushes.length > 0);
  return new Set(rigs.map(([rig]) => rig));
}

/** Steps left out with a reason: those of this shift, and those of the last on a rig that was not flushed since. */
function leftOutSteps(shift: Shift): readonly (MissedStep & { readonly rig: RigId })[] {
  const flushed = flushedRigs(shift);
  const carried = (shift.carriedIn?.skippedSteps ?? []).filter(({ rig }) => !flushed.has(rig));
  const here = Object.entries(shift.rigs).flatMap(([rig, state]) =>
    skippedSteps(state).map((missed) => ({ rig, ...missed })),
  );
  return [...carried.map((missed) => ({ ...missed, step: missed.step as FlushStep })), ...here];
}

function skippedSteps({ flushes, flush }: RigState): readonly MissedStep[] {
  return [...flushes, ...(flush ? [flush] : [])].flatMap(({ steps }) =>
    flushSteps.flatMap((step) => {
      const outcome = steps[step];
      return outcome?.kind === 'skipped' ? [{ step, reason: outcome.reason }] : [];
    }),
  );
}

/** Steps that a flush which was begun never got to. */
function unreachedSteps(flush: Flush | null): readonly MissedStep[] {
  if (!flush) return [];
  return flushSteps.filter((step) => flush.steps[step] === undefined).map((step) => ({ step, reason: '–' }));
}
