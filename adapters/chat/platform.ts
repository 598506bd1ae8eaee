import type { SitePack } from '../../src/model/site.ts';
import type { Texts } from '../../src/texts/texts.ts';
import type { Sent } from './outcome.ts';
import type { Said } from './said.ts';

/** One message of a platform, of the several that something said may take. */
export interface AnyPart {
  /** Detail that belongs into the thread under the first part. */
  readonly thread: boolean;
}

export interface Post<Part> {
  readonly channel: string;
  readonly part: Part;
  /** By this the platform's message is found again. */
  readonly marker: string;
  /** An earlier try may have shown it. */
  readonly lookFirst: boolean;
  /** The message in whose thread it belongs. */
  readonly under?: string;
  /** Shown in the channel as well as in its thread. */
  readonly broadcast?: boolean;
}

/** What each chat platform does in its own way when something is said. No call throws for what platform or network do. */
export interface Platform<Part extends AnyPart> {
  /** As people call it. */
  readonly title: string;
  /** Null: the site has none. */
  crewChannel(pack: SitePack): string | null;
  /** A bell is a message of its own in the channel, because one in the thread cannot be shown there besides. */
  readonly bellsApart: boolean;
  /** How many direct conversations may be opened in a minute. */
  readonly directsAMinute: number;
  openDirect(member: string): Promise<Sent<string>>;
  /** In their order, first the one in the channel. `calls`: everybody in the channel is to hear it. */
  parts(said: Said, texts: Texts, calls: boolean): readonly Part[];
  post(message: Post<Part>): Promise<Sent<{ readonly id: string }>>;
  /** Doing it a second time does no harm. */
  update(change: {
    readonly channel: string;
    readonly id: string;
    readonly part: Part;
  }): Promise<Sent<unknown>>;
  remove(message: { readonly channel: string; readonly id: string }): Promise<Sent<unknown>>;
  /** What a refusal (`code` of a `gone`) means; null where it is only about this one message. */
  meaning(code: string): Meaning | null;
}

export type Meaning =
  /** Somebody deleted it, or it is too old to be changed: people must see the news all the same. */
  | 'message-lost'
  | 'thread-lost'
  /** Ends with a new token or the app installed anew, without a word of the message being wrong. */
  | 'shut-out';
