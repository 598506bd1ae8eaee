/**
 * POST /v3/conversations: a person's own chat, or a new thread in a channel. A bot cannot make a group chat or a
 * channel, and reaches people only where the app is installed: learn.microsoft.com/microsoftteams/platform/bots/
 * how-to/conversations/send-proactive-messages. The words of the refusals: from memory, no source.
 */
import { dict, dicts, text } from '../slack/json.ts';
import { bodyOf, post, type Reply, reachable } from './activities.ts';
import { Refused } from './refusal.ts';
import { personalId, splitId, type World } from './state.ts';

/** What the limits count by: the channel or the person. */
export function createTarget(body: unknown): string {
  const given = dict(body);
  const channel = text(dict(dict(given.channelData).channel).id);
  return channel === '' ? text(dicts(given.members)[0]?.id) : splitId(channel).base;
}

export function create(world: World, body: unknown): Reply {
  const given = bodyOf(body);
  const tenant = text(given.tenantId) || text(dict(dict(given.channelData).tenant).id);
  if (tenant === '') throw new Refused('BadArgument', 'tenantId is missing.');
  if (tenant !== world.bot.tenantId) throw new Refused('BadArgument', `There is no tenant ${tenant}.`);
  const channel = text(dict(dict(given.channelData).channel).id);
  return channel === '' ? personal(world, given) : thread(world, channel, given);
}

function personal(world: World, given: ReturnType<typeof dict>): Reply {
  const members = dicts(given.members);
  const id = text(members[0]?.id);
  if (members.length !== 1 || given.isGroup === true)
    throw new Refused(
      'BadSyntax',
      'Incorrect conversation creation parameters: exactly one member, no group.',
    );
  if (!world.people.has(id))
    throw new Refused('BadArgument', `Invalid user identity in provided tenant: ${id}. Ids start with 29:.`);
  const conversation = world.conversations.get(personalId(id));
  if (conversation === undefined) throw new Error(`The chat of ${id} went missing.`);
  const inTeam = [...world.teams.values()].some((team) => team.installed && team.members.has(id));
  if (!world.installed.has(conversation.id)) {
    if (!inTeam) throw new Refused('BotNotInConversationRoster', 'The app is not installed for this person.');
    world.installed.add(conversation.id);
  }
  reachable(world, conversation.id);
  const made = given.activity === undefined ? null : post(world, conversation, bodyOf(given.activity), null);
  return { status: 201, body: { id: conversation.id, ...(made === null ? {} : { activityId: made.id }) } };
}

function thread(world: World, channel: string, given: ReturnType<typeof dict>): Reply {
  const conversation = reachable(world, channel);
  if (conversation.kind !== 'channel') throw new Refused('BadSyntax', `${channel} is not a channel.`);
  if (given.activity === undefined) throw new Refused('BadSyntax', 'A thread starts with an activity.');
  const made = post(world, conversation, bodyOf(given.activity), null);
  const root = made ?? conversation.messages.at(-1);
  const id = `${conversation.id};messageid=${root?.thread ?? ''}`;
  return { status: 201, body: { id, ...(made === null ? {} : { activityId: made.id }) } };
}
