/** POST, PUT and DELETE of activities. */
import { type Dict, isDict } from '../slack/json.ts';
import { checkActivity } from './check-activity.ts';
import { checkFileCards } from './files.ts';
import { Refused } from './refusal.ts';
import { addMessage, cardIn, installedIn, membersOf, messageOf, splitId, type World } from './state.ts';
import type { ConversationState, MessageState } from './types.ts';

export type Reply = { status: number; body: Dict };

/** The conversation, when the bot may write there. Throws Refused. */
export function reachable(world: World, id: string): ConversationState {
  const found = world.conversations.get(splitId(id).base);
  if (found === undefined) throw new Refused('ConversationNotFound', 'Conversation not found.');
  if (!installedIn(world, found))
    throw new Refused('BotNotInConversationRoster', 'The bot is not part of the conversation roster.');
  const [person] = membersOf(world, found);
  if (found.kind === 'personal' && person !== undefined && world.blocked.has(person))
    throw new Refused('ConversationBlockedByUser', 'User blocked the conversation with the bot.');
  return found;
}

export function bodyOf(body: unknown): Dict {
  if (!isDict(body)) throw new Refused('BadSyntax', 'The body is not a JSON object.');
  return body;
}

/** Puts it into the conversation. Text beside a card becomes two messages, and then no id comes back. */
export function post(
  world: World,
  conversation: ConversationState,
  activity: Dict,
  thread: string | null,
): MessageState | null {
  checkFileCards(world, conversation, activity);
  const checked = checkActivity(activity, JSON.stringify(activity).length);
  if (activity.type === 'typing') return null;
  if (thread !== null && !conversation.messages.some((one) => one.id === thread))
    throw new Refused('ConversationNotFound', `There is no thread ${thread}.`);
  if (checked.text === '' || checked.card === null)
    return addMessage(world, conversation, world.bot.id, activity, thread);
  const { attachments, ...words } = activity;
  const first = addMessage(world, conversation, world.bot.id, words, thread);
  addMessage(
    world,
    conversation,
    world.bot.id,
    { ...activity, text: '', attachments },
    thread ?? first.thread,
  );
  return null;
}

export function send(world: World, conversationId: string, body: unknown): Reply {
  const conversation = reachable(world, conversationId);
  const made = post(world, conversation, bodyOf(body), splitId(conversationId).thread);
  return { status: 201, body: made === null ? {} : { id: made.id } };
}

/** Any id to reply to is taken: in a continued turn botbuilder makes one up. */
export function reply(world: World, conversationId: string, replyTo: string, body: unknown): Reply {
  const conversation = reachable(world, conversationId);
  const thread = splitId(conversationId).thread ?? messageOf(conversation, replyTo)?.thread ?? null;
  const made = post(world, conversation, bodyOf(body), thread);
  return { status: 201, body: made === null ? {} : { id: made.id } };
}

function own(world: World, conversation: ConversationState, id: string): MessageState {
  const found = messageOf(conversation, id);
  if (found === undefined)
    throw new Refused('ActivityNotFoundInConversation', `No activity ${id} in the conversation.`);
  if (found.from !== world.bot.id)
    throw new Refused('Forbidden', 'Only messages of the bot itself can be changed.');
  return found;
}

export function update(world: World, conversationId: string, id: string, body: unknown): Reply {
  const conversation = reachable(world, conversationId);
  const message = own(world, conversation, id);
  const activity = bodyOf(body);
  checkFileCards(world, conversation, activity);
  const checked = checkActivity(activity, JSON.stringify(activity).length);
  // What the platform makes of it is not published; sent anew, it would be two messages.
  if (checked.text !== '' && checked.card !== null)
    throw new Refused(
      'BadArgument',
      'A message cannot be updated to text beside a card: send one of the two.',
    );
  message.activity = activity;
  message.text = checked.text;
  message.card = cardIn(activity);
  message.edited = true;
  // A new base card takes the place of what each person had got for themselves.
  for (const key of world.views.keys()) {
    if (key.endsWith(` ${message.conversation} ${message.id}`)) world.views.delete(key);
  }
  return { status: 200, body: { id } };
}

export function remove(world: World, conversationId: string, id: string): Reply {
  own(world, reachable(world, conversationId), id).deleted = true;
  return { status: 200, body: {} };
}
