import {
  LogLevel,
  type WebAPICallResult,
  WebAPIPlatformError,
  WebAPIRateLimitedError,
  WebClient,
} from '@slack/web-api';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import {
  type BackstopSender,
  type Backstops,
  createBackstops,
  type Result,
} from '../../adapters/slack/backstops.ts';
import { backstopDay } from '../../src/chat/backstop.ts';
import { refIn } from '../../src/chat/backstop-ref.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { SurfaceMemory } from '../../src/ports.ts';
import { textsIn } from '../chat/site.ts';
import { mixed, type Play } from '../flow/harness.ts';
import { aDay, aJob } from '../flow/pack.ts';
import { type PeerOptions, type SlackPeer, startSlackPeer } from '../peers/slack/peer.ts';

export const CHANNEL = 'C01';
export const MINUTE = 60_000;

async function answered<A, T>(call: Promise<A>, value: (answer: A) => T): Promise<Result<T>> {
  try {
    return { kind: 'ok', value: value(await call) };
  } catch (error) {
    if (error instanceof WebAPIRateLimitedError) return { kind: 'later', afterMs: error.retryAfter * 1000 };
    if (error instanceof WebAPIPlatformError)
      return { kind: 'gone', why: error.message, code: error.data.error };
    return { kind: 'unclear', why: error instanceof Error ? error.message : String(error) };
  }
}

/** The real client of the platform, with no retries of its own. */
export function webSender(slack: SlackPeer): BackstopSender {
  const client = new WebClient(slack.tokens.bot, {
    slackApiUrl: slack.apiUrl,
    retryConfig: { retries: 0 },
    rejectRateLimitedCalls: true,
    timeout: 10_000,
    logLevel: LogLevel.ERROR,
  });
  return {
    schedule: ({ channel, postAt, text }) =>
      answered(client.chat.scheduleMessage({ channel, post_at: postAt, text }), (answer) => ({
        id: answer.scheduled_message_id ?? '',
      })),
    unschedule: ({ channel, id }) =>
      answered<WebAPICallResult, null>(
        client.chat.deleteScheduledMessage({ channel, scheduled_message_id: id }),
        () => null,
      ),
    list: (channel) =>
      answered(client.chat.scheduledMessages.list({ channel, limit: 100 }), ({ scheduled_messages }) =>
        (scheduled_messages ?? []).map(({ id = '', post_at = 0, text = '' }) => ({
          id: String(id),
          postAt: post_at,
          text,
        })),
      ),
    update: ({ channel, ts, text }) =>
      answered<WebAPICallResult, null>(client.chat.update({ channel, ts, text, blocks: [] }), () => null),
  };
}

/** The platform with its clock, what people heard of trouble, and Potbell on top, which can be started anew. */
export class World {
  readonly slack: SlackPeer;
  readonly memory: SurfaceMemory;
  readonly troubles: string[] = [];
  readonly logged: string[] = [];
  backstops: Backstops;

  constructor(slack: SlackPeer) {
    this.slack = slack;
    this.memory = memorySurfaceMemory(slack.clock);
    this.backstops = this.start();
  }

  /** A fresh process on the same memory. */
  start(change: (sender: BackstopSender) => BackstopSender = (sender) => sender): Backstops {
    const say = (facts: object, message: string) =>
      void this.logged.push(`${message} ${JSON.stringify(facts)}`);
    this.backstops = createBackstops({
      sender: change(webSender(this.slack)),
      memory: this.memory,
      clock: this.slack.clock,
      log: { info: say, warn: say, error: say },
      channel: CHANNEL,
      texts: () => textsIn('en'),
      onTrouble: (text) => void this.troubles.push(text),
    });
    return this.backstops;
  }

  day(shift: Shift) {
    return backstopDay(shift, this.slack.clock.now(), textsIn('en'));
  }

  /** What the host does after a commit: the shift's clock is the platform's. */
  async sync(play: Play): Promise<void> {
    await this.goTo(play.now);
    await this.backstops.sync(this.day(play.state));
  }

  /** Moves the platform's clock; what it posts is not told to anybody. */
  async goTo(at: number): Promise<void> {
    if (at > this.slack.clock.now()) this.slack.clock.advance(at - this.slack.clock.now());
  }

  /** What the platform's message events tell: each notice that stands in the channel. */
  async hear(): Promise<void> {
    for (const { text, ts } of this.posted()) {
      const ref = refIn(text);
      if (ref !== null) await this.backstops.fired(ref, ts);
    }
  }

  posted() {
    return this.slack.messages(CHANNEL);
  }

  async stateOf(ref: string): Promise<string> {
    const found = (await this.backstops.states()).find((one) => one.ref === ref);
    return found ? found.state : 'not there';
  }
}

export async function withWorld(
  startAt: number,
  test: (world: World) => Promise<void>,
  options: Partial<PeerOptions> = {},
): Promise<void> {
  const slack = await startSlackPeer({
    startAt,
    users: [{ id: 'U01', name: 'pia' }],
    channels: [{ id: CHANNEL, name: 'gate-crew', members: ['U01'] }],
    ...options,
  });
  try {
    await test(new World(slack));
  } finally {
    await slack.close();
  }
}

/** 08:00: both rigs hold fresh paint. Rig 1 is dead at 10:00, rig 2 at 11:00. */
export function twoRigs(): Play {
  const finish = aJob({ area: 'Rail', coating: 'finish', coat: 'finish', dftUm: 60, rig: 'rig-2' });
  const play = mixed(aDay({ jobs: [aJob(), { ...finish, sprayers: ['lou'], mixers: ['lou'] }] }).entry);
  play.checkRig('rig-2');
  play.do({ type: 'mix-batch', rig: 'rig-2', coating: 'finish', litres: 7, paintC: 20, pot: 'fresh' }, 'lou');
  return play;
}
