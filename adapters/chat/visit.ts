import type { FormContext } from '../../src/forms/forms.ts';
import type { Actor } from '../../src/model/actor.ts';
import type { Command } from '../../src/model/command.ts';
import type { ShiftId } from '../../src/model/id.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { Person } from '../../src/model/site.ts';
import type { Outcome } from '../../src/ports.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { commandIdFor } from './marks.ts';
import type { ChatServices } from './services.ts';

/** Somebody who does something in a chat, with what they see it by. */
export interface Visit {
  readonly member: string;
  /** Null for a member nobody has put into the pack: they may stop the work and see the emergency card. */
  readonly person: Person | null;
  readonly texts: Texts;
  readonly shift: Shift | null;
}

export async function visitOf(services: ChatServices, member: string): Promise<Visit> {
  const pack = services.pack();
  const person = services.personOf(pack, member);
  return {
    member,
    person,
    texts: services.texts(person?.language ?? pack.site.language),
    shift: await services.currentShift(),
  };
}

export async function formContext(services: ChatServices, visit: Visit): Promise<FormContext> {
  return {
    pack: services.pack(),
    shift: visit.shift,
    previous: await services.previousShift(),
    now: services.clock.now(),
    texts: visit.texts,
    viewer: visit.person?.id ?? null,
  };
}

/** What came of asking: the door's answer, or why it was not asked. */
export type Asked =
  | Outcome
  | { readonly ok: false; readonly shown: null; readonly why: 'unknown' | 'no-shift' };

/**
 * Take one command to the one door. Who it is was verified by the platform; the shift is the current one, except for a
 * day being posted, which names its own.
 */
export async function ask(
  services: ChatServices,
  visit: Visit,
  command: Command,
  pressId: string,
): Promise<Asked> {
  // Only the loops may ask for these.
  if (command.type === 'ring' || command.type === 'note-undelivered')
    return { ok: false, shown: null, why: 'unknown' };
  const { person, member, shift } = visit;
  if (person === null && command.type !== 'stop-work') return { ok: false, shown: null, why: 'unknown' };
  const id: ShiftId | undefined =
    command.type === 'post-day' ? services.shiftIdFor(command.entry.date) : shift?.id;
  if (id === undefined) return { ok: false, shown: null, why: 'no-shift' };
  const actor: Actor =
    person === null
      ? { kind: 'unknown', surface: services.surface }
      : { kind: 'person', person: person.id, surface: services.surface };
  return services.handle({
    shift: id,
    command,
    actor,
    commandId: commandIdFor(services.surface, pressId, member, command),
  });
}
