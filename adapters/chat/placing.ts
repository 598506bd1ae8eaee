import { MINUTE } from '../../src/model/time.ts';
import { hashed, markerOf } from './marks.ts';
import type { Sent } from './outcome.ts';
import type { AnyPart, Platform } from './platform.ts';
import type { Said } from './said.ts';
import type { ChatServices } from './services.ts';
import { type Half, isOlder, orderOf, type Standing, type Standings } from './standing.ts';

/** Until an older message with the same key stands whole. */
export const AFTER_OLDER_MS = 1_000;
/** Nobody goes on with what was left alone for this long; longer than any wait between two tries. */
const ABANDONED_MS = 15 * MINUTE;

type Placed = Sent<null>;
const done: Placed = { kind: 'ok', value: null };

/**
 * What is kept of a part that stands, which opened a ring at `rang` or did not. A sign-off in one's own conversation is also
 * changed by the press on it, of which nothing is kept here.
 */
function placed(said: Said, part: AnyPart, ts: string, rang: number | undefined): Standing['parts'][number] {
  const kept = { ts, thread: part.thread, ...(rang !== undefined && { rang }) };
  if (said.audience.kind === 'person') return kept;
  return { ...kept, says: hashed([JSON.stringify(part).replaceAll(markerOf(said.shift, [said.id]), '')]) };
}

