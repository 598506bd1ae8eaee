/**
 * A strict Slack on the loopback, for tests: an app built with Bolt runs against it unchanged, over Socket Mode or
 * HTTP. It has its own clock, which stands still until `clock.advance`; so a press that the app never acks stays open
 * until the clock has gone on by 3 s. HTTP signatures alone use the machine's clock (see `signClock`). Things for one
 * app only: one bot, one workspace. `bolt.ts` shows how to put a Bolt app up against it; `until` waits without timers.
 */
import { type PeerClock, startClock } from './clock.ts';
import { type Delivery, startDelivery } from './deliver.ts';
import { startDoor } from './door.ts';
import { startFaults } from './faults.ts';
import { copy } from './json.ts';
import type { Context } from './methods/method.ts';
import { type Person, startPerson } from './person.ts';
import { type ModalPerson, startModalPerson } from './person-modal.ts';
import { startRates } from './rate.ts';
import { startSockets } from './socket.ts';
import { channelOf, dmId, startWorkspace } from './state.ts';
import { mintTrigger } from './triggers.ts';
import type {
  Call,
  Fault,
  FileState,
  MessageState,
  PeerOptions,
  ScheduledState,
  ViewState,
} from './types.ts';
import { until } from './until.ts';
import { stackOf } from './views.ts';
import { startWebApi } from './web-api.ts';

export { sign } from './http-out.ts';
export type * from './types.ts';

const EVENTS = [
  'message',
  'app_mention',
  'app_home_opened',
  'member_joined_channel',
  'member_left_channel',
] as const;

export type SlackPeer = Person &
  ModalPerson &
  Pick<Delivery, 'httpTo' | 'settled' | 'signNext'> & {
    readonly apiUrl: string;
    readonly tokens: { readonly app: string; readonly bot: string };
    readonly bot: { readonly userId: string; readonly botId: string; readonly teamId: string };
    readonly signingSecret: string;
    readonly clock: PeerClock;
    readonly calls: readonly Call[];
    callsOf(method: string): Call[];
    /** What stands in the conversation now, in order; deleted messages and what one person alone sees included. */
    messages(channelId: string): MessageState[];
    /** The same without deleted messages, as this person sees it. */
    seenBy(userId: string, channelId: string): MessageState[];
    /** The id of the person's direct conversation, open or not. */
    dm(userId: string): string;
    home(userId: string): ViewState | null;
    modals(userId: string): ViewState[];
    scheduled(): ScheduledState[];
    file(fileId: string): FileState | null;
    /** A trigger_id as a click gives it, for testing views.* alone. */
    trigger(userId: string): string;
    replayLast: Delivery['again'];
    duplicateEvents: Delivery['duplicate'];
    fault(method: string, fault: Fault, times?: number): void;
    faultsLeft(): number;
    noFaults(): void;
    down(shut: boolean): Promise<void>;
    recycleSockets(reason?: 'refresh_requested' | 'warning' | 'link_disabled'): void;
    /** Waits for a condition without a timer: looks again at every turn of the event loop. */
    until(check: () => boolean): Promise<void>;
    /** Resolves when the app has opened this many WebSockets since the start, and one is up. */
    connected(times?: number): Promise<void>;
    socketsOpened(): number;
    badToken(bad: boolean): void;
    archive(channelId: string): void;
    /** Brings the app into a channel, or takes it out. */
    botIn(channelId: string, inside: boolean): void;
    close(): Promise<void>;
  };

export async function startSlackPeer(options: PeerOptions): Promise<SlackPeer> {
  const clock = startClock(options.startAt, options.live);
  const space = startWorkspace(options, clock);
  const tokens = {
    app: options.appToken ?? 'xapp-1-loopback',
    bot: options.botToken ?? 'xoxb-loopback',
    bad: false,
  };
  const signingSecret = options.signingSecret ?? 'loopback-signing-secret';
  const faults = startFaults();
  const sockets = startSockets(clock, space.bot.appId);
  // Bolt compares the time of a signature with the machine's clock, so that clock signs unless told otherwise.
  const signClock = options.signClock ?? (() => Date.now());
  const subscribed: ReadonlySet<string> = new Set(options.events ?? EVENTS);
  const delivery = startDelivery(space, sockets, signingSecret, signClock, subscribed);
  const origin = (): string => `http://127.0.0.1:${door.port()}`;
  const context: Context = {
    space,
    rates: startRates(clock, options.burst ?? 3, options.tiers ?? true),
    event: (event) => void delivery.event(event),
    origin,
    socketUrl: () =>
      `ws://127.0.0.1:${door.port()}/link/?ticket=${sockets.ticket()}&app_id=${space.bot.appId}`,
  };
  const door = startDoor(startWebApi(context, faults, tokens), sockets);
  await door.open();
  /** A direct conversation that nobody has opened yet is empty. */
  const said = (channelId: string): MessageState[] => {
    const unopened =
      !space.channels.has(channelId) && [...space.users.keys()].some((id) => dmId(id) === channelId);
    return unopened ? [] : channelOf(space, channelId).messages;
  };

  return {
    ...startPerson(space, delivery, origin),
    ...startModalPerson(space, delivery),
    apiUrl: `${origin()}/api/`,
    tokens,
    bot: space.bot,
    signingSecret,
    clock,
    calls: space.calls,
    callsOf: (method) => space.calls.filter((one) => one.method === method),
    messages: (channelId) => copy(said(channelId)),
    seenBy: (userId, channelId) =>
      copy(said(channelId)).filter(
        (one) => !one.deleted && (one.ephemeralTo === null || one.ephemeralTo === userId),
      ),
    dm: dmId,
    home: (userId) => copy(space.homes.get(userId) ?? null),
    modals: (userId) => copy(stackOf(space, userId)),
    scheduled: () => copy([...space.scheduled.values()]).sort((a, b) => a.postAt - b.postAt),
    file: (fileId) => copy(space.files.get(fileId) ?? null),
    trigger: (userId) => mintTrigger(space, userId, null),
    httpTo: delivery.httpTo,
    settled: delivery.settled,
    signNext: delivery.signNext,
    replayLast: delivery.again,
    duplicateEvents: delivery.duplicate,
    fault: faults.add,
    faultsLeft: faults.left,
    noFaults: faults.clear,
    down: (shut) => (shut ? door.shut() : door.open()),
    recycleSockets: (reason = 'refresh_requested') => sockets.recycle(reason),
    connected: (times = 1) => until(() => sockets.opened() >= times && sockets.count() > 0),
    until,
    socketsOpened: sockets.opened,
    badToken: (bad) => {
      tokens.bad = bad;
    },
    archive: (channelId) => {
      channelOf(space, channelId).archived = true;
    },
    botIn: (channelId, inside) => {
      channelOf(space, channelId).botIn = inside;
    },
    async close() {
      clock.stop();
      await sockets.farewell();
      await door.shut();
    },
  };
}
