import { loadTexts } from '../../adapters/files/load-texts.ts';
import { createHost, type Host } from '../../adapters/host/host.ts';
import { commandSchema } from '../../src/model/command.ts';
import type { SitePack } from '../../src/model/site.ts';
import type { ClaimedDelivery, DeliveryResult, Outcome, Store, Surface } from '../../src/ports.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import { aPack, DATE } from '../flow/pack.ts';
import type { Turn } from './full-shift.ts';

const { textsFor } = loadTexts();

/** Ids are never given twice, not even by another world on the same store. */
let ids = 0;

/** A surface that keeps what it was given. Tests may have it answer otherwise. */
export function recordingSurface(
  name = 'wall',
  answer: (delivery: ClaimedDelivery) => Promise<DeliveryResult> = async () => ({ kind: 'sent' }),
) {
  const shown: ClaimedDelivery[] = [];
  const surface: Surface = {
    name,
    reaches: () => true,
    deliver(delivery) {
      shown.push(delivery);
      return answer(delivery);
    },
  };
  return { surface, shown };
}

export interface Logged {
  readonly level: 'info' | 'warn' | 'error';
  readonly message: string;
}

/** A host on a hand-moved clock. Nothing runs by itself: bells and outbox are asked. */
export class World {
  now: number;
  readonly log: Logged[] = [];
  readonly surfaces: readonly Surface[];
  readonly pack: SitePack;
  readonly texts: TextsFor;
  store: Store;
  host: Host;

  constructor(
    store: Store,
    surfaces: readonly Surface[],
    now: number,
    { pack = aPack(), texts = textsFor }: { readonly pack?: SitePack; readonly texts?: TextsFor } = {},
  ) {
    this.pack = pack;
    this.texts = texts;
    this.store = store;
    this.surfaces = surfaces;
    this.now = now;
    this.host = this.#fresh();
  }

  /** What a restart does: a new host, and whatever store it finds. */
  restart(store: Store): void {
    this.store = store;
    this.host = this.#fresh();
  }

  #fresh(): Host {
    const say = (level: Logged['level']) => (_facts: object, message: string) =>
      void this.log.push({ level, message });
    return createHost({
      store: this.store,
      clock: { now: () => this.now },
      textsFor: this.texts,
      surfaces: this.surfaces,
      log: { info: say('info'), warn: say('warn'), error: say('error') },
      newId: () => `id-${++ids}`,
      pack: () => this.pack,
    });
  }

  /** Ring everything that is due up to and with `until`, each at its time, and deliver after each. */
  async ringUntil(until: number): Promise<void> {
    for (;;) {
      const next = await this.store.earliestBell();
      if (next === null || next > until) break;
      this.now = Math.max(this.now, Math.ceil(next));
      await this.host.bells.runDue();
      await this.host.outbox.drain();
    }
    this.now = Math.max(this.now, until);
  }

  /** One turn by its own command id, so that it can be repeated. */
  async take(one: Turn, commandId: string, date: string = DATE): Promise<Outcome> {
    const id = `weir:${date}`;
    const shift = await this.store.shift(id);
    const command = typeof one.command === 'function' ? (shift ? one.command(shift) : null) : one.command;
    if (!command) throw new Error('this turn needs a shift');
    return this.host.handle({ shift: id, command: commandSchema.parse(command), actor: one.by, commandId });
  }
}
