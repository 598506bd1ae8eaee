import type { Instant } from '../../src/model/time.ts';
import type { Sent } from '../chat/outcome.ts';
import type { SenderServices } from './sender.ts';
import { answered, tried } from './sender-call.ts';
import type { Content } from './sender-post.ts';

export interface ScheduledMessage {
  readonly id: string;
  readonly channel: string;
  readonly postAt: Instant;
  /** All that the platform tells of what it holds: a reference must stand in it to be found again. */
  readonly text: string;
}

const SECOND = 1000;
/** docs.slack.dev/reference/methods/chat.scheduledMessages.list gives them by pages. */
const A_PAGE = 100;
/** The rest of a list is only asked for while both calls fit into the outbox's 10 s. */
const MOST_BEFORE_NEXT_MS = 1_500;

export function scheduling({ client, clock }: Pick<SenderServices, 'client' | 'clock'>) {
  return {
    /**
     * A message that the platform posts by itself at `postAt`, rounded up to the second. After `unclear` look it up in
     * `scheduledList` by its text. Never with metadata: the platform would not post it, without a word.
     */
    async schedule(
      message: Content & {
        readonly channel: string;
        readonly postAt: Instant;
        readonly threadTs?: string | undefined;
      },
    ): Promise<Sent<ScheduledMessage>> {
      const { channel, text, blocks, threadTs } = message;
      const seconds = Math.ceil(message.postAt / SECOND);
      const content = { channel, text, blocks: [...blocks], post_at: seconds };
      const said = await tried(() =>
        client.chat.scheduleMessage(threadTs === undefined ? content : { ...content, thread_ts: threadTs }),
      );
      if (said.kind !== 'ok') return said;
      const { scheduled_message_id: id, channel: where = channel } = said.value;
      return answered(
        id === undefined ? undefined : { id, channel: where, postAt: seconds * SECOND, text },
        'the message it will post',
      );
    },

    /**
     * Takes it back. Within 60 s of its time the platform refuses; within about 5 minutes it says yes and posts it all
     * the same, so an `ok` this late is no promise (reports of users at github.com/slackapi/bolt-js).
     */
    async unschedule({ channel, id }: Pick<ScheduledMessage, 'channel' | 'id'>): Promise<Sent<null>> {
      const said = await tried(() =>
        client.chat.deleteScheduledMessage({ channel, scheduled_message_id: id }),
      );
      return said.kind === 'ok' ? { kind: 'ok', value: null } : said;
    },

    /** What the platform holds of ours, all of it or a failure. */
    async scheduledList(channel?: string): Promise<Sent<readonly ScheduledMessage[]>> {
      const began = clock.now();
      const found: ScheduledMessage[] = [];
      let cursor: string | undefined;
      do {
        const asked = { limit: A_PAGE, ...(channel === undefined ? {} : { channel }) };
        const from = cursor;
        const said = await tried(() =>
          client.chat.scheduledMessages.list(from === undefined ? asked : { ...asked, cursor: from }),
        );
        if (said.kind !== 'ok') return said;
        for (const { id, channel_id, post_at, text = '' } of said.value.scheduled_messages ?? []) {
          if (id !== undefined && channel_id !== undefined && post_at !== undefined)
            found.push({ id, channel: channel_id, postAt: post_at * SECOND, text });
        }
        cursor = said.value.response_metadata?.next_cursor || undefined;
        if (cursor !== undefined && clock.now() - began > MOST_BEFORE_NEXT_MS)
          return { kind: 'retry', why: 'Slack was too slow to list the messages it holds.' };
      } while (cursor !== undefined);
      return { kind: 'ok', value: found };
    },
  };
}
