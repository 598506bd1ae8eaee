import { type FlushStep, flushSteps, neverSkipped } from '../model/checks.ts';
import type { CommandOf } from '../model/command.ts';
import type { EventBody } from '../model/event.ts';
import type { Flush, Shift, StepOutcome } from '../model/shift.ts';
import type { Person } from '../model/site.ts';
import { clockTime } from '../model/time.ts';
import {
  type Apply,
  accept,
  type Context,
  type Decide,
  nameOf,
  personOf,
  type Refusal,
  refuse,
} from './decision.ts';
import { rigName, rigOf, withRig } from './rig-update.ts';

/** FL1: a flush may be started any time; the steps then come in one order. */
export const decideStartFlush: Decide<'start-flush'> = (shift, command, context) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const found = rigOf(shift, command.rig);
  if ('refused' in found) return found;
  if (found.state.flush) return refuse('refusal.flush-running', { rig: found.rig.name });
  // Numbers are not used again: bells, buttons and the record know a flush by its own.
  const number = found.state.flushes.length + (found.state.abandoned?.length ?? 0) + 1;
  const flush = `${command.rig}-flush-${number}`;
  return accept({ type: 'flush-started', rig: command.rig, flush, by: who.person.id });
};

export const applyFlushStarted: Apply<'flush-started'> = (shift, event, { at }) =>
  withRig(shift, event.rig, (state) => ({
    ...state,
    pausedAt: null,
    flush: {
      id: event.flush,
      startedAt: at,
      by: event.by,
      coating: state.line?.coating ?? state.pot?.coating ?? state.batches.at(-1)?.coating ?? null,
      steps: {},
      finishedAt: null,
    },
  }));

/** The step that comes next, null when all are answered. */
export function nextStep(flush: Flush): FlushStep | null {
  return flushSteps.find((step) => flush.steps[step] === undefined) ?? null;
}

/** FL2: steps are answered one by one in order; a second press on the same step hears who was first. */
function runningStep(
  shift: Shift,
  command: CommandOf<'confirm-step'> | CommandOf<'skip-step'>,
  context: Context,
): { readonly person: Person; readonly last: boolean } | Refusal {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const found = rigOf(shift, command.rig);
  if ('refused' in found) return found;
  const { rig, state } = found;
  const flush = state.flush ?? state.flushes.find(({ id }) => id === command.flush);
  if (!flush || flush.id !== command.flush) return refuse('refusal.old-flush', { rig: rig.name });
  const before = flush.steps[command.step];
  if (before)
    return refuse('refusal.step-answered', {
      person: nameOf(shift, before.by),
      time: clockTime(before.at, shift.day.site.timeZone),
    });
  const next = nextStep(flush);
  if (next !== command.step) return refuse('refusal.step-order', { step: next ?? command.step });
  return { person: who.person, last: flushSteps.at(-1) === command.step };
}

export const decideConfirmStep: Decide<'confirm-step'> = (shift, command, context) => {
  const running = runningStep(shift, command, context);
  if ('refused' in running) return running;
  const { rig, flush, step, litres, note } = command;
  // Relieving a tagged rig is always right; pumping through it is the foreman's decision.
  if (pumping.includes(step) && shift.rigs[rig]?.tag)
    return refuse('refusal.tagged-pump', { rig: rigName(shift, rig) });
  return finishing(running.last, {
    type: 'step-confirmed',
    rig,
    flush,
    step,
    by: running.person.id,
    litres: litres ?? null,
    note,
  });
};

const pumping: readonly FlushStep[] = ['primary-flush', 'secondary-flush'];

/** FL3: a step may be left out with a reason, which the record shows; relief of pressure may not. */
export const decideSkipStep: Decide<'skip-step'> = (shift, command, context) => {
  const running = runningStep(shift, command, context);
  if ('refused' in running) return running;
  const { rig, flush, step, reason } = command;
  if (neverSkipped.includes(step)) return refuse('refusal.step-not-skipped', { step });
  return finishing(running.last, { type: 'step-skipped', rig, flush, step, by: running.person.id, reason });
};

function finishing(last: boolean, event: EventBody & { readonly rig: string; readonly flush: string }) {
  return last ? accept(event, { type: 'flush-finished', rig: event.rig, flush: event.flush }) : accept(event);
}

export const applyStepConfirmed: Apply<'step-confirmed'> = (shift, event, { at }) => {
  const outcome: StepOutcome = { kind: 'done', at, by: event.by, litres: event.litres, note: event.note };
  const answered = withStep(shift, event.rig, event.step, outcome);
  // FL4: the primary flush takes the mixed paint out of pot, pump and line: their clocks end with it, not with the start.
  if (event.step !== 'primary-flush') return answered;
  return withRig(answered, event.rig, (state) => ({
    ...state,
    pot: null,
    line: null,
    renewLitres: null,
    unflushed: null,
    carriedSettled: true,
  }));
};

export const applyStepSkipped: Apply<'step-skipped'> = (shift, event, { at }) =>
  withStep(shift, event.rig, event.step, { kind: 'skipped', at, by: event.by, reason: event.reason });

function withStep(shift: Shift, rig: string, step: FlushStep, outcome: StepOutcome): Shift {
  return withRig(shift, rig, (state) => ({
    ...state,
    flush: state.flush && { ...state.flush, steps: { ...state.flush.steps, [step]: outcome } },
  }));
}

export const applyFlushFinished: Apply<'flush-finished'> = (shift, { rig }, { at }) =>
  withRig(shift, rig, (state) => ({
    ...state,
    flush: null,
    flushes: state.flush ? [...state.flushes, { ...state.flush, finishedAt: at }] : state.flushes,
  }));
