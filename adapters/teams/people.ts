import type { PersonId } from '../../src/model/id.ts';
import type { Person, SitePack } from '../../src/model/site.ts';

/** Who a member of the organisation is on this site, by the ids in the pack; null for somebody the pack does not know. */
export function personOf(pack: SitePack, member: string): Person | null {
  return pack.people.find(({ teams }) => teams === member.toLowerCase()) ?? null;
}

/** The member id of a person; null for who is not reached here. */
export function memberOf(pack: SitePack, person: PersonId): string | null {
  return pack.people.find(({ id }) => id === person)?.teams ?? null;
}

/** A mention for who is linked; null, which leaves the name, for all others. */
export function mentionIn(pack: SitePack) {
  return (id: PersonId, name: string) => {
    const member = memberOf(pack, id);
    return member === null ? null : { id: member, name };
  };
}
