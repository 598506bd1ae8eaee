import type { Said } from './said.ts';
import type { ChatServices } from './services.ts';
import { orderOf } from './standing.ts';

/**
 * Whether newer words for the same message wait to be said, so that these need no call to the platform: a message that
 * everybody changes within a minute is changed a few times. Never across a bell, which is a message of its own: what came
 * before it stands for good and must have its last words. What was given up counts for nothing.
 */
export async function isSuperseded(
  { following }: Pick<ChatServices, 'following'>,
  said: Pick<Said, 'id' | 'shift' | 'urgency'>,
): Promise<boolean> {
  if (said.urgency === 'bell' || orderOf(said) === undefined) return false;
  let next = await following(said.id);
  while (next?.urgency === 'quiet' && next.state === 'superseded') next = await following(next.id);
  return next?.urgency === 'quiet' && next.state !== 'failed';
}
