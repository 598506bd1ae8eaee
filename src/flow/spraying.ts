import type { EventOf } from '../model/event.ts';
import type { RigId } from '../model/id.ts';
import type { Mixed, RigState, Shift } from '../model/shift.ts';
import { clockTime, type Instant, MINUTE } from '../model/time.ts';
import { inductionMinutes } from '../trade/induction.ts';
import {
  type Apply,
  accept,
  type Context,
  type Decide,
  type Decision,
  personOf,
  type Refusal,
  refuse,
} from './decision.ts';
import { rigOf, withRig } from './rig-update.ts';
import { hoseMeasured, standBegun, standEnded, standOfFresh } from './standing.ts';

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
  whileMixed(shift, rig, context, (state, name) =>
    state.pot
      ? accept({ type: 'temperature-noted', rig, where: 'pot', c, basis: 'measured' })
      : refuse('refusal.no-pot', { rig: name }),
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
    if (state.line?.warm === true) return refuse('refusal.already-warm', { rig: name, c: last });
    return accept({
      type: 'temperature-noted',
      rig,
      where: 'hose',
      c: feltWarmC(shift, state),
      basis: 'felt-warm',
    });
  });

/** PL9: what a hose that feels warm counts as, °C: over the warmest of its paint, the pot's and the air. */
export function feltWarmC({ day, readings }: Shift, { pot, line }: Pick<RigState, 'pot' | 'line'>): number {
  const known = [line?.history.at(-1)?.c, pot?.history.at(-1)?.c, readings.at(-1)?.airC];
  return (
    Math.max(day.entry.weather.airC, ...known.map((c) => c ?? Number.NEGATIVE_INFINITY)) +
    day.policy.warmHoseAddsC
  );
}

export const applyTemperature: Apply<'temperature-noted'> = (shift, event, { at }) =>
  withRig(shift, event.rig, (state) => ({ ...state, ...temperatureSeen(state, event, at) }));

type Paint = Pick<RigState, 'pot' | 'line' | 'pausedAt'>;

/** Pot and line once a temperature has been noted in one of them. */
export function temperatureSeen(
  paint: Paint,
  event: EventOf<'temperature-noted'>,
  at: Instant,
): Pick<RigState, 'pot' | 'line'> {
  const { pot, line } = paint;
  if (event.where === 'hose') {
    if (event.basis === 'measured') return { pot, line: line && hoseMeasured(line, at, event.c) };
    return { pot, line: line && { ...stepped(line, at, event.c), warm: true, ownC: true } };
  }
  return { pot: pot && stepped(pot, at, event.c), line: line && lineFromPot(paint, line, at, event.c) };
}

/**
 * The line takes the pot's reading while the same batch flows through it and it has no reading of its own; otherwise only
 * a warmer one, so that a cool pot never lengthens the life of paint standing in a warm hose.
 */
function lineFromPot(state: Paint, line: Mixed, at: Instant, c: number): Mixed {
  const flowing = state.pot?.batch === line.batch && state.pausedAt === null && !line.ownC;
  const now = line.history.at(-1)?.c ?? c;
  return flowing || c > now ? stepped(line, at, c) : line;
}

