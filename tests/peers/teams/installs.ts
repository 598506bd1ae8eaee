/**
 * The app comes and goes, and people with it. learn.microsoft.com/microsoftteams/platform/bots/how-to/conversations/
 * subscribe-to-conversation-events: conversationUpdate with membersAdded or membersRemoved, and installationUpdate.
 */
import type { Dict } from '../slack/json.ts';
import type { Delivery } from './deliver.ts';
import { conversationOf, membersOf, personalId, personOf, type World } from './state.ts';
import type { ConversationState, Outcome } from './types.ts';
import { base, channelData } from './wire.ts';

export type Installs = {
  /** Into the person's own chat unless `where` names a team (its General channel) or a group chat. */
  installs(userId: string, where?: string): Promise<Outcome>;
  uninstalls(userId: string, where?: string): Promise<Outcome>;
  joins(userId: string, where: string): Promise<Outcome>;
  leaves(userId: string, where: string): Promise<Outcome>;
};

export function startInstalls(world: World, delivery: Delivery): Installs {
  function place(userId: string, where: string): ConversationState {
    personOf(world, userId);
    const conversation = conversationOf(world, where);
    if (conversation.team !== null && conversation.team !== where)
      throw new Error(`Apps and people join a team, not a channel of it: name ${conversation.team}.`);
    return conversation;
  }

  function mark(conversation: ConversationState, inside: boolean): void {
    const team = conversation.team === null ? undefined : world.teams.get(conversation.team);
    if (team !== undefined) team.installed = inside;
    else if (inside) world.installed.add(conversation.id);
    else world.installed.delete(conversation.id);
  }

  function roster(conversation: ConversationState): Set<string> {
    const found = world.teams.get(conversation.team ?? '')?.members ?? world.chats.get(conversation.id);
    if (found === undefined) throw new Error(`Nobody joins or leaves the personal chat ${conversation.id}.`);
    return found;
  }

  function changed(
    userId: string,
    where: ConversationState,
    added: boolean,
    ids: string[],
  ): Promise<Outcome> {
    const people = ids.map((id) => ({ id, aadObjectId: world.people.get(id)?.aadId }));
    const eventType = added ? 'teamMemberAdded' : 'teamMemberRemoved';
    return delivery.deliver({
      ...base(world, userId, where, null),
      type: 'conversationUpdate',
      [added ? 'membersAdded' : 'membersRemoved']: people,
      channelData: channelData(world, where, where.team === null ? {} : { eventType }),
    });
  }

  function installation(
    userId: string,
    where: ConversationState,
    action: 'add' | 'remove',
  ): Promise<Outcome> {
    const activity: Dict = { ...base(world, userId, where, null), type: 'installationUpdate', action };
    return delivery.deliver(activity);
  }

  /** The one that went wrong, or the first. */
  async function both(events: readonly (() => Promise<Outcome>)[]): Promise<Outcome> {
    const outcomes: Outcome[] = [];
    for (const event of events) outcomes.push(await event());
    const [first] = outcomes;
    if (first === undefined) throw new Error('Nothing happened, so nothing came of it.');
    return outcomes.find((one) => one.status !== 200) ?? first;
  }

  function comesOrGoes(userId: string, id: string, inside: boolean): Promise<Outcome> {
    const where = place(userId, id);
    if (!membersOf(world, where).includes(userId)) throw new Error(`${userId} is not in ${where.id}.`);
    mark(where, inside);
    return both([
      () => changed(userId, where, inside, [world.bot.id]),
      () => installation(userId, where, inside ? 'add' : 'remove'),
    ]);
  }

  function joinsOrLeaves(userId: string, id: string, inside: boolean): Promise<Outcome> {
    const where = place(userId, id);
    const people = roster(where);
    if (inside) people.add(userId);
    else if (!people.delete(userId)) throw new Error(`${userId} is not in ${where.id}.`);
    return changed(userId, where, inside, [userId]);
  }

  return {
    installs: (userId, where = personalId(userId)) => comesOrGoes(userId, where, true),
    uninstalls: (userId, where = personalId(userId)) => comesOrGoes(userId, where, false),
    joins: (userId, where) => joinsOrLeaves(userId, where, true),
    leaves: (userId, where) => joinsOrLeaves(userId, where, false),
  };
}
