import type { Clock } from '../../src/ports.ts';
import type { Log } from './log.ts';

export interface SteadyClock extends Clock {
  /** Said in the health page while times shown may differ from the wall; null when all is well. */
  problem(): string | null;
}

/** A wall clock that differs this much from elapsed time has been set, not drifted. */
const JUMP_MS = 2_000;

/**
 * The one place that reads the machine's clock. Pot life is elapsed time: when the wall clock is set back, this one goes
 * on with the monotonic clock until the wall has caught up, so that no bell waits out the difference. Set forward, it
 * follows: a bell too early is heard, a bell too late is not. Both are logged.
 */
export function steadyClock(
  log: Log,
  wall: () => number = Date.now,
  monotonic: () => number = () => performance.now(),
): SteadyClock {
  let wallAt = wall();
  let monotonicAt = monotonic();
  let jumped = false;
  let last = Math.round(wallAt);
  return {
    problem: () =>
      jumped
        ? 'The clock of this machine was set back. Bells go on by elapsed time, and times shown may be ahead of the wall clock. Check the clock; restart Potbell when no paint is in a line.'
        : null,
    now() {
      const elapsed = Math.max(0, monotonic() - monotonicAt);
      const expected = wallAt + elapsed;
      const shown = wall();
      if (shown < expected - JUMP_MS) {
        if (!jumped)
          log.error(
            { expected, shown },
            'the clock of this machine was set back; bells go on by elapsed time',
          );
        jumped = true;
        last = Math.max(last, Math.round(expected));
        return last;
      }
      if (shown > expected + JUMP_MS)
        log.warn({ expected, shown }, 'the clock of this machine jumped forward (set, or it slept)');
      jumped = false;
      // Never a step back, not even by the small correction that a time server makes.
      last = Math.max(last, Math.round(shown));
      wallAt = shown;
      monotonicAt = monotonic();
      return last;
    },
  };
}
