import type { PersonId } from '../../src/model/id.ts';
import { type Instant, MINUTE } from '../../src/model/time.ts';
import type { Clock } from '../../src/ports.ts';

const MOST_EACH = 5;
const MOST_ALL = 30;
const WAIT = 5 * MINUTE;

export type PinTry =
  /** Not now: the PIN must not even be looked at before `until`. */
  | { readonly kind: 'wait'; readonly who: 'person' | 'board'; readonly until: Instant }
  | { readonly kind: 'go'; readonly left: number; right(): void };

export interface PinAttempts {
  begin(person: PersonId): PinTry;
}

/**
 * Five wrong PINs in a row close a name until five minutes after the last; thirty in five minutes close the board
 * until the first of them is five minutes old. Five minutes of quiet clear a name's count.
 * A try counts as wrong from its first moment until `right()`, so that many at once get no extra tries.
 */
export function createPinAttempts(clock: Clock): PinAttempts {
  const wrong = new Map<PersonId, Instant[]>();
  let all: Instant[] = [];

  return {
    begin(person: PersonId): PinTry {
      const now = clock.now();
      all = all.filter((at) => now - at < WAIT);
      const before = wrong.get(person) ?? [];
      const own = now - (before.at(-1) ?? 0) < WAIT ? before : [];
      wrong.set(person, own);
      const last = own.at(-1);
      if (own.length >= MOST_EACH && last !== undefined) {
        return { kind: 'wait', who: 'person', until: last + WAIT };
      }
      const first = all[0];
      if (all.length >= MOST_ALL && first !== undefined) {
        return { kind: 'wait', who: 'board', until: first + WAIT };
      }
      own.push(now);
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
