import { MINUTE } from '../../src/model/time.ts';
import { markerOf } from './marks.ts';
import type { Sent } from './outcome.ts';
import type { AnyPart, Platform } from './platform.ts';
import type { Said } from './said.ts';
import type { ChatServices } from './services.ts';
import { type Half, isOlder, orderOf, type Standing, type Standings } from './standing.ts';

/** Until an older message with the same key stands whole. */
const AFTER_OLDER_MS = 1_000;
/** Nobody goes on with what was left alone for this long; longer than any wait between two tries. */
const ABANDONED_MS = 15 * MINUTE;

type Placed = Sent<null>;
const done: Placed = { kind: 'ok', value: null };

/** Brings the parts of a message into a conversation, each of them once, whatever breaks off in between. */
export function createPlacing<Part extends AnyPart>(
  { clock, log }: Pick<ChatServices, 'clock' | 'log'>,
  platform: Pick<Platform<Part>, 'post' | 'update' | 'remove' | 'meaning' | 'bellsApart'>,
  stands: Standings,
) {
  /** Posts what has not been posted by an earlier try, then takes away what it stands for (`instead`). */
  async function say(
    said: Said,
    channel: string,
    parts: readonly Part[],
    instead: Standing['parts'] = [],
  ): Promise<Placed> {
    const begun = await begin(said, channel);
    if ('kind' in begun) return begun;
    const order = orderOf(said);
    let half = begun;
    const root = await rootFor(said, half);
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
      half = { ...half, parts: [...half.parts, { ts: sent.value.id, thread: part.thread }] };
      await stands.writeHalf(said, half);
      await beginThread(said, half);
    }
    await beginThread(said, half);
    const thread = await stands.thread(said.shift);
    // The day's thread hangs under it: it stays, as it was.
    await takeAway(
      channel,
      instead.filter(({ ts }) => ts !== thread),
    );
    await stands.write(said, { channel, parts: half.parts, ...(order && { order }) });
    await stands.dropHalf(said, channel);
    return done;
  }

  /** Kept before anything is posted: another message with the same key waits until this one stands. */
  async function begin(said: Said, channel: string): Promise<Half | Placed> {
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
    const half: Half = { by: said.id, channel, parts: [], ...(order && { order }) };
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

  /** Part by part in place; parts too many are taken away. More parts than there were are said anew. */
  async function change(
    said: Said,
    channel: string,
    parts: readonly Part[],
    standing: Standing,
  ): Promise<Placed> {
    if (!parts.every((part, index) => standing.parts[index]?.thread === part.thread))
      return say(said, channel, parts, standing.parts);
    for (const [index, part] of parts.entries()) {
      const id = standing.parts[index]?.ts ?? '';
      const sent = await platform.update({ channel, id, part });
      if (sent.kind === 'gone' && platform.meaning(sent.code) === 'message-lost')
        return say(said, channel, parts, standing.parts);
      // The same words once more do no harm.
      if (sent.kind === 'unclear') return { kind: 'retry', why: sent.why };
      if (sent.kind !== 'ok') return sent;
    }
    await takeAway(channel, standing.parts.slice(parts.length));
    const order = orderOf(said) ?? standing.order;
    await stands.write(said, {
      channel,
      parts: standing.parts.slice(0, parts.length),
      ...(order && { order }),
    });
    return done;
  }

  async function takeAway(channel: string, parts: Standing['parts']): Promise<void> {
    for (const { ts } of [...parts].reverse()) {
      const removed = await platform.remove({ channel, id: ts });
      if (removed.kind !== 'ok' && removed.kind !== 'gone')
        log.warn({ channel, ts, outcome: removed }, 'an outdated message could not be taken away');
    }
  }

  return { say, change };
}
