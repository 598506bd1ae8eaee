/**
 * Scheduled messages, with the traps that people met.
 * Sources: docs.slack.dev/reference/methods/chat.scheduleMessage and chat.deleteScheduledMessage; the five-minute
 * trap: reports of users at github.com/slackapi/bolt-js and github.com/slackhq/slack-api-docs, 2021 to 2026.
 */
import { type Dict, text } from '../json.ts';
import { postedEvent } from '../payloads.ts';
import { addMessage } from '../state.ts';
import type { ScheduledState } from '../types.ts';
import { contentIn, metadataIn, threadIn } from './chat.ts';
import { type Context, conversation, type Method, mayPost, need, page, Refused } from './method.ts';

const SECOND = 1000;
const FARTHEST = 120 * 24 * 3600 * SECOND;
const WINDOW = 300 * SECOND;
const MOST_IN_WINDOW = 30;
/** Nearer than this, the platform says it cannot be taken back. */
const NO_DELETE = 60 * SECOND;
/** Nearer than this, the platform says that it is taken back, and posts it all the same. */
const FALSE_DELETE = 300 * SECOND;

/** True when some window of five minutes would hold too many. */
function crowded(times: readonly number[]): boolean {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted.some((start, index) => {
    const last = sorted[index + MOST_IN_WINDOW];
    return last !== undefined && last - start < WINDOW;
  });
}

const schedule: Method = (context, args) => {
  const { space } = context;
  const channel = conversation(context, text(args.channel), true);
  mayPost(channel);
  const seconds = Number(args.post_at);
  if (!Number.isInteger(seconds) || seconds <= 0) throw new Refused('invalid_time');
  const postAt = seconds * SECOND;
  const now = space.clock.now();
  if (postAt <= now) throw new Refused('time_in_past');
  if (postAt > now + FARTHEST) throw new Refused('time_too_far');
  const { cut, ...shown } = contentIn(context, args);
  const neverPosts = metadataIn(args) !== null;
  const threadTs = threadIn(channel, args);
  const here = [...space.scheduled.values()].filter((one) => one.channel === channel.id);
  if (crowded([...here.map((one) => one.postAt), postAt])) throw new Refused('restricted_too_many');
  const id = space.ids.id('Q');
  const entry: ScheduledState = {
    id,
    channel: channel.id,
    postAt,
    createdAt: now,
    threadTs,
    neverPosts,
    takenBack: false,
    ...shown,
  };
  space.scheduled.set(id, entry);
  space.clock.at(postAt, () => post(context, entry));
  return {
    channel: channel.id,
    scheduled_message_id: id,
    post_at: seconds,
    message: {
      text: shown.text,
      bot_id: space.bot.botId,
      blocks: shown.blocks,
      type: 'delayed_message',
      subtype: 'bot_message',
    },
    ...(cut ? { warning: 'message_truncated' } : {}),
  };
};

function post(context: Context, entry: ScheduledState): void {
  const { space } = context;
  space.scheduled.delete(entry.id);
  if (entry.takenBack || entry.neverPosts) return;
  const channel = space.channels.get(entry.channel);
  // Nobody is told when a scheduled message cannot be posted.
  if (channel === undefined || channel.archived || !channel.botIn) return;
  const { text: words, blocks, attachments, threadTs } = entry;
  const { userId: user, botId } = space.bot;
  const given = { user, botId, text: words, blocks, attachments, threadTs, scheduledId: entry.id };
  context.event(postedEvent(channel, addMessage(space, channel, given)));
}

const unschedule: Method = (context, args) => {
  const { space } = context;
  const channel = conversation(context, text(args.channel), false);
  const id = need(args, 'scheduled_message_id');
  const entry = space.scheduled.get(id);
  const left = entry === undefined ? 0 : entry.postAt - space.clock.now();
  if (entry === undefined || entry.channel !== channel.id || left < NO_DELETE) {
    throw new Refused('invalid_scheduled_message_id');
  }
  space.scheduled.delete(id);
  if (left >= FALSE_DELETE) entry.takenBack = true;
  return {};
};

/** Shows id, channel_id, post_at, date_created and text only. */
const listScheduled: Method = (context, args) => {
  const only = text(args.channel);
  const oldest = Number(args.oldest ?? 0);
  const latest = Number(args.latest ?? Number.POSITIVE_INFINITY);
  const all = [...context.space.scheduled.values()]
    .filter((one) => only === '' || one.channel === only)
    .filter((one) => one.postAt / SECOND >= oldest && one.postAt / SECOND <= latest)
    .sort((a, b) => a.postAt - b.postAt);
  const { items, next } = page(all, args, 100);
  const shown = items.map(
    (one): Dict => ({
      id: one.id,
      channel_id: one.channel,
      post_at: one.postAt / SECOND,
      date_created: Math.floor(one.createdAt / SECOND),
      text: one.text,
    }),
  );
  return { scheduled_messages: shown, response_metadata: { next_cursor: next } };
};

export const SCHEDULED: { readonly [method: string]: Method } = {
  'chat.scheduleMessage': schedule,
  'chat.deleteScheduledMessage': unschedule,
  'chat.scheduledMessages.list': listScheduled,
};
