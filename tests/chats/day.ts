import type { Composed } from '../../adapters/cli/compose.ts';
import { exampleDay, type LoadedSite, loadSite } from '../../adapters/cli/site.ts';
import { demoDay } from '../../adapters/cli/tour-script.ts';
import { type CommandInput, commandSchema } from '../../src/model/command.ts';
import type { DayEntry } from '../../src/model/day-entry.ts';
import type { Shift } from '../../src/model/shift.ts';
import { instantOf } from '../../src/model/time.ts';
import type { Outcome, Store, SurfaceMemory } from '../../src/ports.ts';
import { DATE } from './hands.ts';

/** A crew in any chat. */
export interface AnyCrew {
  readonly potbell: Pick<Composed, 'host' | 'store'>;
  readonly site: LoadedSite;
  passTo(hhmm: string): Promise<void>;
  deliver(): Promise<void>;
}

/** When a crew's clock begins, unless a test says otherwise. */
export const MORNING = instantOf(DATE, '06:30', loadSite().pack.site.timeZone);

export const SHIFT = (crew: Pick<AnyCrew, 'site'>, date = DATE) => `${crew.site.pack.site.id}:${date}`;

export function dayOf(crew: Pick<AnyCrew, 'site'>, date = DATE): DayEntry {
  const entry = exampleDay(crew.site);
  if (!entry) throw new Error('the demo site has no example day');
  return { ...entry, date };
}

let made = 0;

/** Somebody does something on the board. */
export async function onBoard(
  crew: Pick<AnyCrew, 'potbell' | 'site'>,
  person: string,
  input: CommandInput,
  date = DATE,
): Promise<Outcome> {
  made += 1;
  return crew.potbell.host.handle({
    shift: SHIFT(crew, date),
    command: commandSchema.parse(input),
    actor: { kind: 'person', person, surface: 'board' },
    commandId: `board:${made}`,
  });
}

export async function mustOnBoard(
  crew: Pick<AnyCrew, 'potbell' | 'site'>,
  person: string,
  input: CommandInput,
  date = DATE,
) {
  const outcome = await onBoard(crew, person, input, date);
  if (!outcome.ok) throw new Error(`${input.type} by ${person} was refused: ${outcome.shown.summary}`);
  return outcome.shift;
}

export async function today(crew: Pick<AnyCrew, 'potbell' | 'site'>, date = DATE): Promise<Shift> {
  const shift = await crew.potbell.store.shift(SHIFT(crew, date));
  if (!shift) throw new Error(`there is no shift of ${date}`);
  return shift;
}

export const lines = async (crew: Pick<AnyCrew, 'potbell' | 'site'>, date?: string) =>
  (await crew.potbell.store.journal(SHIFT(crew, date))).length;

/** The demo day done on the board, turn by turn, `from` a time of day `until` another; `before` comes before each turn. */
export async function playOnBoard(
  crew: AnyCrew,
  before: (turn: number) => void,
  until = '24:00',
  from = '00:00',
): Promise<void> {
  for (const [index, { at, by, does }] of demoDay(dayOf(crew)).entries()) {
    if (at < from || at >= until) continue;
    before(index);
    await crew.passTo(at);
    const input = does(await crew.potbell.store.shift(SHIFT(crew)));
    if (input) await mustOnBoard(crew, by, input);
    await crew.deliver();
  }
}

/**
 * What a Potbell keeps, and the moment at which its process dies: after `begins`, the write number `dieAt` (from 0) no
 * longer happens.
 */
export function mortal(store: Store, memory: SurfaceMemory, dieAt = Number.POSITIVE_INFINITY) {
  let begun = false;
  let writes = 0;
  let dead = false;
  const alive = async <T>(work: () => Promise<T>): Promise<T> => {
    if (dead) throw new Error('this process is dead');
    return work();
  };
  const writing = <T>(work: () => Promise<T>): Promise<T> => {
    if (begun && writes >= dieAt) dead = true;
    if (begun) writes += 1;
    return alive(work);
  };
  const mortalStore: Store = {
    ...store,
    claim: (...args) => alive(() => store.claim(...args)),
    settle: (...args) => writing(() => store.settle(...args)),
    close: async () => undefined,
  };
  const mortalMemory: SurfaceMemory = {
    get: (...args) => alive(() => memory.get(...args)),
    list: (...args) => alive(() => memory.list(...args)),
    put: (...args) => writing(() => memory.put(...args)),
    remove: (...args) => writing(() => memory.remove(...args)),
    forget: (...args) => writing(() => memory.forget(...args)),
  };
  return {
    store: mortalStore,
    memory: mortalMemory,
    begins: () => {
      begun = true;
    },
    writes: () => writes,
    isDead: () => dead,
  };
}
