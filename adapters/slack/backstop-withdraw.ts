import { refIn } from '../../src/chat/backstop-ref.ts';
import { type Instant, MINUTE } from '../../src/model/time.ts';
import { claimedIds, isOf, keep, type Round, tryAgainAt } from './backstop-round.ts';
import { freshRow, type Row } from './backstop-rows.ts';
import { againAt, type Result, whyOf } from './backstop-sender.ts';

/**
 * Nearer than about five minutes the platform says that it is taken back, and posts it all the same; half a minute more
 * for two clocks that differ.
 * Source: reports of users, slackhq/slack-api-docs 107 and slackapi/bolt-js 1000 and 1857.
 */
export const FALSE_YES_MS = 5 * MINUTE + 30_000;

/** Takes a notice back. Asked again later when no clear answer came: taking back twice does no harm. */
export async function withdraw(round: Round, row: Row): Promise<void> {
  const asked = await keep(round, { ...row, state: 'cancel_requested' });
  // It may stand there under an id that we never heard: then the list shows it as an orphan.
  if (row.id === null && (row.unclear || round.first) && round.listed === null) {
    await keep(round, {
      ...asked,
      state: round.blind ? 'cancel_requested' : 'cancel_uncertain',
      unclear: true,
    });
    return;
  }
  const left = row.postAt - round.services.clock.now();
  const waiting: string[] = [];
  let why = '';
  for (const id of row.id === null ? row.stale : [row.id, ...row.stale]) {
    const answer = await ask(round, id);
    const done = isDone(answer);
    if (!done) waiting.push(id);
    if (answer.kind !== 'ok') why = whyOf(answer);
  }
  const id = row.id !== null && waiting.includes(row.id) ? row.id : null;
  const stale = waiting.filter((one) => one !== id);
  const late = left < FALSE_YES_MS;
  const state = waiting.length > 0 ? 'cancel_requested' : late ? 'cancel_uncertain' : 'cancelled';
  await keep(round, { ...asked, state, id, stale, why, unclear: false });
}

/** The older wordings of a notice that is set anew. */
export async function dropStale(round: Round, row: Row): Promise<void> {
  const waiting: string[] = [];
  for (const id of row.stale) if (!isDone(await ask(round, id))) waiting.push(id);
  await keep(round, { ...row, stale: waiting });
}

/** Notices of this day in the list that no row answers for: of a process that died, or an unclear answer. */
export async function dropOrphans(round: Round): Promise<void> {
  const claimed = claimedIds(round);
  const now = round.services.clock.now();
  for (const listed of round.listed ?? []) {
    const ref = refIn(listed.text);
    if (ref === null || !isOf(round, listed) || claimed.has(listed.id)) continue;
    const postAt = listed.postAt * 1000;
    const done = isDone(await ask(round, listed.id));
    const row = round.rows.get(ref) ?? orphanRow(ref, listed.text, postAt);
    // A set notice of the same ref stands; this was a second one of it.
    if (row.state === 'armed') {
      if (!done) await keep(round, { ...row, stale: [...row.stale, listed.id] });
      continue;
    }
    const state = !done ? 'cancel_requested' : postAt - now < FALSE_YES_MS ? 'cancel_uncertain' : 'cancelled';
    await keep(round, { ...row, state, id: done ? null : listed.id });
  }
}

function orphanRow(ref: string, text: string, postAt: Instant): Row {
  return freshRow({ ref, rig: '', postAt, text, rigs: [] });
}

async function ask(round: Round, id: string): Promise<Result<unknown>> {
  const { sender, channel, clock, log } = round.services;
  const answer = await sender.unschedule({ channel, id });
  if (answer.kind !== 'ok') {
    log.warn({ id, answer }, 'a backstop was not taken back');
    tryAgainAt(round, againAt(answer, clock.now()));
  }
  return answer;
}

/** Whether asking again would change nothing. Other refusals (out of the channel, no right) may be mended by somebody. */
function isDone(answer: Result<unknown>): boolean {
  return answer.kind === 'ok' || (answer.kind === 'gone' && answer.code === 'invalid_scheduled_message_id');
}
