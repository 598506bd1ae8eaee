import type { Pace } from '../../src/chat/pace.ts';
import type { Clock, SurfaceMemory } from '../../src/ports.ts';
import type { Log } from '../host/log.ts';
import type { TeamsAuth } from './auth.ts';
import type { Conversations } from './conversations.ts';
import { calling } from './sender-call.ts';
import { opening } from './sender-open.ts';
import { posting } from './sender-post.ts';

export interface SenderServices {
  readonly auth: Pick<TeamsAuth, 'connector'>;
  readonly conversations: Conversations;
  readonly memory: SurfaceMemory;
  readonly clock: Clock;
  readonly pace: Pace;
  readonly log: Log;
  readonly appId: string;
  readonly tenantId: string;
  /** The team or channel of the crew, where the platform says who a member is; null when the pack names none. */
  roster(): string | null;
}

export type Sender = ReturnType<typeof createSender>;

/**
 * Everything that is said to Teams. Each call is tried once and settles in less than 10 s; none throws for what the
 * platform or the network does, all of it is in the answer. What surfaces as `Error` is our own memory failing.
 *
 * A bot cannot read back what stands in a conversation. What was posted is therefore kept by its marker as soon as the
 * platform names its id. A post whose answer was lost is not known to stand: it is said again, and whoever says it
 * marks it as a possible repeat (`stands` tells beforehand). Never is it taken for said.
 */
export function createSender(services: SenderServices) {
  const call = calling(services);
  return { ...posting(services, call), ...opening(services, call) };
}
