import { describe, expect, it } from 'vitest';
import { loadWords } from '../../adapters/cli/site.ts';
import { talkWords } from '../../adapters/cli/talk-words.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { slackSurface } from '../../adapters/slack/deliver.ts';
import { flushSteps } from '../../src/model/checks.ts';
import type { Fault } from '../peers/slack/types.ts';
import { crewOnSlack, DATE, slackSite } from './crew.ts';
import { mustOnBoard, playOnBoard, today, wrongIn } from './faults.ts';

const STEPS = 4;

/** One message that changes faster than the platform lets it be said. */
describe('the flush goes on while its message cannot be said', () => {
  it.each<readonly [string, readonly Fault[]]>([
    ['no fault', []],
    ['429', [{ kind: '429', retryAfter: 9 }]],
    ['taken without an answer', [{ kind: 'accept-then-drop' }]],
    ['lost', [{ kind: 'drop' }]],
    ['lost twice', [{ kind: 'drop' }, { kind: 'drop' }]],
    ['503 and then taken without an answer', [{ kind: 'status', status: 503 }, { kind: 'accept-then-drop' }]],
  ])('%s: one message stands, with the last step', async (_, faults) => {
    const crew = await crewOnSlack();
    await playOnBoard(crew, () => undefined, '10:06');
    await crew.passTo('10:07');
    for (const fault of faults) crew.slack.fault('chat.postMessage', fault);
    await mustOnBoard(crew, 'duarte', { type: 'start-flush', rig: 'rig-1' });
    // The first words are on their way when the next ones come.
    const underWay = crew.potbell.host.outbox.drain();
    const flush = (await today(crew)).rigs['rig-1']?.flush?.id ?? '';
    for (const step of flushSteps.slice(0, STEPS)) {
      const litres = step.includes('flush') ? { litres: 9.3 } : {};
      await mustOnBoard(crew, 'duarte', { type: 'confirm-step', rig: 'rig-1', flush, step, ...litres });
    }
    await Promise.all([underWay, crew.potbell.host.outbox.drain()]);
    await crew.deliver();
    expect(crew.slack.faultsLeft()).toBe(0);
    expect(await wrongIn(crew)).toEqual([]);
    const steps = crew
      .channel()
      .map(({ blocks }) => /\\"step\\":\\"([a-z-]+)/.exec(JSON.stringify(blocks))?.[1])
      .filter((step) => step !== undefined);
    expect(steps).toEqual([flushSteps[STEPS]]);
    expect(crew.faults).toEqual([]);
    await crew.close();
  });
});

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
