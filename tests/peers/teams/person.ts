/** What people do in chats and channels: write, press a button on a card, look at a card. */
import { type Dict, dict, list, text } from '../slack/json.ts';
import { dataOf, findAction, type Typed, type Wanted } from './card.ts';
import { cardAnswer } from './card-answer.ts';
import type { Delivery } from './deliver.ts';
import type { Dialogs } from './dialogs.ts';
import {
  addMessage,
  conversationOf,
  installedIn,
  membersOf,
  messageOf,
  personalId,
  personOf,
  splitId,
  viewKey,
  type World,
} from './state.ts';
import type { ConversationState, MessageState, Outcome } from './types.ts';
import { base, mention, saidActivity } from './wire.ts';

export type Where = { conversation: string; activityId: string };

/** `oldClient` uses the fallback of an Action.Execute, as a client does that does not know it. */
export type Press = Where & Wanted & { typed?: Typed; oldClient?: boolean };

/**
 * `mention` counts outside the person's own chat, where a bot hears only what names it; true unless told. `edited` and
 * `deleted` (an id) change or take away what this person wrote before; learn.microsoft.com/microsoftteams/platform/bots/
 * how-to/conversations/conversation-messages, "Receive edit message events" and "Receive soft delete message events".
 */
export type Say = { mention?: boolean; thread?: string; edited?: string; deleted?: string };

export type Person = {
  say(userId: string, conversationId: string, words: string, options?: Say): Promise<Outcome>;
  /** Presses in the card as this person sees it now. Throws when the button is not there, or not once. */
  press(userId: string, wanted: Press): Promise<Outcome>;
  /** The card comes into sight, so it refreshes by itself if it may; `manual` is "Refresh card" in the menu. */
  looks(userId: string, where: Where, trigger?: 'automatic' | 'manual'): Promise<Outcome>;
  /** The card as this person sees it. */
  cardSeen(userId: string, where: Where): Dict;
};

const MOST_AUTOMATIC = 60;
const REFRESH_PAUSE = 60_000;

