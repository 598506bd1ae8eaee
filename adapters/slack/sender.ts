import type { webApi } from '@slack/bolt';
import type { Pace } from '../../src/chat/pace.ts';
import type { Clock } from '../../src/ports.ts';
import type { Log } from '../host/log.ts';
import { lookups } from './sender-look.ts';
import { posting } from './sender-post.ts';
import { scheduling } from './sender-schedule.ts';
import { uploading } from './sender-upload.ts';
import { viewing } from './sender-views.ts';

export interface SenderServices {
  /** As `createSlackClient` makes it: one try a call, inside the time the outbox waits. */
  readonly client: webApi.WebClient;
  readonly clock: Clock;
  readonly pace: Pace;
  readonly log: Log;
}

export type Sender = ReturnType<typeof createSender>;

/**
 * Everything that is said to Slack. Each call is tried once and settles in less than 10 s; none throws for what the
 * platform or the network does, all of it is in the answer.
 */
export function createSender(services: SenderServices) {
  const look = lookups(services);
  return {
    ...look,
    ...posting(services, look),
    ...uploading(services, look),
    ...viewing(services),
    ...scheduling(services),
  };
}
