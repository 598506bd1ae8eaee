import { describe, expect, it } from 'vitest';
import { type Hands, the, withHands } from '../chats/hands.ts';
import { olderRings, ringsIn, threeRings } from '../chats/older-rings.ts';
import { crews, inTeams } from '../chats/teams-hands.ts';

const teamsOf = (hands: Hands) => the(crews.get(hands), 'Teams').teams;

olderRings(inTeams);

describe('BE12 a bell in Teams that nobody answers', () => {
  // A change counts as a message there: learn.microsoft.com/microsoftteams/platform/bots/how-to/rate-limit.
  it('the lines are changes of what stood there, at most one in two seconds', () =>
    withHands(inTeams, async (hands) => {
      await threeRings(hands);
      const stood = ringsIn(hands).map(({ id }) => id);
      const made = () => teamsOf(hands).callsOf('updateActivity').length;
      const [before, began] = [made(), hands.now()];
      await hands.rest?.();
      expect(ringsIn(hands).map(({ id }) => id)).toEqual(stood);
      expect(made() - before).toBeGreaterThan(9);
      expect(hands.now() - began).toBeGreaterThanOrEqual((made() - before) * 2_000);
      expect(hands.turnedAway()).toBe(0);
    }));
});
