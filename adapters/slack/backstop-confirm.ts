import type { ConfirmedFlush } from '../../src/chat/backstop.ts';
import { type Instant, MINUTE } from '../../src/model/time.ts';
import type { BackstopServices } from './backstop-round.ts';
import type { Row } from './backstop-rows.ts';
import { againAt } from './backstop-sender.ts';
import { escapeText } from './render-text.ts';

/** The row with what is known of its flushes, and its state once its time has gone by. */
export function caughtUp(row: Row, confirmed: readonly ConfirmedFlush[], now: Instant, tooLate: string): Row {
  const news = row.rigs.flatMap(({ rig, since }) => {
    const flush = confirmed.find((one) => one.rig === rig && one.at >= since);
    return flush && !row.confirmed[rig] ? [[rig, { time: flush.time, person: flush.person }] as const] : [];
  });
  const after =
    news.length === 0 ? row : { ...row, confirmed: { ...row.confirmed, ...Object.fromEntries(news) } };
  if (row.state === 'armed' && now >= row.postAt + MINUTE) return { ...after, state: 'fired' };
  // It was asked to be taken back, and no clear yes came while there was time.
  if (row.state === 'cancel_requested' && now >= row.postAt + MINUTE)
    return { ...after, state: 'cancel_uncertain' };
  if (row.state === 'wanted' && now >= row.postAt) return { ...after, state: 'refused', why: tooLate };
  return after;
}

export function isSettled({ rigs, confirmed }: Row): boolean {
  return rigs.length > 0 && rigs.every(({ rig }) => confirmed[rig] !== undefined);
}

/** Changes what was posted although the flush is confirmed. The row as it is then, and when to try again. */
export async function edited(
  { sender, channel, texts, clock, log }: BackstopServices,
  row: Row,
): Promise<{ readonly row: Row; readonly again: Instant | null }> {
  if (!isSettled(row)) return { row, again: null };
  const rigs = row.rigs.flatMap(({ rig, name }) => {
    const by = row.confirmed[rig];
    return by ? [texts().say('backstop.confirmed-rig', { rig: name, ...by })] : [];
  });
  const text = escapeText(texts().say('backstop.confirmed', { ref: row.ref, rigs: rigs.join('; ') }));
  const posted: Row['posted'] = [];
  let again: Instant | null = null;
  for (const one of row.posted) {
    if (one.edited) {
      posted.push(one);
      continue;
    }
    const answer = await sender.update({ channel, ts: one.ts, text, blocks: [] });
    // Gone for good: deleted by somebody, or too old to be changed.
    posted.push({ ...one, edited: answer.kind === 'ok' || answer.kind === 'gone' });
    if (answer.kind === 'ok') continue;
    log.warn({ ref: row.ref, answer }, 'a posted backstop was not marked as confirmed');
    const at = againAt(answer, clock.now());
    if (at !== null) again = Math.min(again ?? at, at);
  }
  return { row: { ...row, posted }, again };
}
