import type { ConnectorClient } from 'botframework-connector';
import type { Sent } from '../chat/outcome.ts';
import { TeamsRefused } from './http.ts';
import { failedCall, movedAway, refused } from './outcome.ts';
import type { SenderServices } from './sender.ts';

export type Settled<T> = Exclude<Sent<T>, { kind: 'later' }>;
export type Api = ConnectorClient['conversations'];
export type Call = ReturnType<typeof calling>;

/** What says that the app is no longer in a conversation, so that what is kept of it is of no use. */
const left: ReadonlySet<string> = new Set(['ConversationNotFound', 'BotNotInConversationRoster']);

export function calling({ auth, conversations, pace, clock, log }: SenderServices) {
  /**
   * One call about a conversation, or about none yet. `work` gets the address as well. Waits that the platform asks for
   * hold `turn`, the conversation's key in the pace, and no other.
   */
  return async function call<T>(
    conversation: string | null,
    turn: string,
    work: (api: Api, serviceUrl: string) => Promise<T>,
  ): Promise<Settled<T>> {
    const serviceUrl = await conversations.serviceUrl(conversation);
    if (serviceUrl === null) return refused('NotHeardFrom');
    try {
      const { conversations: api } = await auth.connector(serviceUrl);
      return { kind: 'ok', value: await work(api, serviceUrl) };
    } catch (error) {
      const failed = failedCall(error);
      if (failed.kind === 'retry' && failed.afterMs !== undefined)
        pace.hold('posts', turn, clock.now() + failed.afterMs);
      if (conversation !== null && error instanceof TeamsRefused && movedAway(error.status, error.code)) {
        log.warn({ part: 'teams', conversation }, 'Teams has moved; its newest address is tried next');
        await conversations.moved(conversation, serviceUrl);
      }
      if (conversation !== null && failed.kind === 'gone' && left.has(failed.code))
        await conversations.forget(conversation);
      return failed;
    }
  };
}
