import type { Backstop } from '../../src/chat/backstop.ts';
import { refIn } from '../../src/chat/backstop-ref.ts';
import type { Instant } from '../../src/model/time.ts';
import type { Clock, SurfaceMemory } from '../../src/ports.ts';
import type { Texts } from '../../src/texts/texts.ts';
import type { Log } from '../host/log.ts';
import type { Row, RowBook } from './backstop-rows.ts';
import { againAt, type BackstopSender, type ListedNotice } from './backstop-sender.ts';
import { escapeText } from './render-text.ts';

export interface BackstopServices {
  readonly sender: BackstopSender;
  readonly memory: SurfaceMemory;
  readonly clock: Clock;
  readonly log: Log;
  /** The crew's channel. */
  readonly channel: string;
  /** In the language of the site. */
  texts(): Texts;
  /** Something a person has to hear by another way than this one: a notice is not set. Not escaped. */
  onTrouble(text: string): void | Promise<void>;
}

/**
 * One round of bringing the platform to what a day wants. `listed` is what the platform holds, `null` when it was not
 * looked at or did not tell; `blind` when it was asked and may tell later.
 */
export interface Round {
  readonly services: BackstopServices;
  readonly book: RowBook;
  readonly day: string;
  readonly rows: Map<string, Row>;
  /** The first round of this process for the day: what stands as wanted may be there already. */
  readonly first: boolean;
  listed: readonly ListedNotice[] | null;
  blind: boolean;
  /** When it is worth another round; null when all went through. */
  again: Instant | null;
}

export async function keep(round: Round, row: Row): Promise<Row> {
  await round.book.put(row);
  round.rows.set(row.ref, row);
  return row;
}

export function tryAgainAt(round: Round, at: Instant | null): void {
  if (at !== null) round.again = Math.min(round.again ?? at, at);
}

/** Ids that some row of the day answers for. */
export function claimedIds(round: Round): ReadonlySet<string> {
  return new Set([...round.rows.values()].flatMap(({ id, stale }) => (id === null ? stale : [id, ...stale])));
}

/** A notice of ours that nobody answers for and that is exactly this one: its id was lost on the way. */
export function lostId(round: Round, backstop: Pick<Backstop, 'ref' | 'postAt' | 'text'>): string | null {
  const claimed = claimedIds(round);
  const text = escapeText(backstop.text);
  const found = (round.listed ?? []).find(
    (one) =>
      one.text === text &&
      one.postAt === secondsOf(backstop.postAt) &&
      !claimed.has(one.id) &&
      isOf(round, one),
  );
  return found?.id ?? null;
}

/** Whether a listed message is a notice of this day. Others in the list are not ours to touch. */
export function isOf(round: Round, listed: ListedNotice): boolean {
  return refIn(listed.text)?.startsWith(`${round.day}-`) ?? false;
}

export function secondsOf(at: Instant): number {
  return Math.floor(at / 1000);
}

/** Asks the platform what it holds. True when it told. */
export async function look(round: Round): Promise<boolean> {
  const { sender, channel, log } = round.services;
  const answer = await sender.list(channel);
  if (answer.kind === 'ok') {
    round.listed = answer.value;
    round.blind = false;
    return true;
  }
  round.listed = null;
  if (answer.kind !== 'gone') tryAgainAt(round, againAt(answer, round.services.clock.now()));
  // One that will never tell must not keep a notice from being set: twice is better than never.
  round.blind = answer.kind !== 'gone';
  log.warn({ answer }, 'the list of scheduled messages was not to be had');
  return false;
}
