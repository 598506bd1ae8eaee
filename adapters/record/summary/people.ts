import { z } from 'zod';
import { needsToSign } from '../../../src/briefing/build.ts';
import type { PersonId } from '../../../src/model/id.ts';
import { roleSchema } from '../../../src/model/site.ts';
import { maybeStamp, stamp, stampSchema } from '../stamp.ts';
import { told, type Walk } from '../walk.ts';
import { lineSchema, namedSchema, personNamed, whoOf, whoSchema } from './shapes.ts';

/** The words that stood there, in the language they were read in; null where a shift is older than that. */
const shownSchema = z.strictObject({ language: z.string(), text: z.string() });

/** Everybody who was on the shift at any time: what they answered, what they signed, what they never signed. */
export const peopleSchema = z.array(
  z.strictObject({
    person: namedSchema,
    roles: z.array(roleSchema),
    /** On the list at the end. */
    onShift: z.boolean(),
    /** When somebody who was not on the list turned up. */
    arrivedAt: stampSchema.nullable(),
    answers: z.array(
      z.strictObject({
        line: lineSchema,
        at: stampSchema,
        revision: z.int(),
        question: z.string(),
        right: z.boolean(),
        witness: namedSchema.nullable(),
        shown: shownSchema.nullable(),
      }),
    ),
    signOffs: z.array(
      z.strictObject({
        line: lineSchema,
        at: stampSchema,
        revision: z.int(),
        cautions: z.array(z.string()),
        witness: namedSchema.nullable(),
        by: whoSchema,
        shown: shownSchema.nullable(),
      }),
    ),
    /** Cautions of the last revision without this person's sign-off. */
    unsigned: z.array(z.string()),
  }),
);
export type PersonSummary = z.infer<typeof peopleSchema>[number];

export function peopleOf(walk: Walk): PersonSummary[] {
  const { end } = walk;
  const order = [...new Set([...end.day.crew, ...Object.keys(end.people)])];
  return order.map((id) => personOf(walk, id));
}

function personOf(walk: Walk, id: PersonId): PersonSummary {
  const { end, zone } = walk;
  const onShift = end.day.crew.includes(id);
  const named = (person: PersonId | null) => (person === null ? null : personNamed(end, person));
  return {
    person: personNamed(end, id),
    roles: [...(end.day.people[id]?.roles ?? [])],
    onShift,
    arrivedAt: maybeStamp(
      told(walk, 'person-arrived').find(({ body }) => body.person.id === id)?.at ?? null,
      zone,
    ),
    answers: told(walk, 'question-answered')
      .filter(({ body }) => body.person === id)
      .map(({ line, at, body: { revision, question, right, witnessedBy, shown } }) => ({
        line,
        at: stamp(at, zone),
        revision,
        question,
        right,
        witness: named(witnessedBy),
        shown: shown ?? null,
      })),
    signOffs: told(walk, 'signed')
      .filter(({ body }) => body.person === id)
      .map(({ line, at, by, body: { revision, cautions, witnessedBy, shown } }) => ({
        line,
        at: stamp(at, zone),
        revision,
        cautions: Object.keys(cautions),
        witness: named(witnessedBy),
        by: whoOf(end, by),
        shown: shown ?? null,
      })),
    unsigned: onShift
      ? needsToSign(end.briefing, end.people[id]?.signed ?? {}).map((caution) => caution.id)
      : [],
  };
}
