/** Activities as the platform sends them to a bot. */
import type { Dict } from '../slack/json.ts';
import { personOf, type World } from './state.ts';
import type { ConversationState, MessageState } from './types.ts';

export function conversationShape(
  world: World,
  conversation: ConversationState,
  thread: string | null,
): Dict {
  const { id, kind } = conversation;
  return {
    id: thread === null ? id : `${id};messageid=${thread}`,
    conversationType: kind,
    tenantId: world.bot.tenantId,
    ...(kind === 'personal' ? {} : { isGroup: true }),
  };
}

export function channelData(world: World, conversation: ConversationState, more: Dict = {}): Dict {
  const team = conversation.team === null ? undefined : world.teams.get(conversation.team);
  const shared = { tenant: { id: world.bot.tenantId }, ...more };
  if (team === undefined) return shared;
  return { channel: { id: conversation.id }, team: { id: team.id, name: team.name }, ...shared };
}

/** What every activity has. `id` and `timestamp` are set when it goes out. */
export function base(
  world: World,
  userId: string,
  conversation: ConversationState,
  thread: string | null,
): Dict {
  const { id, name, aadId, locale = 'en-GB' } = personOf(world, userId);
  return {
    channelId: 'msteams',
    from: { id, name, aadObjectId: aadId },
    recipient: { id: world.bot.id, name: world.bot.name },
    conversation: conversationShape(world, conversation, thread),
    channelData: channelData(world, conversation),
    entities: [{ type: 'clientInfo', locale, country: 'GB', platform: 'Web', timezone: 'Etc/UTC' }],
    locale,
  };
}

export function mention(world: World): { text: string; entity: Dict } {
  const text = `<at>${world.bot.name}</at>`;
  return { text, entity: { type: 'mention', text, mentioned: { id: world.bot.id, name: world.bot.name } } };
}

export function saidActivity(
  world: World,
  message: MessageState,
  conversation: ConversationState,
  named: boolean,
): Dict {
  const shared = base(world, message.from, conversation, message.thread);
  const { entity } = mention(world);
  const entities = Array.isArray(shared.entities) ? shared.entities : [];
  return {
    ...shared,
    type: 'message',
    id: message.id,
    text: message.text,
    textFormat: 'plain',
    attachments: [{ contentType: 'text/html', content: `<p>${message.text}</p>` }],
    entities: named ? [entity, ...entities] : entities,
  };
}
