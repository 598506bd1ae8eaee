/** chat.postMessage, update, delete, postEphemeral. Errors: docs.slack.dev/reference/methods/chat.*. */
import { type Dict, isDict, text } from '../json.ts';
import { postedEvent } from '../payloads.ts';
import { addMessage, findMessage } from '../state.ts';
import type { ChannelState, MessageState } from '../types.ts';
import { MOST_TEXT } from '../validate.ts';
import { channelType, messageShape, withIds } from '../wire.ts';
import {
  attachmentsIn,
  blocksIn,
  type Context,
  conversation,
  json,
  type Method,
  mayPost,
  messageIn,
  need,
  Refused,
} from './method.ts';

/** chat.update refuses longer texts (msg_too_long); chat.postMessage cuts above 40,000. */
const MOST_UPDATE_TEXT = 4000;
const MOST_MARKDOWN = 12_000;

export type Content = { text: string; blocks: Dict[]; attachments: Dict[]; cut: boolean };

export function contentIn(context: Context, args: Dict): Content {
  const blocks = blocksIn(args) ?? [];
  const attachments = attachmentsIn(args) ?? [];
  const markdown = text(args.markdown_text);
  if (markdown !== '' && (text(args.text) !== '' || blocks.length > 0))
    throw new Refused('markdown_text_conflict');
  if (markdown.length > MOST_MARKDOWN) throw new Refused('msg_too_long');
  const words = text(args.text) || markdown;
  if (words === '' && blocks.length === 0 && attachments.length === 0) throw new Refused('no_text');
  return {
    text: words.slice(0, MOST_TEXT),
    blocks: withIds(context.space, blocks),
    attachments,
    cut: words.length > MOST_TEXT,
  };
}

export function metadataIn(args: Dict): Dict | null {
  const given = json(args, 'metadata', 'invalid_metadata_format');
  if (given === undefined) return null;
  if (!isDict(given) || text(given.event_type) === '' || !isDict(given.event_payload)) {
    throw new Refused('invalid_metadata_schema');
  }
  return given;
}

/** The thread's own first message: a reply's ts leads to its parent. */
export function threadIn(channel: ChannelState, args: Dict): string | null {
  const given = text(args.thread_ts);
  if (given === '') return null;
  const parent = findMessage(channel, given);
  // From memory, not confirmed: the name of this refusal.
  if (parent === undefined) throw new Refused('thread_not_found');
  return parent.threadTs ?? parent.ts;
}

const truncated = (cut: boolean): Dict =>
  cut ? { warning: 'message_truncated', response_metadata: { warnings: ['message_truncated'] } } : {};

const postMessage: Method = (context, args) => {
  const { space } = context;
  const channel = conversation(context, text(args.channel), true);
  mayPost(channel);
  const content = contentIn(context, args);
  const metadata = metadataIn(args);
  const threadTs = threadIn(channel, args);
  const wait = context.rates.post(channel.id);
  if (wait !== null) throw new Refused('ratelimited', {}, wait);
  const { cut, ...shown } = content;
  const message = addMessage(space, channel, {
    user: space.bot.userId,
    botId: space.bot.botId,
    metadata,
    threadTs,
    ...shown,
  });
  context.event(postedEvent(channel, message));
  return { channel: channel.id, ts: message.ts, message: messageShape(message, true), ...truncated(cut) };
};

function own(context: Context, message: MessageState, error: string): void {
  if (message.user !== context.space.bot.userId) throw new Refused(error);
}

/** A person's id will not do here: the D… id is wanted. An ephemeral message cannot be found again. */
const update: Method = (context, args) => {
  const channel = conversation(context, text(args.channel), false);
  const message = messageIn(channel, need(args, 'ts'));
  own(context, message, 'cant_update_message');
  if (channel.archived) throw new Refused('is_archived');
  const words = text(args.text);
  if (words.length > MOST_UPDATE_TEXT) throw new Refused('msg_too_long');
  const blocks = blocksIn(args);
  const attachments = attachmentsIn(args);
  if (args.text === undefined && blocks === undefined && attachments === undefined)
    throw new Refused('no_text');
  const metadata = args.metadata === undefined ? message.metadata : metadataIn(args);
  const previous = messageShape(message);
  if (args.text !== undefined) message.text = words;
  // Blocks left out stay as they were; an empty list takes them away.
  if (blocks !== undefined) message.blocks = withIds(context.space, blocks);
  if (attachments !== undefined) message.attachments = attachments;
  message.metadata = metadata;
  message.edited = true;
  context.event({
    type: 'message',
    subtype: 'message_changed',
    channel: channel.id,
    channel_type: channelType(channel),
    hidden: true,
    message: messageShape(message),
    previous_message: previous,
    event_ts: context.space.ids.ts(context.space.clock.now()),
  });
  return { channel: channel.id, ts: message.ts, text: message.text, message: messageShape(message) };
};

const remove: Method = (context, args) => {
  const channel = conversation(context, text(args.channel), false);
  const message = messageIn(channel, need(args, 'ts'));
  own(context, message, 'cant_delete_message');
  message.deleted = true;
  context.event({
    type: 'message',
    subtype: 'message_deleted',
    channel: channel.id,
    channel_type: channelType(channel),
    hidden: true,
    deleted_ts: message.ts,
    previous_message: messageShape(message),
    event_ts: context.space.ids.ts(context.space.clock.now()),
  });
  return { channel: channel.id, ts: message.ts };
};

const postEphemeral: Method = (context, args) => {
  const { space } = context;
  const channel = conversation(context, text(args.channel), false);
  mayPost(channel);
  const to = need(args, 'user');
  if (!channel.members.has(to)) throw new Refused('user_not_in_channel');
  const { cut, ...shown } = contentIn(context, args);
  const message = addMessage(space, channel, {
    user: space.bot.userId,
    botId: space.bot.botId,
    ephemeralTo: to,
    ...shown,
  });
  return { message_ts: message.ts, ...truncated(cut) };
};

export const CHAT: { readonly [method: string]: Method } = {
  'chat.postMessage': postMessage,
  'chat.update': update,
  'chat.delete': remove,
  'chat.postEphemeral': postEphemeral,
};
