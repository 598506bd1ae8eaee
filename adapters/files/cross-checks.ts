import { type Entry, problemAt } from './check-entry.ts';
import type { EntryKind } from './json-schemas.ts';
import type { PackProblem } from './problem.ts';
import { idOf, rolesOf } from './references.ts';
import { valueAt } from './value-at.ts';

/** The same id twice makes it a matter of chance which one a shift gets. */
export function repeatedIds(entries: readonly Entry<EntryKind>[]): readonly PackProblem[] {
  return entries.flatMap((entry, i) => {
    const id = idOf(entry.raw);
    const first = entries.slice(0, i).find((one) => id !== '' && idOf(one.raw) === id);
    if (!first) return [];
    const line = first.yaml.spot([...first.base, 'id']).line;
    const message = `this id is used twice, first at ${first.yaml.file}:${line}`;
    return [problemAt(entry, ['id'], message, 'another id; each one may be used once')];
  });
}

const chats = [
  { field: 'slack', name: 'Slack', write: "the id from this person's own profile in Slack" },
  { field: 'teams', name: 'Teams', write: "this person's own Object ID from Microsoft Entra" },
] as const;

/** One member of a chat for two people: nobody could tell any more who signed. */
export function repeatedMembers(people: readonly Entry<'people'>[]): readonly PackProblem[] {
  return chats.flatMap(({ field, name, write }) =>
    people.flatMap((person, i) => {
      const member = valueAt(person.raw, [field]);
      if (typeof member !== 'string' || member === '') return [];
      const first = people.slice(0, i).find((one) => valueAt(one.raw, [field]) === member);
      if (!first) return [];
      const line = first.yaml.spot([...first.base, field]).line;
      const message = `this ${name} member id is used twice, first at ${first.yaml.file}:${line}`;
      return [problemAt(person, [field], message, write)];
    }),
  );
}

/** Somebody must post the day, and somebody must be there when a bell goes unanswered. */
export function neededRoles(people: readonly Entry<'people'>[]): readonly PackProblem[] {
  const first = people[0];
  const roles = people.map((person) => rolesOf(person.raw));
  if (!first || roles.includes(null)) return [];
  const whole = (message: string, write: string): PackProblem => ({
    file: first.yaml.file,
    line: 1,
    column: 1,
    field: 'people',
    found: '',
    message,
    write,
  });
  const lacking = (['foreman', 'safety'] as const).filter(
    (role) => !roles.some((held) => held?.includes(role)),
  );
  const why = {
    foreman: 'who posts the day and answers bells',
    safety: 'whom an unanswered bell reaches last',
  };
  return lacking.map((role) =>
    whole(`nobody has the role ${role}, ${why[role]}`, `roles: [${role}] for at least one person`),
  );
}

/** Without these the pressure the line can see is unknown. */
export function driveFields(rig: Entry<'rigs'>): readonly PackProblem[] {
  const drive = valueAt(rig.raw, ['drive']);
  if (drive === 'air' && valueAt(rig.raw, ['ratio']) === undefined)
    return [
      problemAt(
        rig,
        ['drive'],
        'an air-driven rig needs its ratio: without it the pressure in the line is unknown',
        'ratio: 45 on a line of its own, with the figure from the plate of the pump',
      ),
    ];
  if ((drive === 'electric' || drive === 'engine') && valueAt(rig.raw, ['maxFluidBar']) === undefined)
    return [
      problemAt(
        rig,
        ['drive'],
        `a rig with ${drive} drive needs its fluid pressure limit: without it the pressure in the line is unknown`,
        'maxFluidBar: 220 on a line of its own, with the figure from the plate of the pump',
      ),
    ];
  return [];
}
