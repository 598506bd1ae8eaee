import { describe, expect, it } from 'vitest';
import { type Hands, the, withHands } from '../chats/hands.ts';
import { pressedOnAnOlder, ringsAndAnswer, ringsIn, threeRings } from '../chats/older-rings.ts';
import { crews, inTeams } from '../chats/teams-hands.ts';
import { wrongIn } from '../chats/wrong.ts';

const teamsOf = (hands: Hands) => the(crews.get(hands), 'Teams').teams;

describe('BE12 a bell in Teams that nobody answers', () => {
  it('is one whole card and a line for each ring before', () => withHands(inTeams, ringsAndAnswer));

  it('is answered in an older ring as well, as long as that stands in full', () =>
    withHands(inTeams, pressedOnAnOlder));

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

  it.each(['busy', 'out of order', 'dropped before', 'dropped after'] as const)(
    'with %s at each change: every ring is said once, and the lines come later',
    (fault) =>
      withHands(inTeams, async (hands) => {
        await threeRings(hands);
        hands.fault('update', fault, 3);
        await hands.rest?.();
        expect(hands.faultsLeft()).toBe(0);
        expect(await wrongIn(hands)).toEqual([]);
        expect(hands.faults).toEqual([]);
      }),
  );
});
