import { type FlushStep, flushSteps } from '../model/checks.ts';
import type { CarryOver } from '../model/day.ts';
import type { RigState, Shift, StepOutcome } from '../model/shift.ts';
import { clockTime, type Instant } from '../model/time.ts';
import { rigClocks } from './clocks.ts';
import { coatsToCarry } from './coats.ts';
import { crewMemory } from './crew-memory.ts';
import { type Apply, accept, type Decide, foremanOf, nameOf, refuse } from './decision.ts';
import { rigName } from './rig-update.ts';

/** SR1: what is still open at the end, as text ids with names; empty means nothing is left in a line or unanswered. */
export function openItems(shift: Shift): readonly {
  readonly text: 'open.mixed-paint' | 'open.flush' | 'open.concern' | 'open.stop' | 'open.tag';
  readonly name: string;
}[] {
  const rigs = Object.entries(shift.rigs);
  return [
    ...(shift.stop ? [{ text: 'open.stop', name: '' } as const] : []),
    ...rigs
      .filter(([, state]) => !state.flush && (state.line || state.pot))
      .map(([rig]) => ({ text: 'open.mixed-paint', name: rigName(shift, rig) }) as const),
    ...rigs
      .filter(([, state]) => state.flush)
      .map(([rig]) => ({ text: 'open.flush', name: rigName(shift, rig) }) as const),
    ...shift.concerns
      .filter(({ resolved }) => !resolved)
      .map(({ text }) => ({ text: 'open.concern', name: text }) as const),
    ...rigs
      .filter(([, state]) => state.tag)
      .map(([rig]) => ({ text: 'open.tag', name: rigName(shift, rig) }) as const),
  ];
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
  const open = openItems(shift);
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
  const flushed = new Set(rigs.filter(([, state]) => state.flushes.length > 0).map(([rig]) => rig));
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
      ...(shift.carriedIn?.skippedSteps ?? []).filter(({ rig }) => !flushed.has(rig)),
      ...rigs.flatMap(([rig, state]) => missedSteps(state).map((missed) => ({ rig, ...missed }))),
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

/** Steps left out with a reason, and those a flush that was begun never got to. */
function missedSteps({
  flushes,
  flush,
}: RigState): readonly { readonly step: FlushStep; readonly reason: string }[] {
  const skipped = [...flushes, ...(flush ? [flush] : [])].flatMap(({ steps }) =>
    flushSteps.flatMap((step) => {
      const outcome = steps[step];
      return outcome?.kind === 'skipped' ? [{ step, reason: outcome.reason }] : [];
    }),
  );
  const open = flush ? flushSteps.filter((step) => flush.steps[step] === undefined) : [];
  return [...skipped, ...open.map((step) => ({ step, reason: '–' }))];
}
