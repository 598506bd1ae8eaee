import type { KnownBlock } from '@slack/types';
import type { Sent } from '../chat/outcome.ts';
import { CALL_TIMEOUT_MS } from './client.ts';
import type { SenderServices } from './sender.ts';
import { answered, posted, tried } from './sender-call.ts';
import type { Look } from './sender-look.ts';
import { type Once, onceOnly } from './sender-once.ts';

/** Both always: without blocks an update would keep the old ones, without text a notification says nothing. */
export interface Content {
  readonly text: string;
  readonly blocks: readonly KnownBlock[];
}

export interface PostedMessage {
  readonly channel: string;
  readonly ts: string;
}

export function posting(services: SenderServices, look: Look) {
  const { client, clock, pace } = services;
  const once = onceOnly(services, look);

  return {
    /** A new message. With `broadcast` a reply in a thread is shown in the channel as well. */
    async post(message: Once & Content & { readonly broadcast?: boolean }): Promise<Sent<PostedMessage>> {
      const { channel, text, blocks, threadTs, broadcast = false } = message;
      const content = { channel, text, blocks: [...blocks] };
      const sent = await once(message, async () => {
        const said = await tried(() =>
          client.chat.postMessage(
            threadTs === undefined
              ? content
              : broadcast
                ? { ...content, thread_ts: threadTs, reply_broadcast: true }
                : { ...content, thread_ts: threadTs },
          ),
        );
        if (said.kind !== 'ok') return said;
        const ts = answered(said.value.ts, 'the message');
        return ts.kind === 'ok'
          ? { kind: 'ok', value: { channel: said.value.channel ?? channel, ts: ts.value } }
          : ts;
      });
      return sent.kind === 'stands' ? { kind: 'ok', value: { channel, ts: sent.ts } } : sent;
    },

    /** New words in a message of ours. Doing it a second time does no harm. `channel` is never a person's id. */
    async update(message: PostedMessage & Content): Promise<Sent<PostedMessage>> {
      const { channel, ts, text, blocks } = message;
      const wait = pace.takeUpdate(channel, ts, clock.now());
      if (wait > 0) return { kind: 'later', afterMs: wait };
      const said = await tried(() => client.chat.update({ channel, ts, text, blocks: [...blocks] }));
      if (said.kind === 'retry' && said.afterMs !== undefined)
        pace.hold('updates', channel, clock.now() + said.afterMs);
      return said.kind === 'ok' ? { kind: 'ok', value: { channel, ts } } : said;
    },

    async delete({ channel, ts }: PostedMessage): Promise<Sent<null>> {
      const said = await tried(() => client.chat.delete({ channel, ts }));
      return said.kind === 'ok' ? { kind: 'ok', value: null } : said;
    },

    /** The id of the person's direct conversation, which is what `post` and `update` want. */
    async openDm(userId: string): Promise<Sent<string>> {
      const said = await tried(() => client.conversations.open({ users: userId }));
      return said.kind === 'ok' ? answered(said.value.channel?.id, 'the conversation') : said;
    },

    /**
     * An answer to a press that only the presser sees, through the `response_url` of the press: 5 times within 30
     * minutes (docs.slack.dev/interactivity/handling-user-interaction).
     */
    async respond(responseUrl: string, content: Content): Promise<Sent<null>> {
      const body = JSON.stringify({ response_type: 'ephemeral', replace_original: false, ...content });
      const said = await posted(responseUrl, body, 'application/json', CALL_TIMEOUT_MS, 'expired_url');
      return said.kind === 'ok' ? { kind: 'ok', value: null } : said;
    },

    /** The message that was pressed in, changed at once: unlike chat.update this takes no share of the calls a minute. */
    async replace(responseUrl: string, content: Content): Promise<Sent<null>> {
      const body = JSON.stringify({ replace_original: true, ...content });
      const said = await posted(responseUrl, body, 'application/json', CALL_TIMEOUT_MS, 'expired_url');
      return said.kind === 'ok' ? { kind: 'ok', value: null } : said;
    },
  };
}
