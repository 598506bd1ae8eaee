import type { ChatWords } from '../../src/chat/render-words.ts';
import type { Typed, TypedContext } from '../../src/chat/typed.ts';
import type { BuiltForm, FormContext, ReadForm } from '../../src/forms/forms.ts';
import type { FormRef, Page } from '../../src/message/action.ts';
import type { FormValues } from '../../src/message/form.ts';
import type { PersonId, ShiftId } from '../../src/model/id.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { Person, SitePack } from '../../src/model/site.ts';
import type { Clock, HandleCommand, Store, SurfaceMemory } from '../../src/ports.ts';
import type { Texts, TextsFor } from '../../src/texts/texts.ts';
import type { PageContext, Panel } from '../../src/views/pages.ts';
import type { Log } from '../host/log.ts';
import type { Again } from './again.ts';

/** What a chat needs from the rest of Potbell. It decides nothing itself: it shows, reads and passes on. */
export interface ChatServices {
  /** The name by which deliveries, actors and memory know this chat. Kept in the journal: never renamed. */
  readonly surface: string;
  /** Who a member of the chat is on this site, by the ids in the pack; null for somebody the pack does not know. */
  personOf(pack: SitePack, member: string): Person | null;
  /** The member id of a person; null for who is not reached here. */
  memberOf(pack: SitePack, person: PersonId): string | null;
  readonly handle: HandleCommand;
  readonly clock: Clock;
  readonly texts: TextsFor;
  readonly memory: SurfaceMemory;
  pack(): SitePack;
  /** Of the outbox: the next words of the same message. */
  readonly following: Store['following'];
  shift(id: ShiftId): Promise<Shift | null>;
  currentShift(): Promise<Shift | null>;
  previousShift(): Promise<Shift | null>;
  /** Every shift that is not closed: each may have mixed paint. */
  openShifts(): Promise<readonly Shift[]>;
  shiftIdFor(date: string): ShiftId;
  pages(page: Page, context: PageContext): readonly Panel[];
  buildForm(ref: FormRef, context: FormContext, typed?: FormValues): BuiltForm;
  readForm(ref: FormRef, values: FormValues, context: FormContext): ReadForm;
  readTyped(text: string, context: TypedContext): Typed;
  recordFile(shift: ShiftId): Promise<{ readonly body: string; readonly fileName: string } | null>;
  words(texts: Texts): ChatWords;
  /** The notices that wait inside the chat, each with its state in words, for the foremen. */
  notices(): Promise<readonly string[]>;
  /** Until it is a channel's turn, for an answer that is not in the outbox. */
  wait(ms: number): Promise<void>;
  /** For what is tidied up later, by itself. */
  readonly again: Again;
  readonly log: Log;
}
