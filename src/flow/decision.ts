import type { Actor } from '../model/actor.ts';
import type { CommandOf, CommandType } from '../model/command.ts';
import type { CarryOver } from '../model/day.ts';
import type { EventBody, EventOf, EventType } from '../model/event.ts';
import type { PersonId } from '../model/id.ts';
import { own } from '../model/own.ts';
import type { Shift } from '../model/shift.ts';
import type { Shown } from '../model/shown.ts';
import type { Person, SitePack } from '../model/site.ts';
import type { Instant } from '../model/time.ts';
import type { TextId, TextParams } from '../texts/text-ids.ts';

/** What a decision may know beside the shift. */
export interface Context {
  readonly now: Instant;
  readonly actor: Actor;
  readonly commandId: string;
  /** The site pack as it is now; a running shift decides from its own copy. */
  readonly pack: SitePack;
  /** What the latest earlier shift left, and its last hash: looked at when a day is posted and when its briefing goes out. */
  readonly before: { readonly carryOver: CarryOver; readonly head: string } | null;
  /** For a sign-off or an answer: what was read. */
  readonly shown?: Shown | null;
}

/** A named "no" with its own text. Nothing is changed by it. */
export interface Refusal {
  readonly refused: true;
  readonly text: TextId;
  readonly params: Readonly<Record<string, string | number>>;
}

export type Decision = { readonly refused: false; readonly events: readonly EventBody[] } | Refusal;

export type Decide<T extends CommandType> = (
  shift: Shift,
  command: CommandOf<T>,
  context: Context,
) => Decision;
export type Apply<T extends EventType> = (
  shift: Shift,
  event: EventOf<T>,
  meta: { readonly at: Instant; readonly by: Actor },
) => Shift;

export function accept(...events: readonly EventBody[]): Decision {
  return { refused: false, events };
}

export function refuse<K extends TextId>(text: K, ...params: TextParams<K>): Refusal {
  return { refused: true, text, params: params[0] ?? {} };
}

/** The known person behind a command, or the refusal that tells them what to do. */
export function personOf(shift: Shift, context: Context): { readonly person: Person } | Refusal {
  const { actor } = context;
  if (actor.kind === 'person') {
    const person = own(shift.day.people, actor.person);
    if (person) return { person };
    return refuse('refusal.not-in-pack', { person: actor.person });
  }
  return refuse('refusal.who-are-you');
}

export function foremanOf(shift: Shift, context: Context): { readonly person: Person } | Refusal {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  if (who.person.roles.includes('foreman')) return who;
  return refuse('refusal.foreman-only', { foreman: namesOf(shift, foremen(shift)) });
}

export function foremen(shift: Shift): readonly PersonId[] {
  return peopleWith(shift, 'foreman');
}

export function safetyContacts(shift: Shift): readonly PersonId[] {
  return peopleWith(shift, 'safety');
}

/** People of that role on this shift; if none of them is, those in the pack, so that nobody being there is not silence. */
function peopleWith(shift: Shift, role: 'foreman' | 'safety'): readonly PersonId[] {
  const all = Object.values(shift.day.people).filter((person) => person.roles.includes(role));
  const here = all.filter((person) => shift.people[person.id] !== undefined);
  return (here.length > 0 ? here : all).map((person) => person.id);
}

export function nameOf(shift: Shift, person: PersonId): string {
  return shift.day.people[person]?.name ?? person;
}

export function namesOf(shift: Shift, people: readonly PersonId[]): string {
  return people.map((person) => nameOf(shift, person)).join(', ');
}
