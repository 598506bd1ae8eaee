import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import type { AuthServices } from '../../adapters/teams/auth.ts';
import { createTeamsAuth } from '../../adapters/teams/auth.ts';
import { createConversations } from '../../adapters/teams/conversations.ts';
import { onceOnlyHttp } from '../../adapters/teams/http.ts';
import { readInbound } from '../../adapters/teams/inbound.ts';
import { createTeamsPace } from '../../adapters/teams/pace.ts';
import { createSender, type Sender } from '../../adapters/teams/sender.ts';
import type { Pace } from '../../src/chat/pace.ts';
import type { SurfaceMemory } from '../../src/ports.ts';
import type { PeerOptions } from '../peers/teams/peer.ts';
import { DOCK, TEAM } from '../peers/teams/world.ts';
import { keptLog, type Linked, withLink } from './link-helpers.ts';
import { message, paragraph, render } from './render-helpers.ts';

/** A content as the renderer makes it. */
export function content(summary: string) {
  const [first] = render(message([paragraph('Relieve the pressure first.')], { summary }));
  if (first === undefined) throw new Error('The renderer gave no message.');
  return first;
}

/** All that a post needs. */
export const a = (marker: string, conversation = DOCK) => ({
  conversation,
  marker,
  ...content(`Rig 1: flush, ${marker}`),
});

export interface Yard extends Linked {
  readonly sender: Sender;
  readonly pace: Pace;
  readonly memory: SurfaceMemory;
  /** What was logged by the sender. */
  readonly said: string[];
  /** A sender of a process that has just begun: it remembers what is in the memory only. */
  restarted(more?: Partial<AuthServices> & { readonly roster?: string | null }): Sender;
  /** The notifications that stand in the conversation, oldest first. */
  standing(conversation?: string): readonly string[];
  /** The same for how often the connector was called for anything. */
  calls(): number;
}

/** A peer, our door before it that learns from what comes in, and a sender on the peer's own clock. */
export async function withSender(test: (yard: Yard) => Promise<void>, options: Partial<PeerOptions> = {}) {
  const memory = memorySurfaceMemory({ now: () => 0 });
  const conversations = createConversations(memory);
  await withLink(
    async (linked) => {
      const { teams, config } = linked;
      const { logged, log } = keptLog();
      const clock = { now: () => teams.clock.now() };
      const pace = createTeamsPace();
      const restarted: Yard['restarted'] = ({ roster = TEAM, ...more } = {}) =>
        createSender({
          auth: createTeamsAuth({ config, log, ...more }),
          conversations: createConversations(memory),
          memory,
          clock,
          pace: createTeamsPace(),
          log,
          appId: config.appId,
          tenantId: config.tenantId,
          roster: () => roster,
        });
      const sender = createSender({
        auth: createTeamsAuth({ config, log, http: onceOnlyHttp(1_500) }),
        conversations,
        memory,
        clock,
        pace,
        log,
        appId: config.appId,
        tenantId: config.tenantId,
        roster: () => TEAM,
      });
      await test({
        ...linked,
        sender,
        pace,
        memory,
        said: logged,
        restarted,
        standing: (conversation = DOCK) =>
          teams
            .messages(conversation)
            .filter(({ deleted, from }) => !deleted && from === teams.bot.id)
            .map(({ activity }) => String(activity.summary)),
        calls: () =>
          teams.calls.filter(({ operation }) => !['openid', 'keys', 'token'].includes(operation)).length,
      });
    },
    async (activity) => {
      await conversations.learn(activity, readInbound(activity));
      return { status: 200, body: null };
    },
    options,
  );
}
