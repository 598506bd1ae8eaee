import type { Said } from '../chat/said.ts';
import type { Conversations } from './conversations.ts';
import type { Shown } from './direct.ts';
import { type CardName, REFRESH } from './inbound.ts';
import { limits } from './limits.ts';

/** A card that shows each of `people` (member ids) their own state. */
export interface Refreshing {
  readonly card: CardName;
  /** The mark of the shift it is of. */
  readonly of: string;
  readonly people: readonly string[];
}

/** Which of the messages in the outbox refresh, by the key under which they stand. */
export function cardNameOf({ key, audience }: Pick<Said, 'key' | 'audience'>): CardName | null {
  if (key.startsWith('briefing:') && audience.kind === 'crew') return 'briefing';
  return key.startsWith('sign-off:') && audience.kind === 'person' ? 'sign-off' : null;
}

/**
 * The part with its refresh. Who has not been met in Teams yet is left out: the card's buttons say the same. So is
 * everybody where there are more than the platform takes.
 */
export async function refreshingPart<P extends Shown>(
  part: P,
  { card, of, people }: Refreshing,
  { userId }: Pick<Conversations, 'userId'>,
): Promise<P> {
  if (people.length > limits.refreshedPeople.most) return part;
  const known = await Promise.all(people.map(userId));
  const userIds = known.filter((id) => id !== null);
  if (userIds.length === 0) return part;
  const action = { type: 'Action.Execute', title: REFRESH, verb: REFRESH, data: { card, of } } as const;
  return { ...part, card: { ...part.card, refresh: { action, userIds } } };
}
