import { currentShift } from '../../src/flow/current.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { SitePack } from '../../src/model/site.ts';
import { type Clock, type HandleCommand, type Store, StoreDamaged, type Surface } from '../../src/ports.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import { type BellLoop, createBellLoop } from './bell-loop.ts';
import { verifyChain } from './chain.ts';
import { createHandOver } from './hand-over.ts';
import { createDoor } from './handle-command.ts';
import { createHealth, type Health } from './health.ts';
import type { Log } from './log.ts';
import { createMending } from './mending.ts';
import { createOutboxLoop, type OutboxLoop } from './outbox-loop.ts';
import { createSweep } from './sweep.ts';

/** Small corrections by a time server are no cause for alarm. */
const CLOCK_SLACK_MS = 5_000;

export interface HostOptions {
  readonly store: Store;
  readonly clock: Clock;
  readonly textsFor: TextsFor;
  readonly surfaces: readonly Surface[];
  readonly log: Log;
  readonly newId: () => string;
  pack(): SitePack;
  committed?(shift: string): void;
  /** What is wrong outside the store, for example a clock that was set back. */
  standingProblems?(): readonly string[];
}

export interface Host {
  readonly handle: HandleCommand;
  readonly bells: BellLoop;
  readonly outbox: OutboxLoop;
  health(): Promise<Health>;
  /** The shift people mean by "today". */
  currentShift(): Promise<Shift | null>;
  /** The latest shift before the current one. */
  previousShift(): Promise<Shift | null>;
  start(): Promise<void>;
  stop(): Promise<void>;
}

/** The door with its loops around one store. Surfaces are given; which ones there are is for the composition root. */
export function createHost(options: HostOptions): Host {
  const { store, clock, log, newId, surfaces, textsFor } = options;
  const damage: string[] = [];
  const mending = createMending(store, clock, log);
  const handle = createDoor({
    ...options,
    mending,
    committed(shift) {
      outbox.poke();
      options.committed?.(shift);
    },
  });
  const bells = createBellLoop({ store, handle, clock, log, newId, mending });
  const outbox: OutboxLoop = createOutboxLoop({
    store,
    handle,
    clock,
    log,
    surfaces,
    textsFor,
    language: (to) => {
      const { people, site } = options.pack();
      const person = to.kind === 'person' ? people.find(({ id }) => id === to.person) : undefined;
      return person?.language ?? site.language;
    },
  });
  const sweep = createSweep({
    store,
    bells,
    outbox,
    clock,
    log,
    handOver: createHandOver(store, handle, clock),
  });

  /** Rings first: nobody waits for a long journal to be walked before hearing that paint is going off. */
  async function checkShifts(): Promise<void> {
    for (const { id, status, head } of await mending(() => store.shifts())) {
      if (status !== 'open') continue;
      try {
        const journal = await store.journal(id);
        const check = verifyChain(id, journal, head);
        const lastAt = journal.at(-1)?.event.at ?? 0;
        if (lastAt > clock.now() + CLOCK_SLACK_MS)
          damage.push(
            `The clock of this machine is behind the journal of ${id}: bells would be late. Set it right, restart.`,
          );
        if (!check.ok) damage.push(`The journal of ${id} is damaged at line ${check.line}: ${check.why}.`);
        await mending(() => store.shift(id));
      } catch (error) {
        if (!(error instanceof StoreDamaged)) throw error;
        damage.push(error.message);
      }
    }
    for (const problem of damage) log.error({ problem }, 'damage found at start');
  }

  async function current(): Promise<Shift | null> {
    const summaries = await mending(() => store.shifts());
    const open = summaries.filter(({ status }) => status === 'open');
    const ids = (open.length > 0 ? open : summaries.slice(0, 1)).map(({ id }) => id);
    const shifts = await Promise.all(ids.map((id) => mending(() => store.shift(id))));
    return currentShift(
      shifts.filter((shift) => shift !== null),
      clock.now(),
    );
  }

  async function previous(): Promise<Shift | null> {
    const shift = await current();
    const before = shift && (await store.shifts()).find(({ date }) => date < shift.date);
    return before ? mending(() => store.shift(before.id)) : null;
  }

  return {
    handle,
    bells,
    outbox,
    health: createHealth(store, clock, () => [...damage, ...(options.standingProblems?.() ?? [])]),
    currentShift: current,
    previousShift: previous,
    async start() {
      const released = await store.releaseClaims();
      if (released > 0)
        log.warn({ released }, 'messages that were being sent when Potbell stopped go out again, marked');
      // Whatever is damaged, the loops start: they ring what is sound and say what is not.
      await bells
        .runDue()
        .catch((error: unknown) => log.error({ err: error }, 'could not ring at start; trying again'));
      bells.start();
      outbox.start();
      sweep.start();
      await checkShifts().catch((error: unknown) => {
        damage.push(error instanceof Error ? error.message : String(error));
        log.error({ err: error }, 'the journals could not be checked at start');
      });
    },
    async stop() {
      await sweep.stop();
      await bells.stop();
      await outbox.stop();
    },
  };
}