/** Brings the parts of a message into a conversation, each of them once, whatever breaks off in between. */
export function createPlacing<Part extends AnyPart>(
  { clock, log }: Pick<ChatServices, 'clock' | 'log'>,
  platform: Pick<Platform<Part>, 'post' | 'update' | 'remove' | 'meaning' | 'bellsApart'>,
  stands: Standings,
) {
  /**
   * Posts what has not been posted by an earlier try, then takes away what it stands for (`instead`). `kept` are its first
   * parts, which stand with their newest words.
   */
  async function say(
    said: Said,
    channel: string,
    parts: readonly Part[],
    instead: Standing['parts'] = [],
    kept: Standing['parts'] = [],
  ): Promise<Placed> {
    const begun = await begin(said, channel, kept);
    if ('kind' in begun) return begun;
    const order = orderOf(said);
    let half = begun;
    const root = await rootFor(said, half);
    // What is said about a ring in its place is that ring still.
    const rang = said.urgency === 'bell' ? said.queuedAt : instead[0]?.rang;
    for (const [index, part] of parts.entries()) {
      if (index < half.parts.length) continue;
      const under = root ?? (part.thread ? half.parts[0]?.ts : undefined);
      const sent = await platform.post({
        channel,
        part,
        marker: markerOf(said.shift, [said.id]),
        lookFirst: said.possibleRepeat,
        ...(under !== undefined && { under }),
        ...(root !== undefined && index === 0 && said.urgency === 'bell' && { broadcast: true }),
      });
      if (sent.kind === 'gone' && platform.meaning(sent.code) === 'thread-lost' && root !== undefined) {
        await stands.dropThread(said.shift);
        return { kind: 'retry', why: sent.why, afterMs: AFTER_OLDER_MS };
      }
      if (sent.kind !== 'ok') return sent;
      half = {
        ...half,
        parts: [...half.parts, placed(said, part, sent.value.id, index === 0 ? rang : undefined)],
      };
      await stands.writeHalf(said, half);
      await beginThread(said, half);
    }
    await beginThread(said, half);
    const thread = await stands.thread(said.shift);
    // The day's thread hangs under it: it stays, as it was.
    const outdated = instead.filter(({ ts }) => ts !== thread);
    const removed = await takeAway(said, channel, outdated);
    if (removed.kind !== 'ok') return removed;
    await stands.write(said, { channel, parts: half.parts, ...(order && { order }) });
    await stands.dropHalf(said, channel);
    return done;
  }

  /** Kept before anything is posted: another message with the same key waits until this one stands. */
  async function begin(said: Said, channel: string, kept: Standing['parts']): Promise<Half | Placed> {
    const found = await stands.half(said, channel);
    const order = orderOf(said);
    if (found?.half.by === said.id) return found.half;
    if (found) {
      if (isOlder(order, found.half.order)) return { kind: 'later', afterMs: AFTER_OLDER_MS };
      // What was made on the spot is not in the outbox: nobody comes back for it.
      const kept = found.half.order !== undefined && clock.now() - found.at < ABANDONED_MS;
      if (kept) return { kind: 'later', afterMs: AFTER_OLDER_MS };
      log.warn({ delivery: found.half.by }, 'a message was left half said; a newer one takes its place');
    }
    const half: Half = { by: said.id, channel, parts: [...kept], ...(order && { order }) };
    await stands.writeHalf(said, half);
    return half;
  }

  /** The day's first message, unless this is it or stands apart. */
  async function rootFor({ audience, shift, urgency }: Said, half: Half): Promise<string | undefined> {
    if (platform.bellsApart && urgency === 'bell') return undefined;
    const thread = audience.kind === 'crew' ? await stands.thread(shift) : null;
    return thread === null || thread === half.parts[0]?.ts ? undefined : thread;
  }

  async function beginThread({ audience, shift }: Said, half: Half): Promise<void> {
    const [first] = half.parts;
    if (audience.kind === 'crew' && first && (await stands.thread(shift)) === null)
      await stands.writeThread(shift, first.ts);
  }

  /** Part by part in place, those that say something new; parts too many are taken away, more parts than there were are added. */
  async function change(
    said: Said,
    channel: string,
    parts: readonly Part[],
    standing: Standing,
  ): Promise<Placed> {
    const differs = parts.findIndex((part, index) => standing.parts[index]?.thread !== part.thread);
    const inPlace = differs < 0 ? parts : parts.slice(0, differs);
    const changed: Standing['parts'][number][] = [];
    for (const [index, part] of inPlace.entries()) {
      const before = standing.parts[index];
      const now = placed(said, part, before?.ts ?? '', before?.rang);
      changed.push(now);
      if (now.says !== undefined && before?.says === now.says) continue;
      const sent = await platform.update({ channel, id: now.ts, part });
      if (sent.kind === 'gone' && platform.meaning(sent.code) === 'message-lost')
        return say(said, channel, parts, standing.parts);
      // The same words once more do no harm.
      if (sent.kind === 'unclear') return { kind: 'retry', why: sent.why };
      if (sent.kind !== 'ok') return sent;
      // The next try goes on after it.
      if (parts.length > 1)
        await stands.write(said, { ...standing, parts: [...changed, ...standing.parts.slice(index + 1)] });
    }
    const outdated = standing.parts.slice(inPlace.length);
    if (inPlace.length < parts.length) return say(said, channel, parts, outdated, changed);
    const removed = await takeAway(said, channel, outdated);
    if (removed.kind !== 'ok') return removed;
    const order = orderOf(said) ?? standing.order;
    await stands.write(said, { channel, parts: changed, ...(order && { order }) });
    return done;
  }

  /**
   * What did not go is tried again with its delivery, which finds what was said and goes on here: outdated words under
   * newer ones are read as current. What was made on the spot is not in the outbox: there it can only be logged.
   */
  async function takeAway(said: Said, channel: string, parts: Standing['parts']): Promise<Placed> {
    for (const { ts } of [...parts].reverse()) {
      const removed = await platform.remove({ channel, id: ts });
      if (removed.kind === 'ok') continue;
      const where = { delivery: said.id, channel, ts, outcome: removed };
      if (removed.kind === 'gone' && platform.meaning(removed.code) !== 'shut-out') {
        log.info(where, 'an outdated message is gone, or will never go');
        continue;
      }
      log.warn(where, 'an outdated message could not be taken away');
      if (orderOf(said) === undefined) continue;
      // Taking it away a second time does no harm.
      return removed.kind === 'unclear' ? { kind: 'retry', why: removed.why } : removed;
    }
    return done;
  }

  return { say, change };
}
