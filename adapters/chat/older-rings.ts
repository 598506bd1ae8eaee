import { MINUTE } from '../../src/model/time.ts';
import type { ClaimedDelivery, DeliveryResult } from '../../src/ports.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { rungBeforeMessage } from '../../src/views/rung-before.ts';
import { createOlderRows, type Older, type OlderRow, olderOf } from './older-rows.ts';
import type { AnyPart, Platform } from './platform.ts';
import type { Said } from './said.ts';
import type { ChatServices } from './services.ts';
import { isOlder, orderOf, type Standing, type Standings } from './standing.ts';

/**
 * One older ring is changed in this time, ms, and never two at once. 60 people who each have a bell of their own are then
 * done in two minutes, and of the 50 changes a minute that Slack takes 20 are left for the news; in Teams, where a change
 * counts as a message, it is one of the 60 that go out meanwhile. A site whose bells repeat every minute for so many is
 * caught up with when they stop.
 */
export const BETWEEN_OLDER_MS = 2_000;
/** After something failed; each time that the same one fails twice as long. */
const AFTER_FAILURE_MS = 30_000;
const LONGEST_WAIT_MS = 2 * MINUTE;
const MOST_TRIES = 8;
/** A bell that waits for longer does not wait for its turn: one person cannot be reached, or nobody. */
const LONGEST_HELD_MS = 2 * MINUTE;

type Outcome =
  | { readonly kind: 'done' }
  /** `ms` when the platform named a wait. */
  | {
      readonly kind: 'wait';
      readonly ms: number | undefined;
      readonly failed: boolean;
      readonly why: string;
    };

/**
 * BE12: a ring that has been followed by another one in its place is changed into one line. This is not a part of saying
 * the newer ring, as taking away outdated words is: that ring has been said, its delivery ends, and no failure here may
 * hold it open or have it said again. So it is tried again by itself, and given up with a line in the log: an older ring
 * that stays in full says nothing wrong. It waits as long as any bell does, and for a moment after the last one.
 */
