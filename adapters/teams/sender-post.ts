import type { ConversationParameters } from 'botbuilder';
import { z } from 'zod';
import type { Instant } from '../../src/model/time.ts';
import type { Sent } from '../chat/outcome.ts';
import type { FileCard } from './file-card.ts';
import { kindOf, splitId, threadId } from './inbound-parts.ts';
import type { Card } from './render-card.ts';
import type { SenderServices } from './sender.ts';
import type { Call, Settled } from './sender-call.ts';
import { TEAMS } from './services.ts';

export type Content = {
  /** The notification. */
  readonly summary: string;
} & ({ readonly card: Card } | { readonly file: FileCard });

const postedSchema = z.object({ conversation: z.string(), id: z.string(), thread: z.string().nullable() });

/** A message of ours. `thread` is the message that opened its thread (itself for the first); null outside channels. */
export type PostedMessage = z.infer<typeof postedSchema>;

export type Post = Content & {
  /** Without any `;messageid=`. */
  readonly conversation: string;
  /** The message that opened the thread to answer in; left out, it is a new message. */
  readonly under?: string | undefined;
  /** Unique to the delivery and the part of it. */
  readonly marker: string;
  /** An earlier try may have been shown: it is not said again when it is known to stand. */
  readonly lookFirst?: boolean;
  /** Makes a noise where the person has it on. */
  readonly alert?: boolean;
};

/** Under it stands that the file of a question (`name`) was brought. */
export const filedKey = (name: string) => `filed:${name}`;

export function posting({ conversations, memory, clock, pace, appId, tenantId }: SenderServices, call: Call) {
  const bot = { id: `28:${appId}`, name: '' };
  const keyOf = (marker: string) => `sent:${marker}`;

  async function stands(marker: string): Promise<PostedMessage | null> {
    const text = await memory.get(TEAMS, keyOf(marker));
    return text === null ? null : postedSchema.parse(JSON.parse(text));
  }

  const activityFor = ({ summary, alert = false, ...shown }: Content & { readonly alert?: boolean }) => ({
    type: 'message',
    summary,
    // The card alone: beside a text it would become two messages, and no id would come back.
    attachments: [
      'file' in shown
        ? shown.file
        : { contentType: 'application/vnd.microsoft.card.adaptive', content: shown.card },
    ],
    ...(alert && { channelData: { notification: { alert: true } } }),
  });

  /** In a channel a new message opens a thread; the platform names it by the conversation's id. */
  async function opened(message: Post): Promise<Settled<PostedMessage>> {
    const { conversation } = message;
    const parameters = {
      isGroup: true,
      channelData: { channel: { id: conversation }, tenant: { id: tenantId } },
      tenantId,
      bot,
      activity: activityFor(message),
    };
    const said = await call(conversation, conversation, (api) =>
      api.createConversation(parameters as ConversationParameters),
    );
    if (said.kind !== 'ok') return said;
    const { thread } = splitId(said.value.id ?? '');
    const id = said.value.activityId ?? thread ?? undefined;
    return named(id, { conversation, thread: thread ?? id ?? null });
  }

  async function added(message: Post): Promise<Settled<PostedMessage>> {
    const { conversation, under } = message;
    const where = inThread(conversation, under ?? null);
    const said = await call(conversation, conversation, (api) =>
      api.sendToConversation(where, activityFor(message)),
    );
    return said.kind === 'ok' ? named(said.value.id, { conversation, thread: under ?? null }) : said;
  }

  return {
    stands,

    /** A new message, kept by its marker before this resolves. */
    async post(message: Post): Promise<Sent<PostedMessage>> {
      const { conversation, marker, under, lookFirst = false } = message;
      const there = lookFirst ? await stands(marker) : null;
      if (there !== null) return { kind: 'ok', value: there };
      const wait = pace.takePost(conversation, clock.now());
      if (wait > 0) return { kind: 'later', afterMs: wait };
      const inChannel = kindOf(undefined, conversation) === 'channel';
      const sent = inChannel && under === undefined ? await opened(message) : await added(message);
      if (sent.kind === 'ok') await memory.put(TEAMS, keyOf(marker), JSON.stringify(sent.value));
      return sent;
    },

    /** New words in a message of ours, which also takes the place of what single people see in it. Doing it again does no harm. */
    async update(message: PostedMessage & Content): Promise<Sent<PostedMessage>> {
      const { conversation, id, thread } = message;
      const wait = pace.takeUpdate(conversation, id, clock.now());
      if (wait > 0) return { kind: 'later', afterMs: wait };
      const said = await call(conversation, conversation, (api) =>
        api.updateActivity(inThread(conversation, thread), id, activityFor(message)),
      );
      return said.kind === 'ok' ? { kind: 'ok', value: { conversation, id, thread } } : said;
    },

    async delete({ conversation, id, thread }: PostedMessage): Promise<Sent<null>> {
      const wait = pace.takePost(conversation, clock.now());
      if (wait > 0) return { kind: 'later', afterMs: wait };
      const said = await call(conversation, conversation, (api) =>
        api.deleteActivity(inThread(conversation, thread), id),
      );
      return said.kind === 'ok' ? { kind: 'ok', value: null } : said;
    },

    /** Where messages of before `before` stand: nobody asks for them again. How many were forgotten. */
    async forgetSent(before: Instant): Promise<number> {
      await memory.forget(TEAMS, filedKey(''), before);
      return memory.forget(TEAMS, keyOf(''), before);
    },

    /** Whether Teams has said where to write, so that a delivery need not be tried. */
    reachable: async (conversation: string): Promise<boolean> =>
      (await conversations.serviceUrl(conversation)) !== null,
  };
}

const inThread = (conversation: string, thread: string | null): string =>
  thread === null ? conversation : threadId(conversation, thread);

/** The platform said yes, but may not name the message: then it cannot be changed later, and may not stand. */
function named(id: string | undefined, where: Omit<PostedMessage, 'id'>): Settled<PostedMessage> {
  if (id !== undefined && id !== '') return { kind: 'ok', value: { ...where, id } };
  return {
    kind: 'unclear',
    why: 'Teams said yes without naming the message; it may have been shown or not.',
  };
}
