/** A small yard for the peer's own tests. All names are made up. */
import type { App } from '@slack/bolt';
import { overHttp, overSocket, type Running } from './bolt.ts';
import { type Dict, dict } from './json.ts';
import { type PeerOptions, type SlackPeer, startSlackPeer } from './peer.ts';

/** 2026-03-09 06:00 UTC. */
export const START = 1_773_036_000_000;

export const YARD: PeerOptions = {
  startAt: START,
  users: [
    { id: 'U01', name: 'ana', tz: 'Europe/Madrid' },
    { id: 'U02', name: 'ben', guest: true },
    { id: 'U03', name: 'gone', deleted: true },
  ],
  channels: [
    { id: 'C01', name: 'dock-two', members: ['U01', 'U02'] },
    { id: 'C02', name: 'elsewhere', members: ['U01'], botIn: false },
    { id: 'G01', name: 'office', members: ['U01'], botIn: false, isPrivate: true },
  ],
  usergroups: [{ id: 'S01', handle: 'night-crew', users: ['U01', 'U02'] }],
};

export const WAYS = [
  ['Socket Mode', overSocket],
  ['HTTP', overHttp],
] as const;

export type Way = (slack: SlackPeer, ready: (app: App) => void) => Promise<Running>;

/** Starts a peer and an app, runs the test, and stops both whatever happens. */
export async function withApp(
  way: Way,
  ready: (app: App) => void,
  test: (slack: SlackPeer, running: Running) => Promise<void>,
  options: Partial<PeerOptions> = {},
): Promise<void> {
  const slack = await startSlackPeer({ ...YARD, ...options });
  const running = await way(slack, ready);
  try {
    await test(slack, running);
  } finally {
    await running.stop();
    await slack.close();
  }
}

export async function withPeer(
  test: (slack: SlackPeer) => Promise<void>,
  options: Partial<PeerOptions> = {},
) {
  const slack = await startSlackPeer({ ...YARD, ...options });
  try {
    await test(slack);
  } finally {
    await slack.close();
  }
}

export const words = (text: string) => ({ type: 'plain_text' as const, text });

export const button = (label: string, action: string, value = 'v') => ({
  type: 'button' as const,
  text: words(label),
  action_id: action,
  value,
});

export const row = (id: string, ...elements: ReturnType<typeof button>[]) => ({
  type: 'actions' as const,
  block_id: id,
  elements,
});

export const field = (block: string, label: string) => ({
  type: 'input' as const,
  block_id: block,
  label: words(label),
  element: { type: 'plain_text_input' as const, action_id: 'typed' },
});

export const modal = (title: string, ...blocks: ReturnType<typeof field>[]) => ({
  type: 'modal' as const,
  callback_id: 'batch',
  title: words(title),
  submit: words('Send'),
  notify_on_close: true,
  blocks,
});

export type Answered = { status: number; retryAfter: string | null; body: Dict };

/** One plain call, form-encoded with JSON strings inside, as the platform's own client sends it. */
export async function call(
  slack: SlackPeer,
  method: string,
  args: Dict = {},
  token?: string,
): Promise<Answered> {
  const form = new URLSearchParams();
  for (const [name, value] of Object.entries(args)) {
    form.set(name, typeof value === 'string' ? value : JSON.stringify(value));
  }
  const response = await fetch(`${slack.apiUrl}${method}`, {
    method: 'POST',
    headers: token === '' ? {} : { authorization: `Bearer ${token ?? slack.tokens.bot}` },
    body: form,
  });
  const body = dict(await response.json());
  return { status: response.status, retryAfter: response.headers.get('retry-after'), body };
}

/** The name of the refusal, or 'ok'. */
export async function errorOf(
  slack: SlackPeer,
  method: string,
  args: Dict = {},
  token?: string,
): Promise<string> {
  const { body } = await call(slack, method, args, token);
  return body.ok === true ? 'ok' : String(body.error);
}
