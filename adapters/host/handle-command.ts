import { step } from '../../src/engine.ts';
import { type Context, refuse } from '../../src/flow/decision.ts';
import { nextRingAt } from '../../src/flow/ringing.ts';
import { carryOverOf } from '../../src/flow/shift-record.ts';
import type { Command } from '../../src/model/command.ts';
import type { ShiftId } from '../../src/model/id.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { SitePack } from '../../src/model/site.ts';
import {
  type Clock,
  type Delivery,
  type HandleCommand,
  type Outcome,
  type Request,
  type Store,
  StoreDamaged,
  type Surface,
} from '../../src/ports.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import { announcements, saidOf } from '../../src/views/announce.ts';
import { doneMessage, repeatedMessage } from '../../src/views/done.ts';
import { refusalMessage } from '../../src/views/refusal.ts';
import { shownFor } from '../../src/views/shown.ts';
import type { Log } from './log.ts';
import type { Mending } from './mending.ts';

export interface DoorServices {
  readonly store: Store;
  readonly clock: Clock;
  readonly textsFor: TextsFor;
  readonly surfaces: readonly Surface[];
  readonly log: Log;
  readonly mending: Mending;
  pack(): SitePack;
  /** Told after every commit, so that loops and live pages look again. */
  committed(shift: ShiftId): void;
}

/**
 * THE MAIN PATH. Every press, form, file, bell and delivery result comes through here: load the shift, decide, append to
 * the journal, save the state, queue the messages, set the next bell, all in one transaction. Nothing else changes a shift.
 */
export function createDoor(services: DoorServices): HandleCommand {
  const { store, clock, textsFor, surfaces, log, mending } = services;

  async function handle(request: Request): Promise<Outcome> {
    const { command, actor, commandId } = request;
    const pack = services.pack();
    const id = shiftIdOf(request, pack);
    const before = await leftBefore(store, id, command, clock.now());
    const now = clock.now();

    const outcome = await store.transact<Outcome>(id, (loaded) => {
      const texts = textsFor(languageOf(request, pack, loaded.shift));
      if (loaded.shift && loaded.seen(commandId)) {
        const shown = repeatedMessage({ texts });
        return { commit: null, answer: { ok: true, shift: loaded.shift, events: [], repeated: true, shown } };
      }
      const shown = loaded.shift && shownFor({ shift: loaded.shift, texts, now }, command, actor);
      const done = step(id, loaded.shift, command, { now, actor, commandId, pack, before, shown });
      if (done.refused) return { commit: null, answer: { ok: false, shown: refusalMessage(done, texts) } };
      const said = announcements(loaded.shift, done.shift, done.events, textsFor);
      const commit = {
        events: done.events,
        shift: done.shift,
        deliveries: deliveriesOf(said, done.shift, now, surfaces),
        nextBell: nextRingAt(done.shift, now),
      };
      const events = done.events.map(({ body }) => body);
      // Whoever pressed reads the answer in their own language, which the crew's messages need not be in.
      const own = () => saidOf(loaded.shift, done.shift, done.events, () => texts);
      const told = doneMessage({ shift: done.shift, texts, now }, command, events, own);
      return { commit, answer: { ok: true, shift: done.shift, events, repeated: false, shown: told } };
    });
    if (outcome.ok && !outcome.repeated) services.committed(id);
    return outcome;
  }

  return async (request) => {
    try {
      return await mending(() => handle(request));
    } catch (error) {
      if (!(error instanceof StoreDamaged)) throw error;
      log.error({ err: error, shift: error.shift, what: error.what }, 'the store is damaged');
      const texts = textsFor(services.pack().site.language);
      return { ok: false, shown: refusalMessage(refuse('refusal.damaged', { why: error.message }), texts) };
    }
  };
}

/** A day entry names its own shift; everything else says which one it means. */
function shiftIdOf({ shift, command }: Request, pack: SitePack): ShiftId {
  return command.type === 'post-day' ? shiftIdFor(pack, command.entry.date) : shift;
}

export function shiftIdFor(pack: SitePack, date: string): ShiftId {
  return `${pack.site.id}:${date}`;
}

/**
 * What the latest earlier shift leaves, closed or forgotten: for a day being posted and for a briefing about to go out.
 * Null for everything else, which does not look at it.
 */
async function leftBefore(
  store: Store,
  id: ShiftId,
  command: Command,
  now: number,
): Promise<Context['before']> {
  const date = command.type === 'post-day' ? command.entry.date : await unissuedDate(store, id, command);
  if (date === null) return null;
  const summary = (await store.shifts()).find((one) => one.date < date);
  const shift = summary ? await store.shift(summary.id) : null;
  return summary && shift ? { carryOver: carryOverOf(shift, now), head: summary.head } : null;
}

async function unissuedDate(store: Store, id: ShiftId, command: Command): Promise<string | null> {
  if (command.type !== 'ring' && command.type !== 'issue-briefing') return null;
  const shift = await store.shift(id);
  return shift?.issuedAt === null ? shift.date : null;
}

function languageOf({ actor }: Request, pack: SitePack, shift: Shift | null): string {
  if (actor.kind !== 'person') return pack.site.language;
  const person = shift?.day.people[actor.person] ?? pack.people.find(({ id }) => id === actor.person);
  return person?.language ?? pack.site.language;
}

/** One delivery for each surface that reaches the audience; its id is made from its cause, so it cannot be queued twice. */
function deliveriesOf(
  said: ReturnType<typeof announcements>,
  shift: Shift,
  queuedAt: number,
  surfaces: readonly Surface[],
): readonly Delivery[] {
  return said.flatMap(({ seq, ...outgoing }, index) =>
    surfaces
      .filter((surface) => surface.reaches(outgoing.audience, shift))
      .map(({ name }) => ({
        ...outgoing,
        id: `${shift.id}:${seq}:${index}:${name}`,
        shift: shift.id,
        surface: name,
        queuedAt,
      })),
  );
}
