/** Everything the pretended workspace knows. Plain data; the methods and the people change it. */
import type { PeerClock } from './clock.ts';
import { type Ids, startIds } from './ids.ts';
import type {
  Bot,
  Call,
  ChannelState,
  FileState,
  MessageState,
  PeerOptions,
  ScheduledState,
  UsergroupSeed,
  UserSeed,
  ViewState,
} from './types.ts';

export type Trigger = { user: string; madeAt: number; used: boolean; viewId: string | null };
export type ResponseUrl = {
  user: string;
  channel: string;
  messageTs: string | null;
  madeAt: number;
  uses: number;
};

export type Workspace = {
  clock: PeerClock;
  ids: Ids;
  bot: Bot;
  users: Map<string, UserSeed>;
  channels: Map<string, ChannelState>;
  usergroups: Map<string, UsergroupSeed>;
  freePlan: boolean;
  homes: Map<string, ViewState>;
  modals: Map<string, ViewState[]>;
  scheduled: Map<string, ScheduledState>;
  triggers: Map<string, Trigger>;
  responseUrls: Map<string, ResponseUrl>;
  files: Map<string, FileState>;
  calls: Call[];
};

export const BOT: Bot = {
  userId: 'UBOT00001',
  botId: 'BBOT00001',
  appId: 'AAPP00001',
  name: 'potbell',
  teamId: 'TTEAM0001',
  teamDomain: 'yard',
};

export function startWorkspace(options: PeerOptions, clock: PeerClock): Workspace {
  const users = new Map((options.users ?? []).map((user) => [user.id, user]));
  users.set(BOT.userId, { id: BOT.userId, name: BOT.name, isBot: true });
  const channels = new Map<string, ChannelState>();
  for (const seed of options.channels ?? []) {
    for (const member of seed.members) {
      if (!users.has(member))
        throw new Error(`Channel ${seed.id} names member ${member}; no such user was given.`);
    }
    channels.set(seed.id, {
      id: seed.id,
      name: seed.name,
      kind: seed.isPrivate === true ? 'private' : 'public',
      members: new Set(seed.members),
      botIn: seed.botIn ?? true,
      archived: seed.archived ?? false,
      messages: [],
    });
  }
  return {
    clock,
    ids: startIds(),
    bot: BOT,
    users,
    channels,
    usergroups: new Map((options.usergroups ?? []).map((group) => [group.id, group])),
    freePlan: options.freePlan ?? false,
    homes: new Map(),
    modals: new Map(),
    scheduled: new Map(),
    triggers: new Map(),
    responseUrls: new Map(),
    files: new Map(),
    calls: [],
  };
}

/** The person's direct conversation with the app; opened when there is none. */
export function openDm(space: Workspace, userId: string): ChannelState {
  const id = dmId(userId);
  const there = space.channels.get(id);
  if (there !== undefined) return there;
  const made: ChannelState = {
    id,
    name: '',
    kind: 'im',
    members: new Set([userId]),
    botIn: true,
    archived: false,
    messages: [],
  };
  space.channels.set(id, made);
  return made;
}

export function dmId(userId: string): string {
  return `D${userId.slice(1)}`;
}

export type NewMessage = Pick<MessageState, 'user'> & Partial<MessageState>;

/** Puts a message into a channel under a ts of its own. */
export function addMessage(space: Workspace, channel: ChannelState, given: NewMessage): MessageState {
  const message: MessageState = {
    threadTs: null,
    botId: null,
    text: '',
    blocks: [],
    attachments: [],
    metadata: null,
    edited: false,
    deleted: false,
    ephemeralTo: null,
    scheduledId: null,
    files: [],
    subtype: null,
    ...given,
    channel: channel.id,
    ts: space.ids.ts(space.clock.now()),
  };
  channel.messages.push(message);
  return message;
}

export function findMessage(channel: ChannelState, ts: string): MessageState | undefined {
  return channel.messages.find((one) => one.ts === ts && !one.deleted);
}

export function userOf(space: Workspace, userId: string): UserSeed {
  const user = space.users.get(userId);
  if (user === undefined)
    throw new Error(`There is no user ${userId}: add it to users when the peer starts.`);
  return user;
}

export function channelOf(space: Workspace, channelId: string): ChannelState {
  const channel = space.channels.get(channelId);
  if (channel === undefined) {
    throw new Error(
      `There is no channel ${channelId}: add it to channels, or open the direct conversation first.`,
    );
  }
  return channel;
}
