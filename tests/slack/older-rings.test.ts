import { describe, expect, it } from 'vitest';
import { memoryStore } from '../../adapters/memory/store.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { MORNING } from '../chats/day.ts';
import { type Hands, the, withHands } from '../chats/hands.ts';
import { left, olderRings, ringsIn, threeRings } from '../chats/older-rings.ts';
import { inSlack, platforms } from '../chats/slack-hands.ts';
import { wrongIn } from '../chats/wrong.ts';
import { CHANNEL } from './crew.ts';

const slackOf = (hands: Hands) => the(platforms.get(hands), 'Slack').slack;

olderRings(inSlack);

describe('BE12 a bell in Slack that nobody answers', () => {
  it('the lines are changes of what stood there: nobody hears of them, and no post waits for them', () =>
    withHands(inSlack, async (hands) => {
      await threeRings(hands);
      const stood = ringsIn(hands).map(({ id }) => id);
      const posts = slackOf(hands).callsOf('chat.postMessage').length;
      await hands.rest?.();
      expect(ringsIn(hands).map(({ id }) => id)).toEqual(stood);
      expect(slackOf(hands).callsOf('chat.postMessage')).toHaveLength(posts);
      const changed = slackOf(hands)
        .callsOf('chat.update')
        .filter(({ args }) => args.channel === CHANNEL && stood.includes(String(args.ts)));
      expect(changed).toHaveLength(2);
      expect(hands.turnedAway()).toBe(0);
    }));

  it('and Potbell is started anew in between: the next one goes on with it', async () => {
    let time = () => MORNING;
    const kept = { store: memoryStore(), memory: memorySurfaceMemory({ now: () => time() }) };
    const first = await inSlack.open({ ...kept, store: { ...kept.store, close: async () => undefined } });
    time = first.now;
    await threeRings(first);
    await first.stop();
    expect(ringsIn(first).map(({ buttons }) => buttons.length)).toEqual([2, 2, 2]);
    const second = await inSlack.open({ ...kept, after: first, at: '07:19' });
    await second.passTo('07:23');
    expect(await wrongIn(second)).toEqual([]);
    expect(ringsIn(second).map(({ summary }) => summary)).toEqual([
      ...left,
      'Call 3 at 07:18: sign-off chased. Rang again at 07:23, below.',
      expect.stringMatching(/^Call 4 since 07:10\./),
    ]);
    await second.close();
  });
});
