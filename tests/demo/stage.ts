import type { LoadedSite } from '../../adapters/cli/site.ts';
import type { Host } from '../../adapters/host/host.ts';
import type { Form } from '../../src/message/form.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { SitePack } from '../../src/model/site.ts';
import type { Texts } from '../../src/texts/texts.ts';
import type { Shot } from './shots.ts';

export const DATE = '2026-06-08';
/** Somebody in the chat whom nobody has put on the list; he is called Sam. */
export const STRANGER = 'sam';

/** A crew at work, whatever its chat. */
export interface Stage {
  readonly crew: {
    readonly site: LoadedSite;
    readonly potbell: { readonly host: Pick<Host, 'currentShift'> };
    readonly faults: readonly string[];
    passTo(hhmm: string): Promise<void>;
    deliver(): Promise<void>;
  };
  now(): number;
  readonly hands: Hands;
  readonly watch: Watch;
}

/** What people do with their thumbs. Each waits until what they did can be seen. */
export interface Hands {
  /** A line for Potbell, typed where this chat's people type it. Where a form comes as a button, that is pressed as well. */
  typed(person: string, text: string): Promise<void>;
  /** Presses the button with this label where `home` led, or on what was opened last. */
  press(person: string, where: 'home' | 'modal', label: string): Promise<void>;
  /** Whether a sheet is open that can be sent, or that asks for this. */
  asked(person: string, field?: string): boolean;
  untilAsked(person: string): Promise<void>;
  submit(person: string, answers: Readonly<Record<string, string>>): Promise<void>;
  close(person: string): Promise<void>;
  /** Goes to where this chat has the day for a person. */
  home(person: string): Promise<void>;
  /** From there to today's page; false when that is where one stands. */
  todayFromHome(person: string): Promise<boolean>;
  /** Presses in the last message of the channel in which the button with this label stands. */
  pressInChannel(person: string, label: string): Promise<void>;
  /** Answers the read-back in the own conversation; `right` false takes a wrong choice. */
  answer(person: string, right: boolean): Promise<void>;
  sign(person: string): Promise<void>;
  /** Asks for the record, and waits until it is there or it is said where it is. */
  record(person: string): Promise<void>;
}

/** Looks over people's shoulders and keeps what is there to see, in the order of the day. */
export interface Watch {
  readonly shots: readonly Shot[];
  /** How this line stands where people type it. */
  line(text: string): string;
  /** The crew's channel: what is new or changed since somebody last looked. */
  channel(name: string, note: string): void;
  /** The thread of the day, as far as it is new. */
  thread(name: string, note: string): void;
  /** A person's own conversation with the app, as far as it is new. */
  dm(person: string, name: string, note: string): void;
  home(person: string, name: string, note: string): void;
  /** What was opened last. */
  modal(person: string, name: string, note: string): void;
  /** What one person alone is answered, as far as it is new. */
  alone(person: string, name: string, note: string): void;
  /** A sheet that nobody opened, as it would stand, in one step or more. */
  sheet(
    form: Form,
    name: (step: number) => string,
    viewer: string,
    seenBy: { pack: SitePack; texts: Texts },
  ): void;
}

export async function shiftOf({ potbell }: Pick<Stage['crew'], 'potbell'>): Promise<Shift> {
  const now = await potbell.host.currentShift();
  if (!now) throw new Error('The demo has no shift yet.');
  return now;
}
