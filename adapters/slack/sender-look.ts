import type { Sent } from '../chat/outcome.ts';
import type { SenderServices } from './sender.ts';
import { tried } from './sender-call.ts';

/** A message that stands in a conversation. */
export interface Standing {
  readonly ts: string;
  readonly text: string;
  readonly threadTs: string | null;
  /** Null for what a person wrote. */
  readonly botId: string | null;
  readonly blockIds: readonly string[];
}

/** Of the conversation the newest messages come first, and what is looked for was posted in the last minutes. */
const NEWEST = 50;
/** A thread comes with its oldest replies first: fewer than the most would leave out the newest. */
const MOST_REPLIES = 1000;

export interface Where {
  /** The conversation's own id (C…, G… or D…), not a person's. */
  readonly channel: string;
  readonly threadTs?: string | undefined;
}

interface Raw {
  readonly ts?: string;
  readonly text?: string;
  readonly thread_ts?: string;
  readonly bot_id?: string;
  readonly blocks?: readonly { readonly block_id?: string }[];
}

export type Look = ReturnType<typeof lookups>;

export function lookups({ client }: Pick<SenderServices, 'client'>) {
  /** The newest 50 messages of a conversation, newest first; with `threadTs` its first message and all replies. */
  async function read({ channel, threadTs }: Where): Promise<Sent<readonly Standing[]>> {
    return await tried(async () => {
      const { messages = [] } =
        threadTs === undefined
          ? await client.conversations.history({ channel, limit: NEWEST })
          : await client.conversations.replies({ channel, ts: threadTs, limit: MOST_REPLIES });
      return messages.flatMap((message) => standing(message));
    });
  }

  return {
    read,
    /** Our message with a block id that is `id` or begins with `<id>:`; people cannot set any. Null: none stands. */
    async find(where: Where, id: string): Promise<Sent<Standing | null>> {
      const found = await read(where);
      if (found.kind !== 'ok') return found;
      const ours = found.value.find(({ blockIds }) =>
        blockIds.some((one) => one === id || one.startsWith(`${id}:`)),
      );
      return { kind: 'ok', value: ours ?? null };
    },
  };
}

function standing({ ts, text = '', thread_ts, bot_id, blocks = [] }: Raw): readonly Standing[] {
  if (ts === undefined) return [];
  const blockIds = blocks.flatMap(({ block_id }) => (block_id === undefined ? [] : [block_id]));
  return [{ ts, text, threadTs: thread_ts ?? null, botId: bot_id ?? null, blockIds }];
}
