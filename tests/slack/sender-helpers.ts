import { createSlackClient } from '../../adapters/slack/client.ts';
import { createSender, type Sender } from '../../adapters/slack/sender.ts';
import { createPace, type Pace } from '../../src/chat/pace.ts';
import { type PeerOptions, type SlackPeer, startSlackPeer } from '../peers/slack/peer.ts';
import { YARD } from '../peers/slack/world.ts';
import { message, render } from './render-helpers.ts';

/** A content whose block ids begin with the marker, as the renderer makes it. */
export function content(marker: string, summary = `Rig 1: flush, ${marker}`) {
  const [first] = render(
    message([{ kind: 'paragraph', line: ['Relieve the pressure first.'] }], { summary }),
    {
      revision: marker,
    },
  );
  if (first === undefined) throw new Error('The renderer gave no message.');
  return { text: first.text, blocks: first.blocks };
}

/** All that a post needs. */
export const a = (marker: string, channel = 'C01') => ({ channel, marker, ...content(marker) });

export interface Yard {
  readonly slack: SlackPeer;
  readonly sender: Sender;
  readonly pace: Pace;
  /** All lines that were logged, facts and words. */
  readonly logged: string[];
  /** A sender of a process that has just begun: it remembers nothing. */
  restarted(more?: {
    readonly now?: () => number;
    readonly timeoutMs?: number;
    readonly token?: string;
  }): Sender;
  /** The summaries that stand in the channel, oldest first. */
  standing(channel?: string): readonly string[];
}

/** A peer without tolerance for bursts and a sender on the peer's own clock. */
export async function withSender(test: (yard: Yard) => Promise<void>, options: Partial<PeerOptions> = {}) {
  const slack = await startSlackPeer({
    ...YARD,
    channels: [...(YARD.channels ?? []), { id: 'C03', name: 'dock-three', members: ['U01'] }],
    burst: 1,
    ...options,
  });
  const logged: string[] = [];
  const keep = (facts: object, words: string): void => {
    logged.push(`${JSON.stringify(facts)} ${words}`);
  };
  const log = { info: keep, warn: keep, error: keep };
  const pace = createPace();
  const restarted: Yard['restarted'] = ({ now = () => slack.clock.now(), timeoutMs, token } = {}) =>
    createSender({
      client: createSlackClient({
        token: token ?? slack.tokens.bot,
        log,
        apiUrl: slack.apiUrl,
        ...(timeoutMs === undefined ? {} : { timeoutMs }),
      }),
      clock: { now },
      pace,
      log,
    });
  try {
    await test({
      slack,
      sender: restarted(),
      pace,
      logged,
      restarted,
      standing: (channel = 'C01') =>
        slack
          .messages(channel)
          .filter(({ deleted }) => !deleted)
          .map(({ text }) => text.split('\n')[0] ?? ''),
    });
  } finally {
    await slack.close();
  }
}
