import type { Hono } from 'hono';
import type { BuiltForm, FormContext, ReadForm } from '../../src/forms/forms.ts';
import type { FormRef, Page } from '../../src/message/action.ts';
import type { FormValues } from '../../src/message/form.ts';
import type { PersonId, ShiftId } from '../../src/model/id.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { SitePack } from '../../src/model/site.ts';
import type { Clock, HandleCommand, Store, Surface } from '../../src/ports.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import type { PageContext, Panel } from '../../src/views/pages.ts';
import type { Log } from '../host/log.ts';
import type { PinAttempts, PinTry } from '../host/pin-attempts.ts';
import type { Visit } from './session.ts';
import type { BoardWords } from './words.ts';

export type { Log, PinAttempts, PinTry };

export type RecordFormat = 'json' | 'csv' | 'html';

export interface RecordFile {
  readonly body: string;
  readonly contentType: string;
  readonly fileName: string;
}

/** What the board needs from the rest of Potbell. It decides nothing itself: it shows, reads and passes on. */
export interface BoardServices {
  readonly handle: HandleCommand;
  readonly store: Pick<Store, 'shift' | 'shifts' | 'deliveries'>;
  readonly clock: Clock;
  readonly texts: TextsFor;
  pack(): SitePack;
  /** The open (or newest) shift. */
  currentShift(): Promise<Shift | null>;
  previousShift(): Promise<Shift | null>;
  /** Which shift a day posted for this date is, whether or not it exists yet. */
  shiftIdFor(date: string): ShiftId;
  pages(page: Page, context: PageContext): readonly Panel[];
  buildForm(ref: FormRef, context: FormContext, typed?: FormValues): BuiltForm;
  readForm(ref: FormRef, values: FormValues, context: FormContext): ReadForm;
  /** Slow on purpose (scrypt); false for an unknown person. */
  checkPin(person: PersonId, pin: string): Promise<boolean>;
  /** Who may try a PIN now; shared with every other way in, so that two ways give no extra tries. */
  readonly attempts: PinAttempts;
  recordFile(shift: ShiftId, format: RecordFormat): Promise<RecordFile | null>;
  health(): Promise<{ readonly ok: boolean; readonly problems: readonly string[] }>;
  newId(): string;
  /**
   * Names under which the board is reached besides its own address and this machine's own names, without a port, for
   * example `shed.example`. A page under any other name is refused: it could be somebody else's name led here.
   */
  readonly hostNames?: readonly string[];
  /**
   * A log-in ends after this many minutes without a press or a page opened; 10 when not given. However busy, it ends
   * half an hour after the PIN.
   */
  readonly sessionMinutes?: number;
  readonly log: Log;
  /** One set, or a set by language code. */
  readonly words: BoardWords | ((language: string) => BoardWords);
}

/** What a request carries through the board's routes. */
export interface BoardEnv {
  Variables: { visit: Visit | null };
}

export interface Board {
  readonly app: Hono<BoardEnv>;
  readonly surface: Surface;
  /** Call after every commit, wherever it came from, so that open pages refresh. */
  changed(): void;
  /** Rejects with a clear error when the address cannot be listened on. `port` 0 takes any free one. */
  start(where: { readonly host?: string; readonly port: number }): Promise<RunningBoard>;
}

export interface RunningBoard {
  readonly url: string;
  stop(): Promise<void>;
}
