import type {
  Audience,
  ClaimedDelivery,
  Clock,
  DeliveryResult,
  HandleCommand,
  SettleOutcome,
  Store,
  Surface,
} from '../../src/ports.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import type { Log } from './log.ts';
import { markedRepeat } from './marked-repeat.ts';
import { withinTime } from './within-time.ts';

/** Also the bound on repeats: a process that dies can leave this many deliveries in doubt, no more. */
const MOST_IN_FLIGHT = 8;
const DELIVERY_TIMEOUT_MS = 10_000;
/** Longer than the timeout: a lease must not run out under a delivery that is still going. */
const LEASE_MS = 20_000;
const IDLE_MS = 500;
const SOON_MS = 10;
const FIRST_RETRY_MS = 1_000;
const LONGEST_RETRY_MS = 30_000;
const MOST_ATTEMPTS = 20;

export interface OutboxLoop {
  /** Deliver what is queued now, and wait for it. Returns how many were tried. */
  drain(): Promise<number>;
  start(): void;
  poke(): void;
  stop(): Promise<void>;
}

/** Bring queued messages to their surfaces: a bounded number at once, each for itself, none awaited as a batch. */
export function createOutboxLoop(services: {
  readonly store: Store;
  readonly handle: HandleCommand;
  readonly clock: Clock;
  readonly log: Log;
  readonly surfaces: readonly Surface[];
  readonly textsFor: TextsFor;
  /** Of whoever the message is for; the site's for the crew. */
  language(audience: Audience): string;
}): OutboxLoop {
  const { store, handle, clock, log, textsFor } = services;
  const surfaces = new Map(services.surfaces.map((surface) => [surface.name, surface]));
  const inFlight = new Set<Promise<void>>();
  let timer: NodeJS.Timeout | null = null;
  let stopped = true;
  let turning = false;
  let poked = false;

  async function take(): Promise<number> {
    const room = MOST_IN_FLIGHT - inFlight.size;
    if (room <= 0) return 0;
    const claimed = await store.claim(clock.now(), room, LEASE_MS);
    for (const delivery of claimed) {
      const work = deliver(delivery)
        .catch((error: unknown) =>
          log.error({ err: error, delivery: delivery.id }, 'a delivery could not be settled'),
        )
        .finally(() => inFlight.delete(work));
      inFlight.add(work);
    }
    return claimed.length;
  }

  async function deliver(delivery: ClaimedDelivery): Promise<void> {
    const outcome = settled(await attempt(delivery), delivery, clock.now());
    const facts = { delivery: delivery.id, surface: delivery.surface, attempt: delivery.attempt };
    if (outcome.kind === 'retry')
      log.warn({ ...facts, why: outcome.why }, 'a message could not be delivered; trying again');
    if (outcome.kind === 'failed') {
      log.error({ ...facts, why: outcome.why }, 'a message could not be delivered and is given up');
      // Before it is settled: a crash in between notes it again, which the command id makes harmless.
      await noteUndelivered(delivery, outcome.why);
    }
    await store.settle(delivery.id, delivery.attempt, outcome, clock.now());
  }

  async function attempt(
    delivery: ClaimedDelivery,
  ): Promise<DeliveryResult | { readonly kind: 'unclear'; readonly why: string }> {
    const surface = surfaces.get(delivery.surface);
    if (!surface) return { kind: 'failed', why: `this Potbell has no surface "${delivery.surface}" now` };
    const message =
      delivery.possibleRepeat && surface.marksRepeats !== true
        ? markedRepeat(delivery.message, textsFor(services.language(delivery.audience)))
        : delivery.message;
    try {
      return await withinTime(
        surface.deliver({ ...delivery, message }),
        DELIVERY_TIMEOUT_MS,
        'the surface did not answer',
      );
    } catch (error) {
      return { kind: 'unclear', why: error instanceof Error ? error.message : String(error) };
    }
  }

  /** A dead letter becomes a fact of the shift. One about a dead letter does not, or they would breed. */
  async function noteUndelivered(
    { id, shift, key, audience, surface }: ClaimedDelivery,
    why: string,
  ): Promise<void> {
    if (key.startsWith('undelivered:')) return;
    const to = audience.kind === 'crew' ? 'crew' : audience.person;
    await handle({
      shift,
      command: {
        type: 'note-undelivered',
        message: key.slice(0, 200),
        to,
        surface,
        why: why.slice(0, 500) || '?',
      },
      actor: { kind: 'system', part: 'outbox' },
      commandId: `undelivered:${id}`,
    });
  }

  async function turn(): Promise<void> {
    turning = true;
    let more = 0;
    try {
      more = await take();
    } catch (error) {
      log.error({ err: error }, 'the outbox loop failed; it goes on');
    }
    turning = false;
    arm(more > 0 || poked ? SOON_MS : IDLE_MS);
    poked = false;
  }

  /** One timer, one turn: a poke in the middle of a turn must not start a second loop beside the first. */
  function arm(ms: number): void {
    if (timer) clearTimeout(timer);
    timer = stopped ? null : setTimeout(() => void turn(), ms);
  }

  return {
    async drain() {
      let tried = 0;
      for (;;) {
        const taken = await take();
        tried += taken;
        await Promise.all(inFlight);
        if (taken === 0) return tried;
      }
    },
    start() {
      stopped = false;
      arm(0);
    },
    poke() {
      if (stopped) return;
      if (turning) poked = true;
      else arm(0);
    },
    async stop() {
      stopped = true;
      if (timer) clearTimeout(timer);
      await Promise.all(inFlight);
    },
  };
}

function settled(
  result: DeliveryResult | { kind: 'unclear'; why: string },
  { attempt }: ClaimedDelivery,
  now: number,
): SettleOutcome {
  if (result.kind === 'sent' || result.kind === 'superseded') return result;
  // At least 1 ms, or `drain` would take the same delivery again for ever.
  if (result.kind === 'later') return { kind: 'later', at: now + Math.max(1, result.afterMs) };
  if (result.kind === 'failed' || attempt >= MOST_ATTEMPTS) return { kind: 'failed', why: result.why };
  const backoff = Math.min(LONGEST_RETRY_MS, FIRST_RETRY_MS * 2 ** (attempt - 1));
  if (result.kind === 'retry')
    return { kind: 'retry', at: now + (result.afterMs ?? backoff), why: result.why };
  return { kind: 'retry', at: now + backoff, why: result.why, ambiguous: true };
}
