import { clockTime } from '../../src/model/time.ts';
import type { Shot } from './shots.ts';
import { STRANGER, type Stage } from './stage.ts';

export interface Keeping {
  readonly shots: readonly Shot[];
  keep(shot: Shot): void;
  /** What of these is not as it was when somebody last looked at `where`. */
  fresh<T>(where: string, messages: readonly T[], idOf: (message: T) => string): readonly T[];
  /** Keeps a conversation: what is new in it. */
  conversation<T>(messages: readonly T[], draw: (message: T) => string, shot: Omit<Shot, 'body'>): void;
  nameOf(person: string): string;
  clock(ms: number): string;
}

/** The pictures so far, whatever the chat, each with the time at which it was taken. */
export function keeping(site: Stage['crew']['site'], now: () => number): Keeping {
  const shots: Shot[] = [];
  const seen = new Map<string, string>();
  const names = new Map([...site.pack.people.map(({ id, name }) => [id, name] as const), [STRANGER, 'Sam']]);
  const clock = (ms: number) => clockTime(ms, site.pack.site.timeZone);

  function keep(shot: Shot): void {
    shots.push({ ...shot, note: `${clock(now())}. ${shot.note}` });
  }

  return {
    shots,
    keep,
    clock,
    nameOf: (person) => names.get(person) ?? person,
    fresh: (where, messages, idOf) =>
      messages.filter((message) => {
        const key = `${where} ${idOf(message)}`;
        const as = JSON.stringify(message);
        const same = seen.get(key) === as;
        seen.set(key, as);
        return !same;
      }),
    conversation(messages, draw, shot) {
      // That somebody is told nothing is to be seen as well.
      keep({ ...shot, body: () => messages.map(draw).join('\n') || '<p>Nothing is new here.</p>' });
    },
  };
}
