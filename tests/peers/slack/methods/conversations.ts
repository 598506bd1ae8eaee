/** conversations.open, info, members, history, replies. Errors: docs.slack.dev/reference/methods/conversations.*. */
import { type Dict, text } from '../json.ts';
import { openDm } from '../state.ts';
import type { ChannelState, MessageState } from '../types.ts';
import { channelShape, messageShape } from '../wire.ts';
import { type Context, conversation, isTrue, type Method, need, page, Refused } from './method.ts';

function visible(context: Context, args: Dict): ChannelState {
  const channel = conversation(context, need(args, 'channel'), false);
  if (channel.kind === 'private' && !channel.botIn) throw new Refused('channel_not_found');
  return channel;
}

function joined(context: Context, args: Dict): ChannelState {
  const channel = visible(context, args);
  if (!channel.botIn) throw new Refused('not_in_channel');
  return channel;
}

/** Several people at once would make a group conversation; the peer has direct ones only and says so. */
const open: Method = (context, args) => {
  const { space } = context;
  const channelId = text(args.channel);
  if (channelId !== '') {
    const there = space.channels.get(channelId);
    if (there?.kind !== 'im') throw new Refused('channel_not_found');
    return { channel: { id: there.id } };
  }
  const users = need(args, 'users').split(',');
  const [userId = ''] = users;
  if (users.length > 1) throw new Refused('method_not_supported_for_channel_type');
  const user = space.users.get(userId);
  if (user === undefined) throw new Refused('user_not_found');
  if (user.deleted === true) throw new Refused('user_disabled');
  if (user.isBot === true) throw new Refused('cannot_dm_bot');
  const already = [...space.channels.values()].some((one) => one.kind === 'im' && one.members.has(userId));
  const channel = openDm(space, userId);
  const full = isTrue(args.return_im) ? channelShape(channel) : { id: channel.id };
  return { channel: full, ...(already ? { no_op: true, already_open: true } : {}) };
};

const info: Method = (context, args) => ({ channel: channelShape(visible(context, args)) });

const members: Method = (context, args) => {
  const channel = visible(context, args);
  const all = [...channel.members, ...(channel.botIn ? [context.space.bot.userId] : [])];
  const { items, next } = page(all, args, 100);
  return { members: items, response_metadata: { next_cursor: next } };
};

function between(args: Dict): (message: MessageState) => boolean {
  const oldest = Number(args.oldest ?? 0);
  const latest =
    args.latest === undefined || args.latest === '' ? Number.POSITIVE_INFINITY : Number(args.latest);
  const both = isTrue(args.inclusive);
  return ({ ts }) => {
    const at = Number(ts);
    return both ? at >= oldest && at <= latest : at > oldest && at < latest;
  };
}

/** What anybody can see in the conversation: not what was deleted, not what one person alone was shown. */
function standing(channel: ChannelState): MessageState[] {
  return channel.messages.filter((one) => !one.deleted && one.ephemeralTo === null);
}

const history: Method = (context, args) => {
  const channel = joined(context, args);
  const found = standing(channel)
    .filter((one) => one.threadTs === null)
    .filter(between(args))
    .reverse();
  const { items, next } = page(found, args, 100);
  return {
    messages: items.map((one) => withThread(channel, one, isTrue(args.include_all_metadata))),
    has_more: next !== '',
    response_metadata: { next_cursor: next },
  };
};

function withThread(channel: ChannelState, message: MessageState, metadata: boolean): Dict {
  const replies = standing(channel).filter((one) => one.threadTs === message.ts).length;
  const more = replies === 0 ? {} : { thread_ts: message.ts, reply_count: replies };
  return { ...messageShape(message, metadata), ...more };
}

const replies: Method = (context, args) => {
  const channel = joined(context, args);
  const ts = need(args, 'ts');
  const thread = standing(channel).filter((one) => one.ts === ts || one.threadTs === ts);
  if (thread.length === 0) throw new Refused('thread_not_found');
  const inside = between(args);
  // The parent is always there, whatever the limits of time.
  const { items, next } = page(
    thread.filter((one) => one.ts === ts || inside(one)),
    args,
    1000,
  );
  return {
    messages: items.map((one) => withThread(channel, one, isTrue(args.include_all_metadata))),
    has_more: next !== '',
    response_metadata: { next_cursor: next },
  };
};

export const CONVERSATIONS: { readonly [method: string]: Method } = {
  'conversations.open': open,
  'conversations.info': info,
  'conversations.members': members,
  'conversations.history': history,
  'conversations.replies': replies,
};
