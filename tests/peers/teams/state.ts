/** Who and what there is: people, teams, conversations, messages, and what each person has on the screen. */
import type { PeerClock } from '../slack/clock.ts';
import { type Dict, dict, dicts, text } from '../slack/json.ts';
import type {
  Call,
  ConversationState,
  DialogState,
  FileState,
  MessageState,
  PeerOptions,
  PersonSeed,
  TeamState,
} from './types.ts';

export const CARD = 'application/vnd.microsoft.card.adaptive';
export const CONSENT = 'application/vnd.microsoft.teams.card.file.consent';
export const INFO = 'application/vnd.microsoft.teams.card.file.info';

export type Bot = { appId: string; password: string; tenantId: string; id: string; name: string };

export type World = {
  clock: PeerClock;
  bot: Bot;
  people: Map<string, PersonSeed>;
  teams: Map<string, TeamState>;
  conversations: Map<string, ConversationState>;
  /** Members of group chats. */
  chats: Map<string, Set<string>>;
  /** Conversations of one or several people where the app is installed. */
  installed: Set<string>;
  blocked: Set<string>;
  /** `user message` → the card that this person alone sees in its place. */
  views: Map<string, { card: Dict; at: number }>;
  dialogs: Map<string, DialogState>;
  notes: { user: string; text: string }[];
  calls: Call[];
  files: FileState[];
  nextId(): string;
};

export function startWorld(options: PeerOptions, clock: PeerClock): World {
  const appId = options.appId ?? '00000000-0000-4000-8000-0000000000b0';
  let last = 0;
  const world: World = {
    clock,
    bot: {
      appId,
      password: options.appPassword ?? 'loopback-secret',
      tenantId: options.tenantId ?? '00000000-0000-4000-8000-0000000000ff',
      id: `28:${appId}`,
      name: options.botName ?? 'Loopback',
    },
    people: new Map((options.people ?? []).map((one) => [one.id, one])),
    teams: new Map(),
    conversations: new Map(),
    chats: new Map(),
    installed: new Set(),
    blocked: new Set(),
    views: new Map(),
    dialogs: new Map(),
    notes: [],
    calls: [],
    files: [],
    nextId() {
      last = Math.max(last + 1, clock.now());
      return String(last);
    },
  };
  const open = (id: string, name: string, kind: ConversationState['kind'], team: string | null): void => {
    if (world.conversations.has(id)) throw new Error(`Two conversations are called ${id}.`);
    world.conversations.set(id, { id, name, kind, team, messages: [] });
  };
  for (const person of world.people.values()) {
    open(personalId(person.id), person.name, 'personal', null);
    if (person.installed !== false) world.installed.add(personalId(person.id));
  }
  for (const chat of options.chats ?? []) {
    open(chat.id, '', 'groupChat', null);
    world.chats.set(chat.id, new Set(chat.members));
    if (chat.installed !== false) world.installed.add(chat.id);
  }
  for (const team of options.teams ?? []) {
    const { id, name, members, installed = true } = team;
    world.teams.set(id, { id, name, members: new Set(members), installed });
    open(id, 'General', 'channel', id);
    for (const channel of team.channels ?? []) open(channel.id, channel.name, 'channel', id);
  }
  return world;
}

export function personalId(userId: string): string {
  return `a:1${userId.replace(/^29:/, '')}`;
}

/** `19:x@thread.tacv2;messageid=5` → the channel and the message that opened the thread. */
export function splitId(id: string): { base: string; thread: string | null } {
  const [base = '', thread] = id.split(';messageid=');
  return { base, thread: thread ?? null };
}

export function personOf(world: World, userId: string): PersonSeed {
  const person = world.people.get(userId);
  if (person === undefined)
    throw new Error(`There is no ${userId}. Name one of: ${[...world.people.keys()].join(', ')}.`);
  return person;
}

export function conversationOf(world: World, id: string): ConversationState {
  const { base } = splitId(id);
  const found = world.conversations.get(base);
  if (found === undefined)
    throw new Error(
      `There is no conversation ${base}. There are: ${[...world.conversations.keys()].join(', ')}.`,
    );
  return found;
}

export function membersOf(world: World, { id, kind, team }: ConversationState): string[] {
  switch (kind) {
    case 'personal':
      return [...world.people.keys()].filter((one) => personalId(one) === id);
    case 'groupChat':
      return [...(world.chats.get(id) ?? [])];
    case 'channel':
      return [...(world.teams.get(team ?? '')?.members ?? [])];
  }
}

export function installedIn(world: World, conversation: ConversationState): boolean {
  if (conversation.team !== null) return world.teams.get(conversation.team)?.installed === true;
  return world.installed.has(conversation.id);
}

export function cardIn(activity: Dict): Dict | null {
  const first = dicts(activity.attachments).find((one) => one.contentType === CARD);
  return first === undefined ? null : dict(first.content);
}

export function addMessage(
  world: World,
  conversation: ConversationState,
  from: string,
  activity: Dict,
  thread: string | null,
): MessageState {
  const id = world.nextId();
  const message: MessageState = {
    conversation: conversation.id,
    id,
    thread: conversation.kind === 'channel' ? (thread ?? id) : null,
    from,
    text: text(activity.text),
    card: cardIn(activity),
    activity,
    edited: false,
    deleted: false,
  };
  conversation.messages.push(message);
  return message;
}

export function messageOf(conversation: ConversationState, id: string): MessageState | undefined {
  return conversation.messages.find((one) => one.id === id && !one.deleted);
}

export function viewKey(userId: string, message: MessageState): string {
  return `${userId} ${message.conversation} ${message.id}`;
}
