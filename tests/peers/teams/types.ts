/** What the peer is told at the start, and what it shows. All instants are milliseconds since 1970. */
import type { Dict } from '../slack/json.ts';

/** `id` is the 29:… id that a bot sees. `installed` is about the app in the person's own chat; true unless told. */
export type PersonSeed = { id: string; name: string; aadId: string; locale?: string; installed?: boolean };

/** A chat of several people. `installed` is true unless told. */
export type ChatSeed = { id: string; members: readonly string[]; installed?: boolean };

/** The team's id is the id of its General channel. `installed` is true unless told. */
export type TeamSeed = {
  id: string;
  name: string;
  members: readonly string[];
  channels?: readonly { id: string; name: string }[];
  installed?: boolean;
};

export type PeerOptions = {
  startAt: number;
  people?: readonly PersonSeed[];
  teams?: readonly TeamSeed[];
  chats?: readonly ChatSeed[];
  appId?: string;
  appPassword?: string;
  tenantId?: string;
  botName?: string;
  /** False turns off the throttling table. */
  limits?: boolean;
  /** Follow the real clock. For demonstrations, never in a test. */
  live?: boolean;
  /** The time in tokens to the bot (ms): botbuilder compares it with the machine's clock, so that is the default. */
  signClock?: () => number;
};

export type MessageState = {
  /** The conversation without any ;messageid=. */
  conversation: string;
  id: string;
  /** The message that opened the thread; null outside channels. */
  thread: string | null;
  from: string;
  text: string;
  /** The first Adaptive Card in it. */
  card: Dict | null;
  /** As it was sent. */
  activity: Dict;
  edited: boolean;
  deleted: boolean;
};

export type ConversationState = {
  id: string;
  name: string;
  kind: 'personal' | 'groupChat' | 'channel';
  team: string | null;
  messages: MessageState[];
};

export type TeamState = { id: string; name: string; members: Set<string>; installed: boolean };

/** `contentUrl` is where people open it; `bytes` is null until they have come. */
export type FileState = {
  user: string;
  name: string;
  uniqueId: string;
  fileType: string;
  contentUrl: string;
  bytes: Uint8Array | null;
};

export type Operation =
  /** Not of the connector: the bytes of a file into a person's storage. */
  | 'uploadFile'
  | 'openid'
  | 'keys'
  | 'token'
  | 'createConversation'
  | 'sendToConversation'
  | 'replyToActivity'
  | 'updateActivity'
  | 'deleteActivity'
  | 'getMembers'
  | 'getMember'
  | 'getPagedMembers'
  | 'getActivityMembers'
  | 'unknown';

/** What a fault is asked for. */
export type FaultTarget = Operation | '*' | 'posts' | 'opens';

/** One request as it came. `conversation` is as in the address, with ;messageid= where it had one. */
export type Call = {
  operation: Operation;
  method: string;
  conversation: string;
  target: string;
  body: unknown;
  at: number;
  /** What was answered, or would have been: 'hangs' and 'dropped' when nothing was done. */
  status: number | 'hangs' | 'dropped';
  response: Dict;
};

export type Fault =
  /** Without `retryAfter` (s) the header is missing. */
  | { kind: '429'; retryAfter?: number }
  | { kind: 'status'; status: number }
  /** A refusal by its code, such as BotDisabledByAdmin; the status goes with the code. */
  | { kind: 'error'; code: ErrorCode }
  /** Never answers. With `accepted` the call has had its effect all the same. */
  | { kind: 'hang'; accepted?: boolean }
  /** The call has its effect, and the answer says that it failed. */
  | { kind: 'accept-then-status'; status: number }
  /** The call has its effect, then the connection goes without an answer. */
  | { kind: 'accept-then-drop' }
  /** The connection goes before the call has any effect. */
  | { kind: 'drop' };

export type ErrorCode =
  | 'BadArgument'
  | 'BadSyntax'
  | 'BotDisabledByAdmin'
  | 'BotNotInConversationRoster'
  | 'ConversationBlockedByUser'
  | 'Forbidden'
  | 'MessageWritesBlocked'
  | 'ActivityNotFoundInConversation'
  | 'ConversationNotFound'
  | 'MemberNotFoundInConversation'
  | 'PreconditionFailed'
  | 'MessageSizeTooBig'
  | 'TooManyRequests'
  | 'Unauthorized'
  | 'NotFound';

/** What is wrong with the token of the next request to the bot. */
export type Forgery =
  | 'unsigned'
  | 'not-bearer'
  | 'garbage'
  | 'alg-none'
  | 'HS256'
  | 'wrong-key'
  | 'unknown-key'
  | 'expired'
  | 'not-yet-valid'
  | 'wrong-audience'
  | 'wrong-issuer'
  | 'wrong-service-url'
  | 'no-service-url'
  | 'missing-endorsement';

/**
 * What became of something a person did. `status` is the bot's HTTP status, or a word: 'timeout' (by the peer's
 * clock), 'refused' (no connection, or it broke), 'no_bot' (nothing listens), 'not_heard' (the bot is not told of
 * such things), 'no_refresh' (the card does not refresh by itself for this person). `problem` says why a client
 * would show "something went wrong" although the bot answered.
 */
export type Outcome = { status: number | string; body: Dict; activityId: string; problem?: string };

export type DialogState = { user: string; title: string; card: Dict; conversation: string; replyTo: string };
