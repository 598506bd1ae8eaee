import { beforeEach, describe, expect, it } from 'vitest';
import { chatSurface } from '../../adapters/chat/deliver.ts';
import type { Sent } from '../../adapters/chat/outcome.ts';
import type { Platform, Post } from '../../adapters/chat/platform.ts';
import type { Said } from '../../adapters/chat/said.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { posted } from '../flow/harness.ts';
import { aPack } from '../flow/pack.ts';
import { textsIn } from './site.ts';

/** A platform of no kind: a message is one part, another one under it for its blocks. */
interface Part {
  readonly text: string;
  readonly thread: boolean;
}

const SHIFT = 'span-2:2026-06-08';
const pack = aPack();
const person = pack.people[0]?.id ?? '';
const clock = { now: () => 1_780_898_400_000 };

let calls: string[];
let posts: Post<Part>[];
let refusals: Sent<never>[];
let memory: ReturnType<typeof memorySurfaceMemory>;
let hasChannel: boolean;
beforeEach(() => {
  calls = [];
  posts = [];
  refusals = [];
  memory = memorySurfaceMemory(clock);
  hasChannel = true;
});

const platform: Platform<Part> = {
  title: 'Yard',
  bellsApart: false,
  crewChannel: () => (hasChannel ? 'crew' : null),
  directsAMinute: 2,
  async openDirect(member) {
    calls.push(`open ${member}`);
    return { kind: 'ok', value: `direct-${member}` };
  },
  parts: ({ message }, _texts, calls) => [
    { text: `${calls ? 'ALL ' : ''}${message.summary}`, thread: false },
    ...message.blocks.map(({ kind }) => ({ text: kind, thread: true })),
  ],
  async post(message) {
    const refused = refusals.shift();
    if (refused) return refused;
    posts.push(message);
    calls.push(
      `post ${message.channel} ${message.part.text}${message.under ? ` under ${message.under}` : ''}`,
    );
    return { kind: 'ok', value: { id: `m${posts.length}` } };
  },
  async update({ id, part }) {
    const refused = refusals.shift();
    if (refused) return refused;
    calls.push(`update ${id} ${part.text}`);
    return { kind: 'ok', value: null };
  },
  async remove({ id }) {
    calls.push(`remove ${id}`);
    return { kind: 'ok', value: null };
  },
  meaning: (code) =>
    code === 'lost' ? 'message-lost' : code === 'root' ? 'thread-lost' : code === 'out' ? 'shut-out' : null,
};

const surface = () =>
  chatSurface(
    {
      surface: 'yard',
      memberOf: (_pack, id) => (id === person ? 'M1' : null),
      memory,
      clock,
      pack: () => pack,
      texts: () => textsIn('en'),
      shift: async () => null,
      log: { info: () => undefined, warn: () => undefined, error: () => undefined },
    },
    platform,
  );

const said = (line: number, summary: string, more: Partial<Said> = {}): Said => ({
  id: `${SHIFT}:${line}:0:yard`,
  shift: SHIFT,
  key: 'hello',
  audience: { kind: 'crew' },
  urgency: 'quiet',
  message: { summary, tone: 'plain', blocks: [{ kind: 'divider' }] },
  possibleRepeat: false,
  ...more,
});

const gone = (code: string): Sent<never> => ({ kind: 'gone', code, why: `No (${code}).` });

describe('a chat of any platform', () => {
  it('has the name it is given, and what it remembers stands under that name', async () => {
    const yard = surface();
    expect(yard.name).toBe('yard');
    expect(await yard.put(said(1, 'One'))).toEqual({ kind: 'sent' });
    expect(calls).toEqual(['post crew One', 'post crew divider under m1']);
    expect(
      (await memory.list('yard', `said:${SHIFT}:crew:hello`)).map(({ value }) => JSON.parse(value)),
    ).toEqual([
      {
        channel: 'crew',
        parts: [
          { ts: 'm1', thread: false },
          { ts: 'm2', thread: true },
        ],
        order: [1, 0],
      },
    ]);
    expect(await memory.get('yard', `thread:${SHIFT}`)).toBe('m1');
    expect(await memory.list('slack', '')).toEqual([]);
  });

  it('changes what stands, says it anew when it is lost, and puts nothing older over it', async () => {
    const yard = surface();
    await yard.put(said(1, 'One', { key: 'root' }));
    await yard.put(said(2, 'Two'));
    calls.length = 0;
    await yard.put(said(4, 'Four'));
    expect(calls).toEqual(['update m3 Four', 'update m4 divider']);
    calls.length = 0;
    expect(await yard.put(said(3, 'Three'))).toEqual({ kind: 'sent' });
    expect(calls).toEqual([]);
    refusals = [gone('lost')];
    await yard.put(said(5, 'Five'));
    expect(calls).toEqual([
      'post crew Five under m1',
      'post crew divider under m1',
      'remove m4',
      'remove m3',
    ]);
  });

  it('calls everybody at the first ring of a bell only, in the channel as well as in the thread', async () => {
    const yard = surface();
    await yard.put(said(1, 'Day', { key: 'day' }));
    await yard.put(said(2, 'Ring', { key: 'bell', urgency: 'bell' }));
    await yard.put(said(3, 'Ring', { key: 'bell', urgency: 'bell' }));
    expect(posts.map(({ part, broadcast }) => [part.text, broadcast === true])).toEqual([
      ['Day', false],
      ['divider', false],
      ['ALL Ring', true],
      ['divider', false],
      ['Ring', true],
      ['divider', false],
    ]);
  });

  it('begins a new thread when the old one is lost', async () => {
    const yard = surface();
    await yard.put(said(1, 'Day', { key: 'day' }));
    refusals = [gone('root')];
    expect(await yard.put(said(2, 'Two'))).toMatchObject({ kind: 'retry' });
    calls.length = 0;
    expect(await yard.put(said(2, 'Two', { possibleRepeat: true }))).toEqual({ kind: 'sent' });
    expect(calls).toEqual(['post crew Two', 'post crew divider under m3']);
    expect(posts.at(-2)?.lookFirst).toBe(true);
  });

  it('keeps trying while it is shut out, and fails with the reason when it is refused', async () => {
    const yard = surface();
    refusals = [gone('out'), gone('other')];
    expect(await yard.put(said(1, 'One'))).toEqual({ kind: 'retry', why: 'No (out).' });
    expect(await yard.put(said(1, 'One'))).toEqual({ kind: 'failed', why: 'No (other).' });
  });

  it('says in words who cannot be reached, by the name of the platform', async () => {
    const yard = surface();
    const shift = posted().state;
    const unlinked = { kind: 'person', person: 'nobody' } as const;
    expect(yard.reaches(unlinked, shift)).toBe(false);
    expect(await yard.put(said(1, 'One', { audience: unlinked }))).toEqual({
      kind: 'failed',
      why: 'nobody has no Yard member id in people.yaml',
    });
    hasChannel = false;
    expect(yard.reaches({ kind: 'crew' }, shift)).toBe(false);
    expect(await yard.put(said(1, 'One'))).toEqual({
      kind: 'failed',
      why: 'the site has no Yard channel for its crew',
    });
  });

  it('opens a direct conversation once for ever', async () => {
    const one = { kind: 'person', person } as const;
    await surface().put(said(1, 'One', { audience: one }));
    await surface().put(said(2, 'Two', { audience: one, key: 'other' }));
    expect(calls.filter((call) => call.startsWith('open'))).toEqual(['open M1']);
    expect(await memory.get('yard', 'dm:M1')).toBe('direct-M1');
  });
});
