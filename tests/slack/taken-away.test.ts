import { describe, expect, it } from 'vitest';
import { chatSurface } from '../../adapters/chat/deliver.ts';
import type { Sent } from '../../adapters/chat/outcome.ts';
import type { AnyPart } from '../../adapters/chat/platform.ts';
import { loadWords } from '../../adapters/cli/site.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { memberOf } from '../../adapters/slack/people.ts';
import { note } from '../../src/message/build.ts';
import type { ClaimedDelivery } from '../../src/ports.ts';
import { handTimers } from './by-hand.ts';
import { DATE, slackSite } from './crew.ts';

interface WordsPart extends AnyPart {
  readonly words: string;
}

const site = slackSite();
const texts = loadWords(site);
const ok = { kind: 'ok', value: null } as const;

/** A chat that shows one message for each block, and answers removals with what `removals` holds, then with yes. */
function world(removals: Sent<null>[], posts: Sent<null>[] = [], updates: Sent<null>[] = []) {
  const shift = `${site.pack.site.id}:${DATE}`;
  const clock = { now: () => 1_780_898_400_000 };
  const stands = new Map<string, string>();
  const warned: string[] = [];
  let made = 0;
  const surface = chatSurface<WordsPart>(
    {
      surface: 'slack',
      memberOf,
      memory: memorySurfaceMemory(clock),
      clock,
      pack: () => site.pack,
      texts,
      shift: async () => null,
      following: async () => null,
      again: handTimers().again,
      log: {
        info: () => undefined,
        warn: (_facts: object, text: string) => void warned.push(text),
        error: () => undefined,
      },
    },
    {
      title: 'Slack',
      bellsApart: false,
      crewChannel: () => 'C0CREW0001',
      directsAMinute: 40,
      openDirect: async () => ({ kind: 'ok', value: 'D0' }),
      parts: ({ message }) =>
        message.blocks.map((block, at) => ({ thread: at > 0, words: JSON.stringify(block) })),
      async post({ part }) {
        const answer = posts.shift() ?? ok;
        if (answer.kind !== 'ok') return answer;
        made += 1;
        stands.set(`${made}`, part.words);
        return { kind: 'ok', value: { id: `${made}` } };
      },
      async update({ id, part }) {
        const answer = updates.shift() ?? ok;
        if (answer.kind !== 'ok') return answer;
        stands.set(id, part.words);
        return ok;
      },
      async remove({ id }) {
        const answer = removals.shift() ?? ok;
        if (answer.kind === 'ok') stands.delete(id);
        return answer;
      },
      meaning: (code) =>
        code === 'token_revoked' ? 'shut-out' : code === 'message_not_found' ? 'message-lost' : null,
    },
  );
  const delivery = (line: number, lines: readonly string[], possibleRepeat = false): ClaimedDelivery => ({
    id: `${shift}:${line}:0:slack`,
    shift,
    surface: 'slack',
    key: 'batch:1',
    audience: { kind: 'crew' },
    urgency: 'quiet',
    queuedAt: clock.now(),
    attempt: 1,
    possibleRepeat,
    message: { summary: 'Batch', tone: 'plain', blocks: lines.map((text) => note('plain', text)) },
  });
  return { surface, delivery, warned, shown: () => [...stands.values()].join(' ') };
}

describe('what no longer belongs to a message', () => {
  it.each<readonly [string, Sent<null>]>([
    ['429', { kind: 'retry', why: 'wait', afterMs: 9_000 }],
    ['503', { kind: 'unclear', why: 'HTTP 503' }],
    ['a lost call', { kind: 'unclear', why: 'broke' }],
    ['not its turn', { kind: 'later', afterMs: 700 }],
    ['a token that was taken away', { kind: 'gone', why: 'revoked', code: 'token_revoked' }],
  ])('is taken away by another try after %s', async (_, answer) => {
    const { surface, delivery, shown } = world([answer]);
    expect(await surface.deliver(delivery(1, ['one', 'two', 'three']))).toEqual({ kind: 'sent' });
    const shorter = delivery(2, ['new']);
    expect(await surface.deliver(shorter)).toMatchObject({
      kind: 'later',
      ...('afterMs' in answer && { afterMs: answer.afterMs }),
    });
    expect(shown()).toContain('three');
    expect(await surface.deliver(shorter)).toEqual({ kind: 'sent' });
    expect(shown()).toMatch(/new/);
    expect(shown()).not.toMatch(/two|three/);
  });

  it('the same where a message of which somebody deleted a part is said anew, once', async () => {
    const deleted = { kind: 'gone', why: 'deleted', code: 'message_not_found' } as const;
    const { surface, delivery, shown } = world([{ kind: 'unclear', why: 'HTTP 503' }], [], [deleted]);
    await surface.deliver({ ...delivery(1, ['first of the day']), key: 'briefing' });
    await surface.deliver(delivery(2, ['old']));
    const longer = delivery(3, ['new', 'more']);
    expect(await surface.deliver(longer)).toMatchObject({ kind: 'later' });
    expect(await surface.deliver(longer)).toEqual({ kind: 'sent' });
    expect(shown().match(/new/g)).toHaveLength(1);
    expect(shown()).not.toContain('old');
  });

  it('that is gone, or can never go, holds nothing up', async () => {
    const { surface, delivery } = world([{ kind: 'gone', why: 'deleted', code: 'message_not_found' }]);
    await surface.deliver(delivery(1, ['one', 'two']));
    expect(await surface.deliver(delivery(2, ['new']))).toEqual({ kind: 'sent' });
  });
});

describe('what was perhaps said before', () => {
  it('says so, until it is changed: an update repeats nothing', async () => {
    const { surface, delivery, shown } = world([], [{ kind: 'unclear', why: 'broke' }]);
    const first = delivery(1, ['one']);
    await expect(surface.deliver(first)).rejects.toThrow('broke');
    expect(await surface.deliver({ ...first, possibleRepeat: true })).toEqual({ kind: 'sent' });
    expect(shown()).toContain('You may have seen it already');
    // The update was itself interrupted.
    expect(await surface.deliver(delivery(2, ['two'], true))).toEqual({ kind: 'sent' });
    expect(shown()).toContain('two');
    expect(shown()).not.toContain('You may have seen it already');
    expect(shown()).not.toContain('"one"');
  });
});
