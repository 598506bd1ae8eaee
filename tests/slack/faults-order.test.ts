import { describe, expect, it } from 'vitest';
import { loadWords } from '../../adapters/cli/site.ts';
import { talkWords } from '../../adapters/cli/talk-words.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { slackSurface } from '../../adapters/slack/deliver.ts';
import { handTimers } from './by-hand.ts';
import { DATE, slackSite } from './crew.ts';

describe('one message', () => {
  it('is posted once although its first try is still going on when the second begins', async () => {
    const site = slackSite();
    const clock = { now: () => 1_780_898_400_000 };
    const answers: (() => void)[] = [];
    const posts: string[] = [];
    const never = async () => ({ kind: 'retry', why: 'not in this test' }) as const;
    const out = {
      update: never,
      delete: never,
      openDm: async () => ({ kind: 'ok', value: 'D0TOMAS000' }) as const,
      post: (message: { text: string }) =>
        new Promise<{ kind: 'ok'; value: { channel: string; ts: string } }>((resolve) => {
          posts.push(message.text);
          answers.push(() =>
            resolve({ kind: 'ok', value: { channel: 'D0TOMAS000', ts: `${posts.length}.1` } }),
          );
        }),
    };
    const surface = slackSurface(
      {
        memory: memorySurfaceMemory(clock),
        clock,
        pack: () => site.pack,
        texts: loadWords(site),
        words: talkWords,
        log: { info: () => undefined, warn: () => undefined, error: () => undefined },
        shift: async () => null,
        following: async () => null,
        again: handTimers().again,
      },
      out,
    );
    const said = {
      id: `${site.pack.site.id}:${DATE}:1:0:slack`,
      shift: `${site.pack.site.id}:${DATE}`,
      key: 'hello',
      audience: { kind: 'person', person: 'tomas' },
      urgency: 'quiet',
      message: { summary: 'Hello.', tone: 'plain', blocks: [] },
      possibleRepeat: false,
    } as const;
    const first = surface.put(said);
    while (posts.length === 0) await Promise.resolve();
    expect(await surface.put({ ...said, possibleRepeat: true })).toMatchObject({ kind: 'later' });
    for (const answer of answers) answer();
    expect(await first).toEqual({ kind: 'sent' });
    expect(posts).toHaveLength(1);
  });
});
