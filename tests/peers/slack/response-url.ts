/**
 * What an app says through a response_url or in the ack of a slash command.
 * docs.slack.dev/interactivity/handling-user-interaction. The HTTP status of a refusal is from memory.
 */
import { type Dict, dicts, isDict, text } from './json.ts';
import { checked, isTrue, Refused } from './methods/method.ts';
import { addMessage, findMessage, type Workspace } from './state.ts';
import { spendResponse } from './triggers.ts';
import { withIds } from './wire.ts';

type Place = { user: string; channel: string; messageTs: string | null };

/** Does as the app says; throws Refused when the platform would not take it. */
export function respond(space: Workspace, place: Place, said: Dict): void {
  const channel = space.channels.get(place.channel);
  if (channel === undefined) throw new Refused('channel_not_found');
  const original = place.messageTs === null ? undefined : findMessage(channel, place.messageTs);
  if (isTrue(said.delete_original)) {
    if (original === undefined) throw new Refused('message_not_found');
    original.deleted = true;
    return;
  }
  if (said.blocks !== undefined) checked('message', said.blocks);
  const blocks = withIds(space, dicts(said.blocks));
  const words = text(said.text);
  if (words === '' && blocks.length === 0) throw new Refused('no_text');
  if (isTrue(said.replace_original) && original !== undefined) {
    Object.assign(original, { text: words, blocks, edited: true });
    return;
  }
  addMessage(space, channel, {
    user: space.bot.userId,
    botId: space.bot.botId,
    text: words,
    blocks,
    threadTs: text(said.thread_ts) || null,
    ephemeralTo: said.response_type === 'in_channel' ? null : place.user,
  });
}

/** Answers a POST to a response_url. */
export function answerResponse(space: Workspace, id: string, said: unknown): { status: number; reply: Dict } {
  const found = spendResponse(space, id);
  if (typeof found === 'string') return { status: 404, reply: { ok: false, error: found } };
  if (!isDict(said)) return { status: 400, reply: { ok: false, error: 'invalid_payload' } };
  try {
    respond(space, found, said);
    return { status: 200, reply: { ok: true } };
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    return { status: 400, reply: error.reply };
  }
}
