import type { PersonId } from '../../src/model/id.ts';
import { type Instant, MINUTE } from '../../src/model/time.ts';
import type { Clock } from '../../src/ports.ts';

const MOST_EACH = 5;
const MOST_ALL = 30;
const WAIT = 5 * MINUTE;

export type PinTry =
  /** Not now: the PIN must not even be looked at before `until`. */
  | { readonly kind: 'wait'; readonly who: 'person' | 'board'; readonly until: Instant }
  | { readonly kind: 'go'; readonly left: number; right(): void }
  /** Nobody here is called so: refuse. Nothing was counted; `left` is what a first wrong PIN would leave. */
  | { readonly kind: 'unknown'; readonly left: number };

export interface PinAttempts {
  begin(person: PersonId): PinTry;
}

/**
 * Five wrong PINs in a row close a name until five minutes after the last; thirty in five minutes close the board
 * until the first of them is five minutes old. Five minutes of quiet clear a name's count.
 * A try counts as wrong from its first moment until `right()`, so that many at once get no extra tries.
 * `known` says who is on the site: a guess at an invented name counts nowhere, so that such guesses cannot close the
 * board for those who work on it. Without it every name counts.
 */
export function createPinAttempts(
  clock: Clock,
  known: (person: PersonId) => boolean = () => true,
): PinAttempts {
  const wrong = new Map<PersonId, Instant[]>();
  let all: Instant[] = [];

  return {
    begin(person: PersonId): PinTry {
      if (!known(person)) return { kind: 'unknown', left: MOST_EACH - 1 };
      const now = clock.now();
      all = all.filter((at) => now - at < WAIT);
      for (const [name, tries] of wrong) if (now - (tries.at(-1) ?? 0) >= WAIT) wrong.delete(name);
      const own = wrong.get(person) ?? [];
      const last = own.at(-1);
      if (own.length >= MOST_EACH && last !== undefined) {
        return { kind: 'wait', who: 'person', until: last + WAIT };
      }
      const first = all[0];
      if (all.length >= MOST_ALL && first !== undefined) {
        return { kind: 'wait', who: 'board', until: first + WAIT };
      }
      own.push(now);
      wrong.set(person, own);
      all.push(now);
      return {
        kind: 'go',
        left: MOST_EACH - own.length,
        right() {
          wrong.delete(person);
          const at = all.lastIndexOf(now);
          if (at >= 0) all.splice(at, 1);
        },
      };
    },
  };
}
