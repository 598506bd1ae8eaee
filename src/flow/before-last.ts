import { beforeRelief } from '../model/checks.ts';
import type { EventBody, EventOf, EventType } from '../model/event.ts';
import type { RigId } from '../model/id.ts';
import type { BeforeLast, Mixed, RigState, Shift } from '../model/shift.ts';
import type { Instant } from '../model/time.ts';
import { tempAt } from './mixed-history.ts';
import { withRig } from './rig-update.ts';
import { feltWarmC } from './spraying.ts';
import { asCounted } from './standing.ts';

/**
 * Events of a rig after which it is still known what would be in it without its last batch. Any other makes it unknown:
 * that is the safe answer for an event that nobody has thought about yet.
 */
const keepsKnown: readonly EventType[] = [
  'rig-checked',
  'rig-tagged',
  'tag-cleared',
  'fan-tested',
  'mix-temperature-mended',
  'bell-rang',
  'temperature-noted',
  'paused',
  'resumed',
  'flush-started',
  'flush-abandoned',
];

/** The same event, as it changes a shift. */
type Change = (shift: Shift, body: EventBody) => Shift;

/**
 * BA8: keeps beside each rig what would be in it had its last batch not been logged: every event is let happen to that
 * as well. Once paint has moved it is forgotten.
 */
export function keepBeforeLast(
  before: Shift,
  after: Shift,
  body: EventBody,
  at: Instant,
  change: Change,
): Shift {
  if (body.type === 'batch-mixed') {
    const { rig, id } = body.batch;
    const state = before.rigs[rig];
    return withRig(after, rig, (one) => ({ ...one, beforeLast: state ? paintOf(id, state) : null }));
  }
  const about = 'rig' in body ? body.rig : null;
  return Object.entries(before.rigs).reduce((shift, [rig, { beforeLast }]) => {
    if (!beforeLast || shift.rigs[rig]?.beforeLast !== beforeLast) return shift;
    const kept =
      about === null || (about === rig && known(body))
        ? happened(before, rig, beforeLast, body, at, change)
        : about === rig
          ? null
          : beforeLast;
    return kept === beforeLast ? shift : withRig(shift, rig, (one) => ({ ...one, beforeLast: kept }));
  }, after);
}

function known(body: EventBody): boolean {
  if (body.type === 'step-confirmed') return beforeRelief.includes(body.step);
  return keepsKnown.includes(body.type);
}

function paintOf(batch: string, { pot, line, renewLitres, pausedAt }: RigState): BeforeLast {
  return { batch, pot, line, renewLitres, pausedAt };
}

function happened(
  before: Shift,
  rig: RigId,
  kept: BeforeLast,
  body: EventBody,
  at: Instant,
  change: Change,
): BeforeLast {
  // Mending its temperature changes the last batch only.
  if (body.type === 'mix-temperature-mended') return kept;
  // A rig that would be empty is not paused, and one that would be paused already is not paused again.
  const empty = kept.pot === null && kept.line === null;
  if (body.type === 'paused' && (empty || kept.pausedAt !== null)) return kept;
  const state = before.rigs[rig];
  if (!state) return kept;
  const { batch, ...paint } = kept;
  const alone = withRig(before, rig, (one) => ({ ...one, ...paint }));
  const then = (event: EventBody): BeforeLast => {
    const next = change(alone, event).rigs[rig];
    return next ? paintOf(batch, next) : kept;
  };
  if (body.type === 'temperature-noted') {
    // A hose felt warm is counted from the paint in it: where the older paint was warmer, from that.
    const noted = body.basis === 'felt-warm' ? atLeast(body, feltWarmC(before, kept)) : body;
    const { pot } = then(atLeast(noted, lastC(kept.pot)));
    const { line } = then(atLeast(noted, body.where === 'hose' ? countedC(kept.line, at) : lastC(kept.line)));
    return { ...kept, pot, line };
  }
  const found = then(body);
  return same(kept, found) ? kept : found;
}

/** A cooler figure may have been measured in the very paint that was never here: it gives older paint no time. */
function atLeast(noted: EventOf<'temperature-noted'>, c: number): EventOf<'temperature-noted'> {
  return { ...noted, c: Math.max(noted.c, c) };
}

function same(one: BeforeLast, other: BeforeLast): boolean {
  return (['pot', 'line', 'renewLitres', 'pausedAt'] as const).every((part) => one[part] === other[part]);
}

/** The last noted temperature, or what standing in the sun is counted as, the warmer of the two. */
function countedC(line: Mixed | null, at: Instant): number {
  return line ? Math.max(lastC(line), tempAt(asCounted(line), at)) : Number.NEGATIVE_INFINITY;
}

function lastC(mixed: Mixed | null): number {
  return mixed?.history.at(-1)?.c ?? Number.NEGATIVE_INFINITY;
}
