/** GET members: who is in a conversation, in the connector's shape. */
import type { Dict } from '../slack/json.ts';
import { type Reply, reachable } from './activities.ts';
import { Refused } from './refusal.ts';
import { membersOf, messageOf, personOf, type World } from './state.ts';

const PAGE = { least: 50, most: 500, unless: 200 };

function shape(world: World, userId: string): Dict {
  const { id, name, aadId } = personOf(world, userId);
  const mail = `${aadId}@people.invalid`;
  const shared = {
    id,
    name,
    email: mail,
    userPrincipalName: mail,
    userRole: 'user',
    tenantId: world.bot.tenantId,
  };
  return { ...shared, aadObjectId: aadId, objectId: aadId };
}

function allIn(world: World, conversationId: string): Dict[] {
  return membersOf(world, reachable(world, conversationId)).map((one) => shape(world, one));
}

/** The body is a list, as the connector gives it: not an object. */
export function members(world: World, conversationId: string): { status: number; body: Dict[] } {
  return { status: 200, body: allIn(world, conversationId) };
}

export function activityMembers(world: World, conversationId: string, activityId: string) {
  if (messageOf(reachable(world, conversationId), activityId) === undefined)
    throw new Refused('ActivityNotFoundInConversation', `No activity ${activityId} in the conversation.`);
  return members(world, conversationId);
}

export function member(world: World, conversationId: string, userId: string): Reply {
  const found = allIn(world, conversationId).find((one) => one.id === userId || one.aadObjectId === userId);
  if (found === undefined)
    throw new Refused('MemberNotFoundInConversation', `${userId} is not in the conversation.`);
  return { status: 200, body: found };
}

/** Page sizes: learn.microsoft.com/microsoftteams/platform/bots/how-to/get-teams-context, 50 to 500, else 200. */
export function pagedMembers(world: World, conversationId: string, query: URLSearchParams): Reply {
  const all = allIn(world, conversationId);
  const asked = Number(query.get('pageSize') ?? PAGE.unless);
  const size = asked >= PAGE.least && asked <= PAGE.most ? asked : PAGE.unless;
  const from = Number(query.get('continuationToken') ?? 0);
  if (!Number.isInteger(from) || from < 0)
    throw new Refused('BadArgument', 'The continuationToken is not one of ours.');
  const more = from + size < all.length ? { continuationToken: String(from + size) } : {};
  return { status: 200, body: { members: all.slice(from, from + size), ...more } };
}
