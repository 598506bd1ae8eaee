import type { Mixed, RigState, Shift } from '../model/shift.ts';
import type { Instant } from '../model/time.ts';
import {
  type Apply,
  accept,
  type Context,
  type Decide,
  type Decision,
  personOf,
  refuse,
} from './decision.ts';
import { rigOf, withRig } from './rig-update.ts';

/** A command that only makes sense while mixed paint is in the rig. */
function whileMixed(
  shift: Shift,
  rigId: string,
  context: Context,
  decide: (state: RigState, rigName: string) => Decision,
): Decision {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const found = rigOf(shift, rigId);
  if ('refused' in found) return found;
  if (!found.state.line && !found.state.pot) return refuse('refusal.no-mixed-paint', { rig: found.rig.name });
  return decide(found.state, found.rig.name);
}

/** PL7: a new paint temperature moves every time that follows from it, at once. */
export const decidePotTemperature: Decide<'pot-temperature'> = (shift, { rig, c }, context) =>
  whileMixed(shift, rig, context, () =>
    accept({ type: 'temperature-noted', rig, where: 'pot', c, basis: 'measured' }),
  );

/** PL8: a measured hose temperature is the line's own, warmer or cooler. */
export const decideHoseTemperature: Decide<'hose-temperature'> = (shift, { rig, c }, context) =>
  whileMixed(shift, rig, context, () =>
    accept({ type: 'temperature-noted', rig, where: 'hose', c, basis: 'measured' }),
  );

/** PL9: felt warm, not measured: the line counts as warmer by the site's policy. Never makes a clock later. */
export const decideHoseWarm: Decide<'hose-warm'> = (shift, { rig }, context) =>
  whileMixed(shift, rig, context, (state, name) => {
    const last = state.line?.history.at(-1)?.c;
    if (last === undefined) return refuse('refusal.no-mixed-paint', { rig: name });
    const ambient = Math.max(last, shift.day.entry.weather.airC, shift.readings.at(-1)?.airC ?? -Infinity);
    const c = Math.min(
      80,
      Math.max(ambient, state.pot?.history.at(-1)?.c ?? -Infinity) + shift.day.policy.warmHoseAddsC,
    );
    if (state.line?.warm === true) return refuse('refusal.already-warm', { rig: name, c: last });
    return accept({ type: 'temperature-noted', rig, where: 'hose', c, basis: 'felt-warm' });
  });

export const applyTemperature: Apply<'temperature-noted'> = (shift, event, { at }) =>
  withRig(shift, event.rig, (state) => {
    if (event.where === 'hose') {
      const warm = event.basis === 'felt-warm';
      return { ...state, line: state.line && { ...stepped(state.line, at, event.c), warm, ownC: true } };
    }
    return {
      ...state,
      pot: state.pot && stepped(state.pot, at, event.c),
      line: state.line && lineFromPot(state, state.line, at, event.c),
    };
  });

/**
 * The line takes the pot's reading while it holds the same batch and has no reading of its own; otherwise only a warmer
 * one, so that a cool pot never lengthens the life of paint standing in a warm hose.
 */
function lineFromPot(state: RigState, line: Mixed, at: Instant, c: number): Mixed {
  const sameBatch = state.pot === null || state.pot.batch === line.batch;
  const now = line.history.at(-1)?.c ?? c;
  if ((sameBatch && !line.ownC) || c > now) return stepped(line, at, c);
  return line;
}

function stepped(mixed: Mixed, at: Instant, c: number): Mixed {
  return { ...mixed, history: [...mixed.history, { at: Math.max(at, mixed.mixedAt), c }] };
}

/** PA1: spraying stops for a while; the paint in the line stands still and goes on ageing. */
export const decidePause: Decide<'pause'> = (shift, { rig, why }, context) =>
  whileMixed(shift, rig, context, (state, name) =>
    state.pausedAt === null
      ? accept({ type: 'paused', rig, why })
      : refuse('refusal.already-paused', { rig: name }),
  );

export const decideResume: Decide<'resume'> = (shift, { rig }, context) =>
  whileMixed(shift, rig, context, (state, name) =>
    state.pausedAt === null ? refuse('refusal.not-paused', { rig: name }) : accept({ type: 'resumed', rig }),
  );

export const applyPaused: Apply<'paused'> = (shift, { rig }, { at }) =>
  withRig(shift, rig, (state) => ({ ...state, pausedAt: at }));

export const applyResumed: Apply<'resumed'> = (shift, { rig }) =>
  withRig(shift, rig, (state) => ({ ...state, pausedAt: null }));

/** PL10: the pot is empty (used or thrown away); the line still holds paint and its clock goes on. */
export const decidePotEmpty: Decide<'pot-empty'> = (shift, { rig, wastedL }, context) =>
  whileMixed(shift, rig, context, (state, name) =>
    state.pot
      ? accept({ type: 'pot-emptied', rig, wastedL })
      : refuse('refusal.pot-already-empty', { rig: name }),
  );

export const applyPotEmptied: Apply<'pot-emptied'> = (shift, { rig }) =>
  withRig(shift, rig, (state) => ({ ...state, pot: null, renewLitres: null }));

/** PL5: enough of the fresh batch has gone through the gun: the line counts as that batch from now on. */
export const decideLineRenewed: Decide<'line-renewed'> = (shift, { rig, sprayedL }, context) =>
  whileMixed(shift, rig, context, (state, name) => {
    if (!state.pot || state.renewLitres === null) return refuse('refusal.line-is-fresh', { rig: name });
    if (sprayedL < state.renewLitres)
      return refuse('refusal.line-not-renewed', { rig: name, litres: sprayedL, needed: state.renewLitres });
    const mixed = state.batches
      .filter(({ id }) => id === state.pot?.batch)
      .reduce((sum, one) => sum + one.litres + one.thinnerL, 0);
    if (sprayedL > mixed) return refuse('refusal.sprayed-more-than-mixed', { litres: sprayedL, mixed });
    return accept({ type: 'line-renewed', rig, sprayedL });
  });

/** A warm hose warms the fresh batch as well: the hose's own temperature goes over to it. */
export const applyLineRenewed: Apply<'line-renewed'> = (shift, { rig }, { at }) =>
  withRig(shift, rig, (state) => {
    if (!state.pot) return state;
    const own = state.line?.ownC ? state.line.history.at(-1)?.c : undefined;
    const potC = state.pot.history.at(-1)?.c ?? -Infinity;
    const line = own !== undefined && own > potC ? { ...stepped(state.pot, at, own), ownC: true } : state.pot;
    return { ...state, line, renewLitres: null };
  });