function stepped(mixed: Mixed, at: Instant, c: number): Mixed {
  return { ...mixed, history: [...mixed.history, { at: Math.max(at, mixed.mixedAt), c }], notedAt: at };
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
  withRig(shift, rig, (state) => ({
    ...state,
    pausedAt: at,
    line: standBegun(shift, shift.day.rigs[rig], state.line, at),
  }));

export const applyResumed: Apply<'resumed'> = (shift, { rig }, { at }) =>
  withRig(shift, rig, (state) => ({
    ...state,
    pausedAt: null,
    resumedAt: at,
    line: standEnded(state.line, at),
  }));

/**
 * PL10: the pot is empty (used or thrown away); the line still holds paint and its clock goes on. The line counts as the
 * fresh batch, as in PL5, only when somebody says how much of it went through the gun, and that can be.
 */
export const decidePotEmpty: Decide<'pot-empty'> = (shift, { rig, wastedL, sprayedL }, context) =>
  whileMixed(shift, rig, context, (state, name) => {
    if (!state.pot) return refuse('refusal.pot-already-empty', { rig: name });
    const mixed = litresInPot(state);
    if (wastedL + (sprayedL ?? 0) > mixed)
      return refuse('refusal.sprayed-more-than-mixed', { litres: wastedL + (sprayedL ?? 0), mixed });
    const emptied = { type: 'pot-emptied', rig, wastedL } as const;
    if (sprayedL === undefined || state.renewLitres === null || sprayedL < state.renewLitres)
      return accept(emptied);
    return (
      impossible(shift, rig, sprayedL, context.now) ??
      accept({ type: 'line-renewed', rig, sprayedL }, emptied)
    );
  });

/** Litres that cannot have gone through the gun yet: still standing, paused, or more than this pump moves in the time. */
function impossible(shift: Shift, rig: RigId, sprayedL: number, now: Instant): Refusal | null {
  const { pot, pausedAt } = shift.rigs[rig] ?? { pot: null, pausedAt: null };
  const spec = shift.day.rigs[rig];
  if (!pot || !spec) return null;
  const table = shift.day.coatings[pot.coating]?.induction ?? [];
  const wait = table.length > 0 ? inductionMinutes(table, pot.history[0]?.c ?? 0).minutes : 0;
  const minutes = Math.max(0, ((pausedAt ?? now) - pot.mixedAt) / MINUTE - wait);
  const most = minutes * spec.litresPerCycle * spec.flushCyclesPerMinute;
  if (sprayedL <= most) return null;
  if (pausedAt !== null)
    return refuse('refusal.sprayed-while-paused', {
      rig: spec.name,
      time: clockTime(pausedAt, shift.day.site.timeZone),
      litres: sprayedL,
    });
  return refuse('refusal.sprayed-too-fast', { litres: sprayedL, most: Math.floor(most * 10) / 10 });
}

/** What has been mixed into the pot since it was last empty, thinner included. */
function litresInPot(state: RigState): number {
  const from = state.batches.findLastIndex(({ pot }) => pot === 'fresh');
  return state.batches.slice(from).reduce((sum, one) => sum + one.litres + one.thinnerL, 0);
}

export const applyPotEmptied: Apply<'pot-emptied'> = (shift, { rig }) =>
  withRig(shift, rig, (state) => ({ ...state, pot: null, renewLitres: null }));

/** PL5: enough of the fresh batch has gone through the gun: the line counts as that batch from now on. */
export const decideLineRenewed: Decide<'line-renewed'> = (shift, { rig, sprayedL }, context) =>
  whileMixed(shift, rig, context, (state, name) => {
    if (!state.pot || state.renewLitres === null) return refuse('refusal.line-is-fresh', { rig: name });
    if (sprayedL < state.renewLitres)
      return refuse('refusal.line-not-renewed', { rig: name, litres: sprayedL, needed: state.renewLitres });
    const mixed = litresInPot(state);
    if (sprayedL > mixed) return refuse('refusal.sprayed-more-than-mixed', { litres: sprayedL, mixed });
    return impossible(shift, rig, sprayedL, context.now) ?? accept({ type: 'line-renewed', rig, sprayedL });
  });

/** A warm hose warms the fresh batch as well: the hose's own temperature goes over to it. */
export const applyLineRenewed: Apply<'line-renewed'> = (shift, { rig }, { at }) =>
  withRig(shift, rig, (state) => {
    if (!state.pot) return state;
    const own = state.line?.ownC ? state.line.history.at(-1)?.c : undefined;
    const potC = state.pot.history.at(-1)?.c ?? -Infinity;
    const fresh = standOfFresh(state.line, { ...state.pot, notedAt: at });
    const line = own !== undefined && own > potC ? { ...stepped(fresh, at, own), ownC: true } : fresh;
    return { ...state, line, renewLitres: null };
  });
