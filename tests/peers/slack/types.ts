/** What the peer is told at the start, and what it shows. All instants are milliseconds since 1970. */
import type { Dict } from './json.ts';

export type UserSeed = {
  id: string;
  name: string;
  realName?: string;
  tz?: string;
  locale?: string;
  isBot?: boolean;
  guest?: boolean;
  deleted?: boolean;
};

export type ChannelSeed = {
  id: string;
  name: string;
  members: readonly string[];
  isPrivate?: boolean;
  archived?: boolean;
  /** False when the app has not been invited. True unless told. */
  botIn?: boolean;
};

export type UsergroupSeed = { id: string; handle: string; users: readonly string[] };

export type PeerOptions = {
  startAt: number;
  signingSecret?: string;
  appToken?: string;
  botToken?: string;
  users?: readonly UserSeed[];
  channels?: readonly ChannelSeed[];
  usergroups?: readonly UsergroupSeed[];
  /** A free workspace has no user groups: usergroups.users.list answers plan_upgrade_required. */
  freePlan?: boolean;
  /** The event types the app has subscribed to. */
  events?: readonly string[];
  /** Messages that a channel takes at once before the 1 a second rule bites. 3 unless told. */
  burst?: number;
  /** False turns off the limits by method and minute (50 chat.update a minute and so on). */
  tiers?: boolean;
  /** Follow the real clock. For demonstrations, never in a test. */
  live?: boolean;
  /** What signs HTTP requests with the time: Bolt compares it with the machine's clock, so that is the default. */
  signClock?: () => number;
};

/** The app's own identity in the workspace. */
export type Bot = {
  userId: string;
  botId: string;
  appId: string;
  name: string;
  teamId: string;
  teamDomain: string;
};

export type MessageState = {
  channel: string;
  ts: string;
  threadTs: string | null;
  user: string;
  botId: string | null;
  text: string;
  blocks: Dict[];
  attachments: Dict[];
  metadata: Dict | null;
  edited: boolean;
  deleted: boolean;
  /** Only this person sees it. */
  ephemeralTo: string | null;
  /** Came from chat.scheduleMessage. */
  scheduledId: string | null;
  files: { id: string; name: string; title: string }[];
  subtype: string | null;
};

export type ChannelState = {
  id: string;
  name: string;
  kind: 'public' | 'private' | 'im';
  members: Set<string>;
  botIn: boolean;
  archived: boolean;
  messages: MessageState[];
};

export type ViewState = {
  id: string;
  user: string;
  type: 'modal' | 'home';
  hash: string;
  externalId: string;
  rootId: string;
  previousId: string | null;
  /** The view as the app sent it, each block with its block_id and each element with its action_id. */
  view: Dict;
  /** What the person has typed or chosen so far: block_id → action_id → value in the platform's shape. */
  typed: { [blockId: string]: { [actionId: string]: Dict } };
  /** What the app answered with response_action "errors". */
  errors: { [blockId: string]: string };
};

export type ScheduledState = {
  id: string;
  channel: string;
  postAt: number;
  createdAt: number;
  text: string;
  blocks: Dict[];
  attachments: Dict[];
  threadTs: string | null;
  /** With metadata the platform takes the message and never posts it (docs.slack.dev, bug alert). */
  neverPosts: boolean;
  /** Deleted in time. One deleted too late is gone from the list and posts all the same. */
  takenBack: boolean;
};

export type FileState = {
  id: string;
  name: string;
  title: string;
  length: number;
  bytes: Uint8Array | null;
  done: boolean;
};

export type Call = { method: string; args: Dict; at: number; response: Dict | string };

export type Fault =
  | { kind: '429'; retryAfter: number }
  | { kind: 'status'; status: number }
  | { kind: 'error'; error: string }
  /** Never answers. With `accepted` the call has had its effect all the same. */
  | { kind: 'hang'; accepted?: boolean }
  /** The call has its effect, then the connection goes without an answer. */
  | { kind: 'accept-then-drop' }
  /** The connection goes before the call has any effect. */
  | { kind: 'drop' };

/**
 * What became of something a person did. `status` is the HTTP status of the app, or a word: 'socket' (acked over
 * the WebSocket), 'no_connection', 'connection_closed', 'timeout' (3 s of the peer's clock), 'refused',
 * 'bad_response' (acked with something the platform would not take; `problem` says what).
 */
export type Outcome = { acked: boolean; status: number | string; body: Dict; problem?: string };
