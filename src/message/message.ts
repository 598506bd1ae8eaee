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
  /** Detail that may be one tap away. Never holds anything graded stop. */
  | { readonly kind: 'more'; readonly label: string; readonly blocks: readonly Block[] }
  | { readonly kind: 'divider' }
  | { readonly kind: 'buttons'; readonly buttons: readonly Button[] };

export interface Fact {
  readonly label: string;
  readonly value: Line;
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