export function startPerson(world: World, delivery: Delivery, dialogs: Pick<Dialogs, 'open'>): Person {
  function inside(userId: string, conversationId: string): ConversationState {
    personOf(world, userId);
    const conversation = conversationOf(world, conversationId);
    if (!membersOf(world, conversation).includes(userId))
      throw new Error(`${userId} is not in ${conversation.id} and cannot see it.`);
    return conversation;
  }

  function seen(
    userId: string,
    where: Where,
  ): { conversation: ConversationState; message: MessageState; card: Dict } {
    const conversation = inside(userId, where.conversation);
    const message = messageOf(conversation, where.activityId);
    if (message === undefined)
      throw new Error(`There is no message ${where.activityId} in ${conversation.id} any more.`);
    const card = world.views.get(viewKey(userId, message))?.card ?? message.card;
    if (card === null) throw new Error(`Message ${message.id} has no card: "${message.text}".`);
    return { conversation, message, card };
  }

  async function execute(
    userId: string,
    where: Where,
    action: Dict,
    data: Dict,
    trigger: string,
  ): Promise<Outcome> {
    const { conversation, message } = seen(userId, where);
    const { type, title, verb, id } = action;
    const outcome = await delivery.deliver({
      ...base(world, userId, conversation, message.thread),
      type: 'invoke',
      name: 'adaptiveCard/action',
      replyToId: message.id,
      value: { action: { type, title, id, verb, data }, trigger },
    });
    return cardAnswer(world, userId, message, outcome);
  }

  function submit(userId: string, where: Where, action: Dict, data: Dict): Promise<Outcome> {
    const { conversation, message } = seen(userId, where);
    const shared = { ...base(world, userId, conversation, message.thread), replyToId: message.id };
    const special = dict(dict(action.data).msteams);
    switch (special.type) {
      case undefined:
        return delivery.deliver({ ...shared, type: 'message', id: world.nextId(), value: data });
      case 'messageBack': {
        const value = special.value ?? data;
        return delivery.deliver({
          ...shared,
          type: 'message',
          id: world.nextId(),
          text: text(special.text),
          value,
        });
      }
      case 'task/fetch':
        return dialogs.open(userId, conversation, message, data);
    }
    throw new Error(`This peer does not know data.msteams.type "${String(special.type)}".`);
  }

  /** @param words null takes it away. */
  function rewritten(
    userId: string,
    conversation: ConversationState,
    target: string,
    words: string | null,
  ): Promise<Outcome> {
    const message = messageOf(conversation, target);
    if (message === undefined)
      throw new Error(`There is no message ${target} in ${conversation.id} any more.`);
    if (message.from !== userId) throw new Error(`${userId} did not write ${target}; ${message.from} did.`);
    if (words === null) message.deleted = true;
    else Object.assign(message, { text: words, edited: true });
    const said = saidActivity(world, message, conversation, false);
    const eventType = words === null ? 'softDeleteMessage' : 'editMessage';
    const type = words === null ? 'messageDelete' : 'messageUpdate';
    return delivery.deliver({ ...said, type, channelData: { ...dict(said.channelData), eventType } });
  }

  return {
    async say(userId, conversationId, words, options = {}) {
      const conversation = inside(userId, conversationId);
      const named = conversation.kind !== 'personal' && options.mention !== false;
      const target = options.edited ?? options.deleted;
      if (target !== undefined)
        return rewritten(userId, conversation, target, options.deleted === undefined ? words : null);
      const said = named ? `${mention(world).text} ${words}` : words;
      const thread = options.thread ?? splitId(conversationId).thread;
      const message = addMessage(world, conversation, userId, { type: 'message', text: said }, thread);
      const heard = installedIn(world, conversation) && (named || conversation.kind === 'personal');
      if (!heard) return { status: 'not_heard', body: {}, activityId: message.id };
      return delivery.deliver(saidActivity(world, message, conversation, named));
    },

    async press(userId, { conversation, activityId, typed = {}, oldClient = false, title, verb, id }) {
      const where = { conversation, activityId };
      const { card } = seen(userId, where);
      const wanted = Object.fromEntries(
        Object.entries({ title, verb, id }).filter(([, one]) => one !== undefined),
      );
      const found = findAction(card, wanted, `message ${activityId}`);
      const action = oldClient && found.type === 'Action.Execute' ? dict(found.fallback) : found;
      if (action.type === 'Action.Execute')
        return execute(userId, where, action, dataOf(card, action, typed), 'manual');
      if (action.type === 'Action.Submit') return submit(userId, where, action, dataOf(card, action, typed));
      if (action !== found)
        throw new Error(`An old client has no such button: "${text(found.title)}" has no fallback.`);
      throw new Error(`"${text(action.title)}" is an ${text(action.type)}, of which the bot hears nothing.`);
    },

    async looks(userId, where, trigger = 'automatic') {
      const { conversation, message, card } = seen(userId, where);
      const none: Outcome = { status: 'no_refresh', body: {}, activityId: message.id };
      const refresh = dict(card.refresh);
      const action = dict(refresh.action);
      if (action.type !== 'Action.Execute') return none;
      const few = membersOf(world, conversation).length <= MOST_AUTOMATIC;
      const mine = refresh.userIds === undefined ? few : list(refresh.userIds).includes(userId);
      const since =
        world.clock.now() - (world.views.get(viewKey(userId, message))?.at ?? Number.NEGATIVE_INFINITY);
      if (trigger === 'automatic' && (!mine || since < REFRESH_PAUSE)) return none;
      return execute(userId, where, action, dict(action.data), trigger);
    },

    cardSeen: (userId, where) => structuredClone(seen(userId, where).card),
  };
}

/** The id of a person's own chat with the bot. */
export const chatOf = personalId;
