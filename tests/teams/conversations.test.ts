import { describe, expect, test } from 'vitest';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { createConversations } from '../../adapters/teams/conversations.ts';
import { readInbound } from '../../adapters/teams/inbound.ts';
import { TEAMS } from '../../adapters/teams/services.ts';
import { ANA, BEN, CREW, DOCK, TEAM } from '../peers/teams/world.ts';
import { type Linked, withLink } from './link-helpers.ts';

/** Everything that comes in is learnt, by one that reads and writes `memory`. */
async function withMemory(
  test: (linked: Linked, memory: ReturnType<typeof memorySurfaceMemory>, puts: () => number) => Promise<void>,
) {
  const memory = memorySurfaceMemory({ now: () => 0 });
  let puts = 0;
  const counted = {
    ...memory,
    put: (...given: Parameters<typeof memory.put>) => {
      puts += 1;
      return memory.put(...given);
    },
  };
  const conversations = createConversations(counted);
  await withLink(
    (linked) => test(linked, memory, () => puts),
    async (activity) => {
      await conversations.learn(activity, readInbound(activity));
      return { status: 200, body: null };
    },
  );
}

describe('what is remembered', () => {
  test('of a chat and a channel, across a restart', () =>
    withMemory(async ({ teams }, memory) => {
      await teams.say(ANA, teams.chat(ANA), 'x');
      await teams.say(BEN, DOCK, 'x');
      const after = createConversations(memory);
      const serviceUrl = teams.serviceUrl();
      expect(await after.reference(teams.chat(ANA))).toEqual({ serviceUrl, team: null });
      expect(await after.reference(DOCK)).toEqual({ serviceUrl, team: TEAM });
      expect(await after.personal('aad-ana')).toBe(teams.chat(ANA));
      expect(await after.personal('aad-ben')).toBeNull();
      expect([
        await after.userId('aad-ben'),
        await after.userId('aad-cleo'),
        await after.userId(BEN),
      ]).toEqual([BEN, null, BEN]);
    }));

  test('is written once, however often somebody presses', () =>
    withMemory(async ({ teams }, _memory, puts) => {
      await teams.say(ANA, teams.chat(ANA), 'x');
      const before = puts();
      await teams.say(ANA, teams.chat(ANA), 'y');
      expect([before, puts()]).toEqual([4, 4]);
    }));

  test('moves with the platform: each at its next activity, or when its old address is found empty', () =>
    withMemory(async ({ teams }, memory) => {
      await teams.say(ANA, teams.chat(ANA), 'x');
      await teams.say(BEN, DOCK, 'x');
      const old = teams.serviceUrl();
      teams.moveService('amer');
      await teams.say(ANA, teams.chat(ANA), 'x');
      const now = createConversations(memory);
      expect(await now.serviceUrl(teams.chat(ANA))).toBe(teams.serviceUrl());
      expect(await now.serviceUrl(DOCK)).toBe(old);
      expect(await now.serviceUrl('19:never@thread.tacv2')).toBe(teams.serviceUrl());
      await now.moved(DOCK, 'https://teams.invalid/another/');
      expect(await now.serviceUrl(DOCK)).toBe(old);
      await now.moved(DOCK, old);
      expect(await now.reference(DOCK)).toEqual({ serviceUrl: teams.serviceUrl(), team: TEAM });
    }));

  test('goes with the app: somebody’s chat, or a team with its channels and nothing else', () =>
    withMemory(async ({ teams }, memory) => {
      const now = createConversations(memory);
      await teams.say(ANA, teams.chat(ANA), 'x');
      await teams.say(BEN, teams.chat(BEN), 'x');
      await teams.say(BEN, DOCK, 'x');
      await teams.say(BEN, CREW, 'x');
      await teams.uninstalls(ANA);
      expect([await now.personal('aad-ana'), await now.reference(teams.chat(ANA))]).toEqual([null, null]);
      await teams.uninstalls(BEN, TEAM);
      expect(await now.reference(DOCK)).toBeNull();
      expect(await now.personal('aad-ben')).toBe(teams.chat(BEN));
      expect(await now.reference(CREW)).not.toBeNull();
      await teams.installs(ANA);
      expect(await now.personal('aad-ana')).toBe(teams.chat(ANA));
    }));

  test('is nothing before Teams has said anything', async () => {
    const none = createConversations(memorySurfaceMemory({ now: () => 0 }));
    expect([await none.serviceUrl(null), await none.serviceUrl(DOCK)]).toEqual([null, null]);
  });

  test('forged requests teach nothing', () =>
    withMemory(async ({ teams }, memory) => {
      teams.forgeNext('wrong-service-url');
      await teams.say(ANA, teams.chat(ANA), 'x');
      expect(await memory.list(TEAMS, '')).toEqual([]);
    }));
});
