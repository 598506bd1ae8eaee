import { z } from 'zod';

/** Where something happened. */
export interface Place {
  /** Without any `;messageid=`. */
  readonly conversation: string;
  readonly kind: 'personal' | 'groupChat' | 'channel';
  /** The message that opened the thread; null outside channels. */
  readonly thread: string | null;
  /** The message pressed in, or the line that was written; null when there is none. */
  readonly messageId: string | null;
  readonly team: string | null;
  /** Of this activity: newer than any that is kept. */
  readonly serviceUrl: string;
}

const named = z.object({ id: z.string(), name: z.string().optional() });
export const whoSchema = z.object({
  id: z.string(),
  name: z.string().optional(),
  aadObjectId: z.string().optional(),
  role: z.string().optional(),
});
export type Who = z.infer<typeof whoSchema>;

/** What is read of an activity; all else in it is left alone. */
export const activitySchema = z.object({
  type: z.string(),
  id: z.string().optional(),
  name: z.string().optional(),
  action: z.string().optional(),
  timestamp: z.string().optional(),
  serviceUrl: z.string(),
  from: z.unknown().optional(),
  recipient: z.object({ id: z.string() }).optional(),
  conversation: z.object({ id: z.string(), conversationType: z.string().optional() }),
  replyToId: z.string().optional(),
  text: z.string().optional(),
  value: z.unknown().optional(),
  entities: z.array(z.unknown()).optional(),
  membersAdded: z.array(whoSchema).optional(),
  membersRemoved: z.array(whoSchema).optional(),
  channelData: z
    .object({ eventType: z.string().optional(), team: named.optional(), channel: named.optional() })
    .optional(),
});
export type Activity = z.infer<typeof activitySchema>;

export const memberOf = ({ id, aadObjectId }: Who): string => aadObjectId ?? id;

export function placeOf(activity: Activity): Place {
  const { conversation, channelData, replyToId, id, type, serviceUrl } = activity;
  const { base, thread } = splitId(conversation.id);
  const kind = kindOf(conversation.conversationType, base);
  return {
    conversation: base,
    kind,
    thread: kind === 'channel' ? thread : null,
    messageId: replyToId ?? (type === 'message' ? (id ?? null) : null),
    team: channelData?.team?.id ?? null,
    serviceUrl,
  };
}

/** `19:x@thread.tacv2;messageid=5` is the channel and the message that opened the thread. */
export function splitId(id: string): { readonly base: string; readonly thread: string | null } {
  const [base = '', thread] = id.split(';messageid=');
  return { base, thread: thread ?? null };
}

export const threadId = (conversation: string, thread: string): string =>
  `${conversation};messageid=${thread}`;

/** Where Teams does not say it, by how its ids look (from memory, no source). */
export function kindOf(said: string | undefined, id: string): Place['kind'] {
  if (said === 'personal' || said === 'groupChat' || said === 'channel') return said;
  if (/@thread\.(tacv2|skype)$/.test(id)) return 'channel';
  return id.startsWith('19:') ? 'groupChat' : 'personal';
}
