import { z } from 'zod';
import { nameOf } from '../../../src/flow/decision.ts';
import { rigName } from '../../../src/flow/rig-update.ts';
import type { Actor } from '../../../src/model/actor.ts';
import type { CoatingId, PersonId, RigId } from '../../../src/model/id.ts';
import { own } from '../../../src/model/own.ts';
import type { Shift } from '../../../src/model/shift.ts';

/** Somebody or something with the id from the site pack and the name people know. */
export const namedSchema = z.strictObject({ id: z.string(), name: z.string() });
export type Named = z.infer<typeof namedSchema>;

/** Sequence number of the journal line that holds it. */
export const lineSchema = z.int().positive();

/** Who did it and from where, as the surface verified it. */
export const whoSchema = z.strictObject({
  kind: z.enum(['person', 'unknown', 'system']),
  person: namedSchema.nullable(),
  /** The surface, or the part of Potbell. */
  from: z.string(),
});
export type Who = z.infer<typeof whoSchema>;

export function personNamed(shift: Shift, id: PersonId): Named {
  return { id, name: nameOf(shift, id) };
}

export function rigNamed(shift: Shift, id: RigId): Named {
  return { id, name: rigName(shift, id) };
}

export function coatingNamed(shift: Shift, id: CoatingId): Named {
  return { id, name: own(shift.day.coatings, id)?.name ?? id };
}

export function whoOf(shift: Shift, actor: Actor): Who {
  switch (actor.kind) {
    case 'person':
      return { kind: 'person', person: personNamed(shift, actor.person), from: actor.surface };
    case 'unknown':
      return { kind: 'unknown', person: null, from: actor.surface };
    case 'system':
      return { kind: 'system', person: null, from: actor.part };
  }
}
