import type { Composed } from '../../adapters/cli/compose.ts';
import type { LoadedSite } from '../../adapters/cli/site.ts';
import type { Store, SurfaceMemory } from '../../src/ports.ts';

export const DATE = '2026-06-08';

export interface Button {
  readonly label: string;
  /** The action behind it, as text. */
  readonly value: string;
}

/** Something that stands in a chat, as somebody there sees it. */
export interface Stands {
  readonly place: 'channel' | 'own' | 'today' | 'sheet';
  readonly id: string;
  /** All that is read in it. */
  readonly text: string;
  /** What a notification of it says. */
  readonly summary: string;
  /** The message in whose thread it stands; null outside threads. */
  readonly root: string | null;
  readonly buttons: readonly Button[];
  readonly by: 'potbell' | 'somebody';
  /** Which part of which message of Potbell's it is; the head is the part that opens it. */
  readonly part: { readonly of: string; readonly at: string; readonly head: boolean };
  /** Everybody who must hear it is called: the channel as a whole, or people by name. */
  readonly calls: boolean;
}

export interface Sheet {
  readonly text: string;
  readonly buttons: readonly Button[];
  /** What stands in each field, '' for nothing; empty when there is nothing to send. */
  readonly fields: Readonly<Record<string, string>>;
}

export type Wanted = string | ((button: Button) => boolean);
export type FaultCall = 'post' | 'update' | 'open';
export type FaultKind =
  | 'busy'
  | 'out of order'
  | 'dropped before'
  | 'dropped after'
  | 'hangs'
  | 'hangs after';

/**
 * 429 and 503 as of docs.slack.dev/apis/web-api/rate-limits and learn.microsoft.com/microsoftteams/platform/bots/how-to/
 * rate-limit; the others as networks have them.
 */
export const networkFaults = {
  busy: { kind: '429', retryAfter: 7 },
  'out of order': { kind: 'status', status: 503 },
  'dropped before': { kind: 'drop' },
  'dropped after': { kind: 'accept-then-drop' },
  hangs: { kind: 'hang' },
  'hangs after': { kind: 'hang', accepted: true },
} as const satisfies Readonly<Record<FaultKind, object>>;

/** A crew in a chat, whatever the platform, and Potbell on the other side of it. Throws for what a person could not do. */
export interface Hands {
  readonly surface: 'slack' | 'teams';
  /** The platform as people call it. */
  readonly title: string;
  readonly potbell: Omit<Composed, 'board'>;
  readonly site: LoadedSite;
  /** What Potbell logged as an error. */
  readonly faults: readonly string[];
  /** Somebody in the channel who is not in the site pack; `id` is what they tell the foreman. */
  readonly stranger: { readonly person: string; readonly id: string };
  /**
   * What was said without an answer coming back can be looked for there. Where it cannot, it is said again: better twice
   * than never.
   */
  readonly looksBack: boolean;

  /** The clock alone goes on: nothing rings and nothing is delivered by this. */
  pass(ms: number): void;
  /** The clock goes on to this time; what comes due on the way rings and is delivered. */
  passTo(hhmm: string): Promise<void>;
  /** All that is queued, letting as much time go by as the platform's limits ask for. */
  deliver(): Promise<void>;
  /** The platform's clock. */
  now(): number;
  /** What Potbell tidies up by itself is tidied up, as much time as that takes. Missing where its timers stand still. */
  rest?(): Promise<void>;
  until(check: () => boolean): Promise<void>;

  channel(): readonly Stands[];
  /** A person's conversation with Potbell. */
  own(person: string): readonly Stands[];
  /** Everything that this person was shown and nobody else. */
  alone(person: string): readonly string[];
  /** Looks at today anew. */
  today(person: string): Promise<Stands>;
  /** Presses in it as it stands now. */
  press(person: string, on: Stands, wanted: Wanted): Promise<void>;
  /** A typed line to Potbell. What the person then sees: the answer, or the sheet that opens. */
  type(person: string, text: string): Promise<string>;
  /** A line in one's own conversation, without waiting for its answer; its id. */
  write(person: string, text: string): Promise<string>;
  rewrite(person: string, id: string, text: string): Promise<void>;
  erase(person: string, id: string): Promise<void>;
  /** Something said in the channel, to nobody in particular; its id. */
  talk(person: string, text: string, under?: Stands): Promise<string>;
  /** Something said in the channel that names Potbell. */
  call(person: string, text: string): Promise<void>;
  /** The form or page that is open. */
  sheet(person: string): Sheet | null;
  /** Sends the form that is open. */
  submit(person: string, answers: Readonly<Record<string, string>>): Promise<Submitted>;
  shut(person: string): Promise<void>;
  /** The record of the shift as it reaches this person: as a file, or as words about where it is. */
  record(person: string): Promise<string>;

  fault(call: FaultCall, kind: FaultKind, times?: number): void;
  faultsLeft(): number;
  faultsOver(): void;
  /** How often Potbell changed a message that stood, in Slack's channel or anywhere in Teams. */
  updates(): number;
  /** The platform cannot be reached, or can again. */
  down(shut: boolean): Promise<void>;
  /** What was done last reaches Potbell once more. */
  duplicateLast(): Promise<void>;
  /** Every line or press from now on comes this many times more. */
  duplicate(times: number): void;
  /** How often the platform asked to be called less often. */
  turnedAway(): number;
  /** Potbell ends, the platform stays. */
  stop(): Promise<void>;
  close(): Promise<void>;
}

export type Submitted =
  | { readonly kind: 'problems'; readonly text: string }
  | { readonly kind: 'taken'; readonly text: string };

export interface Opening {
  readonly site?: LoadedSite;
  readonly store?: Store;
  readonly memory?: SurfaceMemory;
  readonly at?: string;
  /** A Potbell that was stopped: this one comes in its place, in the same chat. */
  readonly after?: Hands;
  /** Calls that take longer are given up, ms. */
  readonly timeoutMs?: number;
}

/** Everybody of this site is linked to the platform. */
export interface ChatKind {
  readonly name: string;
  /** Takes several messages of one conversation in one turn. */
  readonly allAtOnce: boolean;
  open(opening?: Opening): Promise<Hands>;
}

/** Opens a crew for one test. */
export async function withHands(
  kind: ChatKind,
  test: (hands: Hands) => Promise<void>,
  opening: Opening = {},
): Promise<void> {
  const hands = await kind.open(opening);
  try {
    await test(hands);
  } finally {
    await hands.close();
  }
}

/** The one that is there, or an error that says what was looked for. */
export function the<T>(found: T | undefined | null, what: string): T {
  if (found === undefined || found === null) throw new Error(`there is no ${what}`);
  return found;
}

export const textOf = (all: readonly Stands[]): string => all.map(({ text }) => text).join('\n');
/** What stands and can be pressed for this action. */
export const withAction = (all: readonly Stands[], part: string): Stands | undefined =>
  all.findLast(({ buttons }) => buttons.some(({ value }) => value.includes(part)));
