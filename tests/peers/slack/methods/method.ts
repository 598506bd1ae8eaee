/** What every Web API method is given, and how it refuses. */
import { type Dict, isDict, list, parsed, text } from '../json.ts';
import type { Rates } from '../rate.ts';
import { findMessage, openDm, type Workspace } from '../state.ts';
import type { ChannelState, MessageState } from '../types.ts';
import { problemsIn, refusal, type Surface } from '../validate.ts';

export type Context = {
  space: Workspace;
  rates: Rates;
  /** Tells the app of something, as the Events API does. */
  event: (event: Dict) => void;
  /** http://127.0.0.1:PORT */
  origin: () => string;
  socketUrl: () => string;
};

export type Method = (context: Context, args: Dict) => Dict;

/** A refusal `{ok:false,error}`; with `retryAfter` (seconds) it goes out as HTTP 429. */
export class Refused extends Error {
  override name = 'Refused';
  readonly reply: Dict;
  readonly retryAfter: number | null;
  constructor(error: string, more: Dict = {}, retryAfter: number | null = null) {
    super(error);
    this.reply = { ...more, ok: false, error };
    this.retryAfter = retryAfter;
  }
}

export function need(args: Dict, name: string): string {
  const value = text(args[name]);
  if (value === '') {
    throw new Refused('invalid_arguments', {
      response_metadata: { messages: [`[ERROR] missing required field: ${name}`] },
    });
  }
  return value;
}

/** A JSON argument; undefined when it was not given at all. */
export function json(args: Dict, name: string, error: string): unknown {
  const given = args[name];
  if (given === undefined || given === '') return undefined;
  const value = typeof given === 'string' ? parsed(given) : given;
  if (value === undefined) throw new Refused(error);
  return value;
}

export function checked(kind: Surface, payload: unknown): void {
  const problems = problemsIn(kind, payload);
  if (problems.length === 0) return;
  const { error, ...more } = refusal(kind, problems);
  throw new Refused(error, more);
}

export function blocksIn(args: Dict): Dict[] | undefined {
  const blocks = json(args, 'blocks', 'invalid_blocks_format');
  if (blocks === undefined) return undefined;
  if (!Array.isArray(blocks)) throw new Refused('invalid_blocks_format');
  checked('message', blocks);
  return blocks.filter(isDict);
}

export function attachmentsIn(args: Dict): Dict[] | undefined {
  const given = json(args, 'attachments', 'invalid_attachments');
  if (given === undefined) return undefined;
  const attachments = list(given).filter(isDict);
  // docs.slack.dev/reference/methods/chat.postMessage, too_many_attachments
  if (attachments.length > 100) throw new Refused('too_many_attachments');
  return attachments;
}

/** The channel by id, or by name, or a person's direct conversation by the person's id. */
export function conversation(context: Context, given: string, personToo: boolean): ChannelState {
  const { space } = context;
  const name = given.replace(/^#/, '');
  const byId =
    space.channels.get(given) ??
    [...space.channels.values()].find((one) => one.name !== '' && one.name === name);
  if (byId !== undefined) return byId;
  const person = personToo ? space.users.get(given) : undefined;
  if (person === undefined || person.isBot === true || person.deleted === true)
    throw new Refused('channel_not_found');
  return openDm(space, given);
}

export function mayPost(channel: ChannelState): void {
  if (channel.archived) throw new Refused('is_archived');
  // A private channel that the app is not in does not exist for it.
  if (!channel.botIn) throw new Refused(channel.kind === 'private' ? 'channel_not_found' : 'not_in_channel');
}

export function messageIn(channel: ChannelState, ts: string): MessageState {
  const message = findMessage(channel, ts);
  if (message === undefined || message.ephemeralTo !== null) throw new Refused('message_not_found');
  return message;
}

/** One page of a list by `limit` and `cursor`. */
export function page<T>(all: readonly T[], args: Dict, usual: number): { items: T[]; next: string } {
  const limit = Math.max(1, Math.min(1000, Number(args.limit ?? usual) || usual));
  const cursor = text(args.cursor);
  const from = cursor === '' ? 0 : Number(Buffer.from(cursor, 'base64url').toString());
  if (!Number.isInteger(from) || from < 0) throw new Refused('invalid_cursor');
  const items = all.slice(from, from + limit);
  const more = from + limit < all.length;
  return { items, next: more ? Buffer.from(String(from + limit)).toString('base64url') : '' };
}

export function isTrue(value: unknown): boolean {
  return value === true || value === 'true' || value === '1' || value === 1;
}
