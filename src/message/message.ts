import type { Instant } from '../model/time.ts';
import type { Action } from './action.ts';

/**
 * One message, the same for every surface. Renderers escape each piece exactly once; nobody writes markup here.
 * A new block kind must break every renderer at compile time: no renderer has a `default:`.
 */
export interface Message {
  /** One line: the notification, the page title, the log line. Complete enough to act on. */
  readonly summary: string;
  readonly tone: Tone;
  readonly blocks: readonly Block[];
}

/** Meaning, not looks. */
export type Tone = 'plain' | 'good' | 'attention' | 'danger';

export type Inline =
  | string
  | { readonly kind: 'strong'; readonly text: string }
  | { readonly kind: 'person'; readonly id: string; readonly name: string };
export type Line = readonly Inline[];

export type Block =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'paragraph'; readonly line: Line }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly Line[] }
  | { readonly kind: 'facts'; readonly facts: readonly Fact[] }
  | { readonly kind: 'note'; readonly tone: Tone; readonly line: Line }
  /** Something that runs out. `clock` is the wall-clock time on the site's clock: enough when nothing ticks. */
  | {
      readonly kind: 'countdown';
      readonly label: string;
      readonly to: Instant;
      readonly clock: string;
      readonly tone: Tone;
    }
  | { readonly kind: 'checklist'; readonly items: readonly CheckItem[] }
  /** A stretch of time and what goes on in it. Every clock text is given on the site's clock: no renderer needs one. */
  | {
      readonly kind: 'timeline';
      readonly label: string;
      /** Over the same as a list, one tap away from the picture. */
      readonly listLabel: string;
      /** `beside`: words next to it say all that the list would. Who cannot draw the picture then leaves it out. */
      readonly list: 'here' | 'beside';
      readonly from: Instant;
      readonly to: Instant;
      readonly marks: readonly TimeMark[];
      readonly lanes: readonly Lane[];
    }
  /** Detail that may be one tap away. Never holds anything graded stop. */
  | { readonly kind: 'more'; readonly label: string; readonly blocks: readonly Block[] }
  /**
   * The whole, where the message itself is the short of it: under it in a channel's thread, right here on a page. Its label
   * stands in the message either way, and what is graded stop may be in it only if the message names it too.
   */
  | { readonly kind: 'below'; readonly label: string; readonly blocks: readonly Block[] }
  | { readonly kind: 'divider' }
  | { readonly kind: 'buttons'; readonly buttons: readonly Button[] };

export interface Fact {
  readonly label: string;
  readonly value: Line;
}

export interface TimeMark {
  readonly at: Instant;
  readonly label: string;
}

/** What one rig does. Mixing may go on while the gun is busy; nothing else overlaps. */
export interface Lane {
  readonly label: string;
  readonly segments: readonly Segment[];
}

export type SegmentKind = 'mix' | 'stand' | 'spray' | 'break' | 'flush' | 'hold';

export interface Segment {
  readonly kind: SegmentKind;
  readonly from: Instant;
  readonly to: Instant;
  /** What the kind is called, the same for all of a kind: "mix". */
  readonly name: string;
  /** "07:33–07:43" */
  readonly clock: string;
  /** What it is in particular: "batch 1, 40 L". May be empty. */
  readonly label: string;
  /** A few characters that fit into the picture, such as a number. May be empty. */
  readonly mark: string;
}

export interface CheckItem {
  readonly state: 'done' | 'open' | 'next' | 'skipped' | 'defect';
  readonly line: Line;
}

export interface Button {
  readonly label: string;
  readonly tone: 'main' | 'plain' | 'danger';
  readonly action: Action;
}
