/**
 * Posting activities to the bot, and posting them again. A message that is not answered within 15 s comes again with
 * the same id and a new timestamp (MicrosoftDocs/msteams-docs; how often is not published: once here). Dialogs
 * have 5 s, and then the client asks twice more (learn.microsoft.com/microsoftteams/platform/messaging-extensions/
 * how-to/action-commands/respond-to-task-module-submit, said there of message extensions). The time for a button
 * press, 15 s, is from memory.
 */
import { type Dict, dict, parsed, text } from '../slack/json.ts';
import type { World } from './state.ts';
import type { Minter } from './tokens.ts';
import type { Forgery, Outcome } from './types.ts';

type Patience = { seconds: number; again: number };

function patience(activity: Dict): Patience {
  const dialog = activity.type === 'invoke' && text(activity.name).startsWith('task/');
  return dialog ? { seconds: 5, again: 2 } : { seconds: 15, again: 1 };
}

export type Delivered = { activity: Dict; outcome: Outcome };

export type Delivery = {
  /** Where the bot listens; null when there is no bot. */
  httpTo(url: string | null): void;
  /** Gives the activity an id, unless it has one, and a time; and posts it. */
  deliver(activity: Dict): Promise<Outcome>;
  /** The next activity comes with a token that is wrong in this way. */
  forgeNext(forgery: Forgery): void;
  /** Every activity from now on comes this many times more, one after another: 0 to stop. */
  duplicate(times: number): void;
  /** The last request again, to the byte. */
  replayLast(): Promise<Outcome>;
  /** All that was posted so far, in the order in which it ended. */
  deliveries: readonly Delivered[];
  /** Resolves when nothing is on its way to the bot. */
  settled(): Promise<void>;
};

type Request = { activity: Dict; body: string; token: string | null };

export function startDelivery(
  world: World,
  mint: Minter,
  serviceUrl: () => string,
  signClock: () => number,
): Delivery {
  const { clock } = world;
  const deliveries: Delivered[] = [];
  const pending = new Set<Promise<unknown>>();
  let url: string | null = null;
  let forgery: Forgery | null = null;
  let copies = 0;
  let invokes = 0;
  let last: Request | null = null;

  function track<T>(work: Promise<T>): Promise<T> {
    pending.add(work);
    const gone = (): void => void pending.delete(work);
    work.then(gone, gone);
    return work;
  }

  async function post({ activity, body, token }: Request): Promise<Outcome> {
    const activityId = text(activity.id);
    if (url === null) return { status: 'no_bot', body: {}, activityId };
    const limit = new AbortController();
    const stop = clock.at(clock.now() + patience(activity).seconds * 1000, () => limit.abort());
    const headers = {
      'content-type': 'application/json; charset=utf-8',
      ...(token === null ? {} : { authorization: token }),
    };
    let outcome: Outcome;
    try {
      const response = await fetch(url, { method: 'POST', headers, body, signal: limit.signal });
      const words = await response.text();
      const answer = parsed(words);
      const said = answer === undefined && words !== '' ? { text: words } : dict(answer);
      outcome = { status: response.status, body: said, activityId };
    } catch (error) {
      const status = limit.signal.aborted ? 'timeout' : 'refused';
      outcome = { status, body: {}, activityId, problem: String(error) };
    } finally {
      stop();
    }
    deliveries.push({ activity, outcome });
    return outcome;
  }

  async function write(activity: Dict, wrong: Forgery | null): Promise<Request> {
    const time = new Date(clock.now()).toISOString();
    const dated = { ...activity, serviceUrl: serviceUrl(), timestamp: time, localTimestamp: time };
    const token = await mint(wrong, serviceUrl(), signClock());
    return { activity: dated, body: JSON.stringify(dated), token };
  }

  async function again(activity: Dict, left: number): Promise<void> {
    if (left === 0) return;
    const outcome = await post(await write(activity, null));
    if (outcome.status === 'timeout') await again(activity, left - 1);
  }

  return {
    deliveries,
    httpTo(to) {
      url = to;
    },
    async deliver(activity) {
      invokes += 1;
      const named = { id: `f:${invokes}`, ...activity };
      const wrong = forgery;
      forgery = null;
      last = await write(named, wrong);
      const outcome = await track(post(last));
      if (outcome.status === 'timeout') void track(again(named, patience(named).again));
      for (let index = 0; index < copies; index += 1) await track(post(await write(named, null)));
      return outcome;
    },
    forgeNext(wrong) {
      forgery = wrong;
    },
    duplicate(times) {
      copies = times;
    },
    replayLast() {
      if (last === null) throw new Error('Nothing has been sent to the bot yet.');
      return track(post(last));
    },
    async settled() {
      while (pending.size > 0) await Promise.allSettled([...pending]);
    },
  };
}
