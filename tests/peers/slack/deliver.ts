/** Brings things to the app: over the WebSocket when one is up, else to the app's URL. Retries events only. */
import { randomUUID } from 'node:crypto';
import { type HttpOutcome, post, type Signing, signedAs, written } from './http-out.ts';
import type { Dict } from './json.ts';
import { eventBody } from './payloads.ts';
import type { Sockets } from './socket.ts';
import type { Workspace } from './state.ts';
import type { Outcome } from './types.ts';

export type Kind = 'events_api' | 'interactive' | 'slash_commands';
type Retry = { num: number; reason: string };

export type Delivery = {
  /** A click, a submission or a command: one try, as the platform does. */
  interact(kind: Exclude<Kind, 'events_api'>, payload: Dict): Promise<Outcome>;
  /** An event: not sent when the app did not subscribe or is not in the channel; tried again when not acked. */
  event(event: Dict): Promise<Outcome>;
  /** The very same bytes once more. */
  again(): Promise<Outcome>;
  /** The next `n` events go out twice, with the same event_id. */
  duplicate(n: number): void;
  signNext(signing: Signing): void;
  /** Where the app listens over HTTP; used while no WebSocket is up. */
  httpTo(url: string | null): void;
  /** Resolves when nothing sent is still without an answer. */
  settled(): Promise<void>;
};

/** "Nearly immediately, after 1 minute, after 5 minutes" (docs.slack.dev/apis/events-api). */
const RETRY_AFTER = [0, 60_000, 300_000] as const;

const NONE: HttpOutcome = { acked: false, status: 'no_connection', body: {}, noRetry: false };

export function startDelivery(
  space: Workspace,
  sockets: Sockets,
  secret: string,
  signClock: () => number,
  subscribed: ReadonlySet<string>,
): Delivery {
  const pending = new Set<Promise<unknown>>();
  let httpUrl: string | null = null;
  let signing: Signing = 'good';
  let twice = 0;
  let last: (() => Promise<HttpOutcome>) | null = null;

  function track<T>(work: Promise<T>): Promise<T> {
    const kept = work.finally(() => pending.delete(kept));
    pending.add(kept);
    return kept;
  }

  function trip(kind: Kind, payload: Dict, retry: Retry | null): () => Promise<HttpOutcome> {
    if (sockets.count() > 0) {
      const more = retry === null ? {} : { retry_attempt: retry.num, retry_reason: retry.reason };
      const envelope = {
        envelope_id: randomUUID(),
        type: kind,
        payload,
        accepts_response_payload: kind !== 'events_api',
        ...(kind === 'events_api' ? { retry_attempt: 0, retry_reason: '' } : {}),
        ...more,
      };
      return async () => ({ ...(await sockets.send(envelope)), noRetry: false });
    }
    const url = httpUrl;
    if (url === null) return async () => NONE;
    const { body, headers } = written(kind, payload);
    const retried: { [name: string]: string } =
      retry === null ? {} : { 'x-slack-retry-num': String(retry.num), 'x-slack-retry-reason': retry.reason };
    const signed = {
      body,
      headers: { ...headers, ...retried, ...signedAs(signing, secret, body, signClock()) },
    };
    signing = 'good';
    return () => post(space.clock, url, signed);
  }

  function send(kind: Kind, payload: Dict, retry: Retry | null): Promise<HttpOutcome> {
    last = trip(kind, payload, retry);
    return track(last());
  }

  function reasonFor({ status }: Outcome): string {
    if (status === 'timeout') return 'http_timeout';
    return typeof status === 'number' ? 'http_error' : 'connection_failed';
  }

  function retryLater(payload: Dict, before: HttpOutcome, num: number): void {
    const wait = RETRY_AFTER[num - 1];
    if (before.acked || before.noRetry || wait === undefined) return;
    const go = (): void => {
      const next = send('events_api', payload, { num, reason: reasonFor(before) });
      void track(next.then((outcome) => retryLater(payload, outcome, num + 1)));
    };
    if (wait === 0) go();
    else space.clock.at(space.clock.now() + wait, go);
  }

  function wanted(event: Dict): boolean {
    if (!subscribed.has(String(event.type))) return false;
    const channel = typeof event.channel === 'string' ? space.channels.get(event.channel) : undefined;
    return channel === undefined || channel.botIn;
  }

  return {
    interact: (kind, payload) => send(kind, structuredClone(payload), null),
    async event(event) {
      if (!wanted(event)) return { acked: false, status: 'not_subscribed', body: {} };
      // Before an app has ever been there, nobody has subscribed to anything.
      if (httpUrl === null && sockets.opened() === 0) return NONE;
      const payload = eventBody(space, structuredClone(event));
      const copies = twice > 0 ? 2 : 1;
      twice = Math.max(0, twice - 1);
      const outcomes = Array.from({ length: copies }, () => send('events_api', payload, null));
      const all = await Promise.all(outcomes);
      const worst = all.find((one) => !one.acked) ?? all[0] ?? NONE;
      retryLater(payload, worst, 1);
      return worst;
    },
    again() {
      if (last === null)
        throw new Error('Nothing has been sent to the app yet, so there is nothing to send again.');
      return track(last());
    },
    duplicate: (n) => {
      twice = n;
    },
    signNext: (how) => {
      signing = how;
    },
    httpTo: (url) => {
      httpUrl = url;
    },
    async settled() {
      while (pending.size > 0) await Promise.allSettled([...pending]);
    },
  };
}