export function createOlderRings<Part extends AnyPart>(
  services: Pick<ChatServices, 'memory' | 'surface' | 'clock' | 'log' | 'shift' | 'again'>,
  platform: Pick<Platform<Part>, 'parts' | 'update' | 'remove' | 'meaning'>,
  stands: Standings,
  textsTo: (to: Pick<Said, 'audience'>) => Texts,
) {
  const { clock, log, again } = services;
  const rows = createOlderRows(services);
  const tries = new Map<string, number>();
  let ringing = 0;
  let notBefore = 0;
  let callOff: (() => void) | null = null;
  let underWay: Promise<void> | null = null;
  let looking: Promise<void> | null = null;
  let lookAgain = false;
  let stopped = false;

  function arm(): void {
    if (stopped || callOff !== null || underWay !== null) return;
    callOff = again(Math.max(BETWEEN_OLDER_MS, notBefore - clock.now()), () => {
      callOff = null;
      underWay = turn()
        .catch((error: unknown) => {
          log.warn({ err: error }, 'older rings of a bell stay as they are for now');
          return false;
        })
        .then((more) => {
          underWay = null;
          if (more) arm();
          else if (lookAgain) look();
        });
    });
  }

  function look(): void {
    lookAgain = underWay !== null || looking !== null;
    if (stopped || callOff !== null || lookAgain) return;
    looking = rows
      .all()
      .then((found) => (found.length > 0 ? arm() : undefined))
      .catch((error: unknown) => log.warn({ err: error }, 'older rings of a bell cannot be looked for'))
      .finally(() => {
        looking = null;
        if (lookAgain) look();
      });
  }

  /** One of them, if it is time. Whether to come again. */
  async function turn(): Promise<boolean> {
    if (ringing > 0 || clock.now() < notBefore) return true;
    const ready = await allReady();
    const [next] = ready;
    if (next === undefined) return false;
    const outcome = await shrink(next);
    if (outcome.kind === 'wait') return afterTrouble(next, outcome);
    tries.delete(next.id);
    await rows.done(next.id);
    return ready.length > 1;
  }

  async function afterTrouble(
    { id }: OlderRow,
    { ms, failed, why }: Outcome & { kind: 'wait' },
  ): Promise<boolean> {
    const tried = (tries.get(id) ?? 0) + (failed ? 1 : 0);
    const longer = Math.min(LONGEST_WAIT_MS, AFTER_FAILURE_MS * 2 ** Math.max(0, tried - 1));
    holdFor(ms ?? longer);
    tries.set(id, tried);
    if (tried >= MOST_TRIES) {
      log.warn({ id, why }, 'an older ring of a bell stays as it is: it could not be changed');
      tries.delete(id);
      await rows.done(id);
    }
    return true;
  }

  /** Those whose newer ring stands; the ones that failed come last. */
  async function allReady(): Promise<readonly OlderRow[]> {
    const ready: OlderRow[] = [];
    for (const row of await rows.all()) {
      const { older } = row;
      const standing = await stands.read({ id: '', ...older }, older.channel);
      // Never before the new one stands.
      if (standing === null || isOlder(standing.order, older.order)) continue;
      // And never the newest: the answer came before the ring that was to follow, and stands here.
      if (standing.parts.some(({ ts }) => ts === older.parts[0]?.ts)) await rows.done(row.id);
      else ready.push(row);
    }
    const failures = ({ id }: OlderRow) => tries.get(id) ?? 0;
    return ready.sort((a, b) => failures(a) - failures(b) || a.older.rangAt - b.older.rangAt);
  }

  async function shrink({ id, older }: OlderRow): Promise<Outcome> {
    const { channel, parts } = older;
    const [part] = await lineOf(id, older);
    const [first, ...further] = parts;
    if (part === undefined || first === undefined) {
      log.warn({ id }, 'an older ring of a bell stays as it is: its shift does not know the bell');
      return { kind: 'done' };
    }
    const outcome = outcomeOf(await platform.update({ channel, id: first.ts, part }));
    if (outcome.kind === 'wait') return outcome;
    for (const { ts } of further.reverse()) {
      const removed = outcomeOf(await platform.remove({ channel, id: ts }));
      if (removed.kind === 'wait') return removed;
    }
    return { kind: 'done' };
  }

  async function lineOf(id: string, older: Older): Promise<readonly Part[]> {
    const shift = await services.shift(older.shift);
    const audience: Said['audience'] =
      older.person === null ? { kind: 'crew' } : { kind: 'person', person: older.person };
    const texts = textsTo({ audience });
    const message = shift && rungBeforeMessage({ shift, texts, now: clock.now() }, older);
    if (message === null) return [];
    const { shift: of, key } = older;
    return platform.parts(
      { id, shift: of, key, audience, urgency: 'quiet', message, possibleRepeat: false },
      texts,
      false,
    );
  }

  /** What somebody deleted, or what is too old to be changed, is done with. */
  function outcomeOf(sent: Awaited<ReturnType<typeof platform.update>>): Outcome {
    switch (sent.kind) {
      case 'ok':
        return { kind: 'done' };
      case 'later':
        return { kind: 'wait', ms: sent.afterMs, failed: false, why: 'not its turn' };
      case 'retry':
        return { kind: 'wait', ms: sent.afterMs, failed: true, why: sent.why };
      // Doing it once more does no harm.
      case 'unclear':
        return { kind: 'wait', ms: undefined, failed: true, why: sent.why };
      case 'gone':
        if (platform.meaning(sent.code) === 'shut-out')
          return { kind: 'wait', ms: undefined, failed: true, why: sent.why };
        log.info({ why: sent.why }, 'an older ring of a bell cannot be changed any more');
        return { kind: 'done' };
    }
  }

  function holdFor(ms: number): void {
    notBefore = Math.max(notBefore, clock.now() + ms);
  }

  return {
    /** Before the ring is said for the first time: what stands is to make room for it. Nothing here stops the ring. */
    async note(said: Said, standing: Standing): Promise<void> {
      const row = olderOf(said, standing, orderOf(said));
      if (row === null) return;
      await rows
        .put(row)
        .catch((error: unknown) => log.warn({ err: error }, 'an older ring of a bell will stay as it is'));
    },
    /** Around each try to say a bell. */
    async whileRinging(
      { queuedAt }: ClaimedDelivery,
      say: () => Promise<DeliveryResult>,
    ): Promise<DeliveryResult> {
      ringing += 1;
      let held = AFTER_FAILURE_MS;
      try {
        const result = await say();
        held = 'afterMs' in result ? (result.afterMs ?? AFTER_FAILURE_MS) : 0;
        return result;
      } finally {
        ringing -= 1;
        holdFor(BETWEEN_OLDER_MS + (clock.now() - queuedAt < LONGEST_HELD_MS ? held : 0));
      }
    },
    /** At the start, and whenever a bell may have been said. */
    look,
    /** Nothing more is changed after this. */
    async settled(): Promise<void> {
      stopped = true;
      callOff?.();
      await looking;
      await underWay;
    },
  };
}
