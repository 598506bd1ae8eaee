/** The connector service: which operation an address means, the limits, and the doing of it. */
import { dict } from '../slack/json.ts';
import { remove, reply, send, update } from './activities.ts';
import { create, createTarget } from './conversations.ts';
import { activityMembers, member, members, pagedMembers } from './members.ts';
import type { Limited, Rates } from './rate.ts';
import { Refused } from './refusal.ts';
import { splitId, type World } from './state.ts';
import type { Operation } from './types.ts';

export type Asked = {
  operation: Operation;
  method: string;
  conversation: string;
  /** The activity or the member in the address. */
  target: string;
  query: URLSearchParams;
  body: unknown;
};

const ROUTES: readonly (readonly [method: string, path: RegExp, operation: Operation])[] = [
  ['POST', /^\/v3\/conversations\/?$/, 'createConversation'],
  ['POST', /^\/v3\/conversations\/([^/]+)\/activities$/, 'sendToConversation'],
  ['POST', /^\/v3\/conversations\/([^/]+)\/activities\/([^/]+)$/, 'replyToActivity'],
  ['PUT', /^\/v3\/conversations\/([^/]+)\/activities\/([^/]+)$/, 'updateActivity'],
  ['DELETE', /^\/v3\/conversations\/([^/]+)\/activities\/([^/]+)$/, 'deleteActivity'],
  ['GET', /^\/v3\/conversations\/([^/]+)\/activities\/([^/]+)\/members$/, 'getActivityMembers'],
  ['GET', /^\/v3\/conversations\/([^/]+)\/members$/, 'getMembers'],
  ['GET', /^\/v3\/conversations\/([^/]+)\/members\/([^/]+)$/, 'getMember'],
  ['GET', /^\/v3\/conversations\/([^/]+)\/pagedmembers$/, 'getPagedMembers'],
];

/** `path` comes after the service URL, with its first slash. */
export function askedBy(method: string, path: string, query: URLSearchParams, body: unknown): Asked {
  for (const [verb, pattern, operation] of ROUTES) {
    const found = verb === method ? pattern.exec(path) : null;
    if (found === null) continue;
    const [conversation = '', target = ''] = found.slice(1).map((one) => decodeURIComponent(one ?? ''));
    return { operation, method, conversation, target, query, body };
  }
  return { operation: 'unknown', method, conversation: '', target: path, query, body };
}

function limited(asked: Asked): [Limited, string] | null {
  const { base } = splitId(asked.conversation);
  switch (asked.operation) {
    case 'createConversation':
      return ['create', createTarget(asked.body)];
    case 'sendToConversation':
    case 'replyToActivity':
    case 'updateActivity':
    case 'deleteActivity':
      return ['send', base];
    case 'getMembers':
    case 'getMember':
    case 'getPagedMembers':
    case 'getActivityMembers':
      return ['members', base];
    case 'uploadFile':
    case 'openid':
    case 'keys':
    case 'token':
    case 'unknown':
      return null;
  }
}

/** Throws Refused when the connector would not do it. */
export function perform(world: World, rates: Rates | null, asked: Asked): { status: number; body: unknown } {
  const key = limited(asked);
  const wait = key === null || rates === null ? null : rates.take(...key);
  if (wait !== null) throw new Refused('TooManyRequests', 'API calls quota exceeded.', wait);
  const { conversation, target, body } = asked;
  switch (asked.operation) {
    case 'createConversation':
      return create(world, body);
    case 'sendToConversation':
      return send(world, conversation, body);
    case 'replyToActivity':
      return reply(world, conversation, target, body);
    case 'updateActivity':
      return update(world, conversation, target, body);
    case 'deleteActivity':
      return remove(world, conversation, target);
    case 'getMembers':
      return members(world, conversation);
    case 'getMember':
      return member(world, conversation, target);
    case 'getPagedMembers':
      return pagedMembers(world, conversation, asked.query);
    case 'getActivityMembers':
      return activityMembers(world, conversation, target);
    case 'uploadFile':
    case 'openid':
    case 'keys':
    case 'token':
    case 'unknown':
      throw new Refused(
        'NotFound',
        `The connector has no ${asked.method} ${asked.target || dict(body).type}.`,
      );
  }
}
