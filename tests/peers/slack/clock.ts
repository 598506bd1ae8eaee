/** The peer's own clock, in milliseconds since 1970. It stands still until a test moves it. */
export type PeerClock = {
  now(): number;
  /** Moves the clock and runs, in order of time, all that falls due on the way. */
  advance(ms: number): void;
  /** Runs `job` at `when` (ms); returns a way to take it back. A time already past runs at the next advance. */
  at(when: number, job: () => void): () => void;
  stop(): void;
};

type Due = { when: number; order: number; job: () => void };

/**
 * A clock that starts at `startAt`. With `live` it follows the real clock from there, for demonstrations
 * only: a test that uses `live` would be reading the real clock.
 */
export function startClock(startAt: number, live = false): PeerClock {
  const due = new Set<Due>();
  const began = live ? Date.now() : 0;
  let moved = 0;
  let order = 0;
  const now = (): number => startAt + moved + (live ? Date.now() - began : 0);

  function next(until: number): Due | undefined {
    let first: Due | undefined;
    for (const one of due) {
      if (one.when > until) continue;
      const sooner = first === undefined || one.when < first.when;
      if (sooner || (first !== undefined && one.when === first.when && one.order < first.order)) first = one;
    }
    return first;
  }

  function runUntil(until: number, step: (when: number) => void): void {
    for (let one = next(until); one !== undefined; one = next(until)) {
      due.delete(one);
      step(one.when);
      one.job();
    }
  }

  const ticking = live ? setInterval(() => runUntil(now(), () => {}), 200) : undefined;
  ticking?.unref();

  return {
    now,
    advance(ms) {
      if (!Number.isFinite(ms) || ms < 0) {
        throw new Error(`The clock only moves forward: give 0 or more milliseconds, not ${ms}.`);
      }
      const until = now() + ms;
      const target = moved + ms;
      runUntil(until, (when) => {
        if (!live && when > now()) moved = when - startAt;
      });
      moved = target;
    },
    at(when, job) {
      order += 1;
      const one = { when, order, job };
      due.add(one);
      return () => due.delete(one);
    },
    stop() {
      clearInterval(ticking);
      due.clear();
    },
  };
}
