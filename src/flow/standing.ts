import type { Rig } from '../model/rig.ts';
import type { Mixed, RigState, Shift, SunStand } from '../model/shift.ts';
import { type Instant, MINUTE } from '../model/time.ts';
import type { TemperatureStep } from '../trade/dose.ts';
import { hoseSolAirC, hoseTimeConstantMinutes, stalledHoseC } from '../trade/sun.ts';
import { tempAt, warmest } from './mixed-history.ts';

/**
 * PL12, PL13, PL14: a hose that stands still in the sun warms, and so does the paint in it. Until somebody measures the hose its
 * temperature is estimated and counted beside what is known, the warmer of the two. Everything is computed from the stand
 * as it was noted, so the bells for it are known the moment the rig pauses.
 */

/** The estimate is a staircase; each step counts as warm as its end. */
const STEP_MS = 2 * MINUTE;
/** After so many time constants less than 2 % of the way is left, and the rest is counted at once. */
const TIME_CONSTANTS = 4;

/** The line with the estimated temperatures in its history: what the clocks go by. */
export function asCounted(line: Mixed): Mixed {
  const stands = line.sun ?? [];
  const last = stands.at(-1);
  if (!last) return line;
  const steps = stands.flatMap(estimatedSteps);
  const estimate = (at: Instant) => steps.findLast((step) => step.at <= at)?.c ?? Number.NEGATIVE_INFINITY;
  const moments = [...line.history, ...steps].map(({ at }) => at);
  const history = warmest(moments, [(at) => tempAt(line, at), estimate]);
  return { ...line, history, notedAt: Math.max(line.notedAt, last.from) };
}

/**
 * The estimate of one stand, °C from each moment on. A stand that ended keeps the warmth it had then; the step it ended in
 * counts as it did while it stood, so that going on makes no paint younger.
 */
function estimatedSteps(stand: SunStand): readonly TemperatureStep[] {
  const { from, until } = stand;
  const wholeWay = from + TIME_CONSTANTS * hoseTimeConstantMinutes(stand.boreMm) * MINUTE;
  const end = Math.min(until ?? wholeWay, wholeWay);
  const steps: TemperatureStep[] = [];
  for (let at = from; at < end; at += STEP_MS)
    steps.push({ at, c: estimateAt(stand, Math.min(at + STEP_MS, wholeWay)) });
  const held = until === null || until > wholeWay ? warmestOf(stand) : estimateAt(stand, until);
  return [...steps, { at: end, c: capped(stand, held) }];
}

function estimateAt(stand: SunStand, at: Instant): number {
  return capped(stand, stalledHoseC({ ...stand, minutes: (at - stand.from) / MINUTE }));
}

function warmestOf({ startC, airC, colour }: SunStand): number {
  return Math.max(startC, hoseSolAirC(airC, colour));
}

function capped({ mostC }: SunStand, c: number): number {
  return mostC === undefined ? c : Math.min(c, mostC);
}

/** The estimated temperature at a moment, °C, when it is what the line is counted by; null when it is not. */
export function estimatedC(line: Mixed, at: Instant): number | null {
  const counted = tempAt(asCounted(line), at);
  return line.sun?.length && counted > tempAt(line, at) ? counted : null;
}

/** The stand that has not ended, if there is one. */
export function openStand(line: Mixed | null): SunStand | undefined {
  return line?.sun?.find(({ until }) => until === null);
}

/** PL12: the line begins to stand still. On a day without sun, or in a stand already noted, nothing changes. */
export function standBegun(
  { day, readings }: Pick<Shift, 'day' | 'readings'>,
  rig: Rig | undefined,
  line: Mixed | null,
  at: Instant,
): Mixed | null {
  if (!line || !rig || !day.entry.weather.sun || openStand(line)) return line;
  const from = Math.max(at, line.mixedAt);
  const expected = [day.entry.weather.airC, ...day.entry.forecast.map(({ airC }) => airC)];
  const stand: SunStand = {
    from,
    until: null,
    startC: tempAt(asCounted(line), from),
    airC: Math.max(...expected, readings.at(-1)?.airC ?? Number.NEGATIVE_INFINITY),
    colour: rig.hoseColour,
    boreMm: Math.min(...rig.hoses.map(({ boreMm }) => boreMm)),
  };
  return { ...line, sun: [...(line.sun ?? []), stand] };
}

/** PL13: the line moves again. What it aged and the warmth it has stay until it is measured or the line is renewed. */
export function standEnded(line: Mixed | null, at: Instant): Mixed | null {
  if (!line?.sun) return line;
  const sun = line.sun.map((stand) =>
    stand.until === null ? { ...stand, until: Math.max(at, stand.from) } : stand,
  );
  return { ...line, sun };
}

/**
 * PL14: the hose was measured. That goes before every estimate since the last reading: a hose in the sun only warms, so that
 * it never was warmer than it is now; where it has been sprayed through since, the paint that stood is out. From now on the
 * reading counts. Taken before a standing hose had time to warm, it is where the estimate goes on from.
 */
export function hoseMeasured(line: Mixed, at: Instant, c: number): Mixed {
  const open = openStand(line);
  const was = asCounted({
    ...line,
    sun: (line.sun ?? []).map((stand) => ({ ...stand, mostC: c })),
  });
  const moment = Math.max(at, line.mixedAt);
  const { sun: _estimates, ...known } = line;
  const past = was.history.filter((step) => step.at < moment);
  const measured = { ...known, history: [...past, { at: moment, c }], notedAt: at, warm: false, ownC: true };
  const early = open && moment - (open.first ?? open.from) < hoseTimeConstantMinutes(open.boreMm) * MINUTE;
  if (!early) return measured;
  return { ...measured, sun: [{ ...open, from: moment, first: open.first ?? open.from, startC: c }] };
}

/** A warmer air reading warms the estimate of every line that stands in the sun, from the start of its stand. */
export function airWarmer(shift: Shift, airC: number, at: Instant): Shift {
  return withLines(shift, ({ line }) => {
    const open = openStand(line);
    if (!line || !open || open.airC >= airC) return line;
    const sun = line.sun?.map((stand) => (stand === open ? { ...stand, airC } : stand)) ?? [];
    return { ...line, sun, notedAt: at };
  });
}

/** The day says sun where it said none: lines that stand still have been in it since they stopped or were measured. */
export function sunNoted(before: Shift, shift: Shift, at: Instant): Shift {
  if (before.day.entry.weather.sun) return shift;
  return withLines(shift, ({ line, pausedAt }, rig) => {
    if (!line || pausedAt === null) return line;
    const measuredAt = line.ownC && !line.warm ? (line.history.at(-1)?.at ?? pausedAt) : pausedAt;
    const standing = standBegun(shift, shift.day.rigs[rig], line, Math.max(pausedAt, measuredAt));
    return standing === line ? line : standing && { ...standing, notedAt: at };
  });
}

/** PL13: fresh paint has taken over the line. Older warmth goes with the older paint; a stand still open is its own now. */
export function standOfFresh(line: Mixed | null, fresh: Mixed): Mixed {
  const open = openStand(line);
  if (!open) return fresh;
  const from = Math.max(open.from, fresh.mixedAt);
  return { ...fresh, sun: [{ ...open, from, startC: tempAt(fresh, from) }] };
}

function withLines(shift: Shift, change: (state: RigState, rig: string) => Mixed | null): Shift {
  const rigs = Object.entries(shift.rigs).map(([id, state]) => {
    const line = change(state, id);
    return [id, line === state.line ? state : { ...state, line }] as const;
  });
  return { ...shift, rigs: Object.fromEntries(rigs) };
}
