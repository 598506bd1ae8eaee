import type { Finding } from '../../adapters/chat/finding.ts';
import type { SlackCheck } from '../../adapters/slack/check.ts';
import { readSlackConfig } from '../../adapters/slack/config.ts';
import { personSchema } from '../../src/model/site.ts';
import { type PeerOptions, type SlackPeer, startSlackPeer } from '../peers/slack/peer.ts';

const yard: PeerOptions = {
  startAt: 1_773_036_000_000,
  users: [
    { id: 'U0ANA00001', name: 'ana', realName: 'Ana Prado' },
    { id: 'U0BEN00001', name: 'ben' },
    { id: 'U0GONE0001', name: 'gone', deleted: true },
    { id: 'U0APP00001', name: 'weather', isBot: true },
    { id: 'USLACKBOT', name: 'slackbot' },
  ],
  channels: [
    { id: 'C0CREW1234', name: 'dock-two', members: ['U0ANA00001'] },
    { id: 'C0ELSE1234', name: 'elsewhere', members: [], botIn: false },
    { id: 'C0DOOR1234', name: 'office', members: [], botIn: false, isPrivate: true },
    { id: 'C0PAST1234', name: 'last-year', members: [], archived: true },
  ],
};

export const person = (name: string, slack?: string) =>
  personSchema.parse({ id: name.toLowerCase(), name, roles: ['foreman'], ...(slack && { slack }) });

export async function withPeer(test: (slack: SlackPeer) => Promise<void>): Promise<void> {
  const slack = await startSlackPeer(yard);
  try {
    await test(slack);
  } finally {
    await slack.close();
  }
}

/** A site in order, with what the test changes. */
export function checkOf(
  slack: SlackPeer,
  changes: Partial<SlackCheck> = {},
  env: Record<string, string> = {},
): SlackCheck {
  const read = readSlackConfig({
    POTBELL_SLACK_BOT_TOKEN: slack.tokens.bot,
    POTBELL_SLACK_APP_TOKEN: slack.tokens.app,
    POTBELL_SLACK_API_URL: slack.apiUrl,
    ...env,
  });
  if (read.kind !== 'ok') throw new Error(JSON.stringify(read));
  return {
    config: read.config,
    site: { slack: { channel: 'C0CREW1234' } },
    people: [person('Ana', 'U0ANA00001'), person('Ben', 'U0BEN00001')],
    ...changes,
  };
}

export const wrong = (found: readonly Finding[]) =>
  found.filter(({ state }) => state === 'mend').map(({ text }) => text);
export const said = (found: readonly Finding[]) => found.map(({ state, text }) => `${state} ${text}`);

/** Slack tells the scopes of a token in a header of each answer, which the peer does not. */
export const telling =
  (held: readonly string[]): NonNullable<SlackCheck['fetch']> =>
  async (url, init) => {
    const { method, headers, body, signal } = init ?? {};
    const response = await fetch(url, {
      ...(method && { method }),
      ...(headers && { headers }),
      ...(body && { body }),
      ...(signal && { signal }),
    });
    const more = new Headers(response.headers);
    more.set('x-oauth-scopes', held.join(', '));
    return new Response(await response.text(), { status: response.status, headers: more });
  };
