import type { FormRef, Page } from '../message/action.ts';
import type { Command } from '../model/command.ts';
import type { PersonId, RigId } from '../model/id.ts';
import type { Shift } from '../model/shift.ts';
import type { SitePack } from '../model/site.ts';
import type { Instant } from '../model/time.ts';
import type { Texts } from '../texts/texts.ts';

export interface TypedContext {
  readonly pack: SitePack;
  readonly shift: Shift | null;
  /** Who typed it, as the surface verified; null for somebody Potbell does not know. */
  readonly viewer: PersonId | null;
  readonly now: Instant;
  /** In the reader's language and in the units of the site. */
  readonly texts: Texts;
}

/** What a line of chat asks for. Nothing has been done yet: the one door decides, as for any button. */
export type Typed =
  | { readonly kind: 'do'; readonly command: Command }
  /** `about.text`, when there: what was typed after the command, for the form's field `text`. */
  | { readonly kind: 'open'; readonly form: FormRef }
  | { readonly kind: 'show'; readonly page: Page }
  | { readonly kind: 'help' }
  | AskRig
  | Wrong;

export interface AskRig {
  readonly kind: 'ask-rig';
  /** The command word in the reader's language. */
  readonly word: string;
  readonly rigs: readonly { readonly id: RigId; readonly name: string; readonly typed: string }[];
}

export interface Wrong {
  readonly kind: 'wrong';
  /** One line in the reader's words: what, where, how it is written. */
  readonly message: string;
}

export const wrong = (message: string): Wrong => ({ kind: 'wrong', message });
