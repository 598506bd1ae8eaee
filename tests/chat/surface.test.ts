import { beforeEach, describe, expect, it } from 'vitest';
import { chatSurface } from '../../adapters/chat/deliver.ts';
import type { Sent } from '../../adapters/chat/outcome.ts';
import type { Platform, Post } from '../../adapters/chat/platform.ts';
import type { Said } from '../../adapters/chat/said.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { posted } from '../flow/harness.ts';
import { aPack } from '../flow/pack.ts';
import { handTimers } from '../slack/by-hand.ts';
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

const surface = (on = platform) =>
  chatSurface(
    {
      surface: 'yard',
      memberOf: (_pack, id) => (id === person ? 'M1' : null),
      memory,
      clock,
      pack: () => pack,
      texts: () => textsIn('en'),
      shift: async () => null,
      following: async () => null,
      again: handTimers().again,
      log: { info: () => undefined, warn: () => undefined, error: () => undefined },
    },
    on,
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
          { ts: 'm1', thread: false, says: expect.any(String) },
          { ts: 'm2', thread: true, says: expect.any(String) },
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
    expect(calls).toEqual(['update m3 Four']);
    calls.length = 0;
    expect(await yard.put(said(3, 'Three'))).toEqual({ kind: 'superseded' });
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

  it('lets the newest of several that wait go on, though older ones ask first each time', async () => {
    const yard = surface();
    const ring = (line: number) => said(line, `Ring ${line}`, { key: 'bell', urgency: 'bell' });
    refusals = [{ kind: 'retry', why: 'Down.' }];
    await yard.put(ring(8));
    const both = await Promise.all([yard.put(ring(5)), yard.put(ring(8))]);
    expect(both).toEqual([{ kind: 'later', afterMs: 1_000 }, { kind: 'sent' }]);
    expect(await yard.put(ring(5))).toEqual({ kind: 'superseded' });
    expect(posts.map(({ part }) => part.text)).toEqual(['ALL Ring 8', 'divider']);
  });

  it('leaves parts alone that say the same, adds what is new and takes away what is no more', async () => {
    const yard = surface();
    const blocks = (...kinds: readonly ('divider' | 'heading')[]): Said['message']['blocks'] =>
      kinds.map((kind) => (kind === 'divider' ? { kind } : { kind, text: 'Plan' }));
    const day = (line: number, summary: string, inside: Said['message']['blocks']) =>
      yard.put(said(line, summary, { message: { summary, tone: 'plain', blocks: inside } }));
    await day(1, 'Revision 1', blocks('divider', 'divider'));
    calls.length = 0;
    await day(2, 'Revision 2', blocks('divider', 'heading', 'divider'));
    expect(calls).toEqual(['update m1 Revision 2', 'update m3 heading', 'post crew divider under m1']);
    calls.length = 0;
    await day(3, 'Revision 3', blocks('divider'));
    expect(calls).toEqual(['update m1 Revision 3', 'remove m4', 'remove m3']);
    calls.length = 0;
    await day(4, 'Revision 3', blocks('divider'));
    expect(calls).toEqual([]);
  });

  it('adds what is new once, though adding breaks off', async () => {
    const yard = surface();
    const day = (line: number, ...more: Said['message']['blocks'][number][]) =>
      yard.put(
        said(line, `Day ${line}`, { message: { summary: `Day ${line}`, tone: 'plain', blocks: more } }),
      );
    await day(1);
    const two = [{ kind: 'divider' }, { kind: 'divider' }] as const;
    // The first update is taken, the second new part is not.
    const post = platform.post;
    let turns = 0;
    const breaking = {
      ...platform,
      post: async (message: Post<Part>) => (++turns === 2 ? gone('out') : post(message)),
    };
    const broken = surface(breaking);
    expect(
      await broken.put(said(2, 'Day 2', { message: { summary: 'Day 2', tone: 'plain', blocks: two } })),
    ).toMatchObject({
      kind: 'retry',
    });
    expect(await day(2, ...two)).toEqual({ kind: 'sent' });
    expect(calls.filter((call) => call.startsWith('post'))).toEqual([
      'post crew Day 1',
      'post crew divider under m1',
      'post crew divider under m1',
    ]);
    expect(calls.filter((call) => call.startsWith('remove'))).toEqual([]);
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
    expect(calls).toEqual(['post crew Two', 'post crew divider under m3', 'post crew note under m3']);
    expect(posts.at(-3)?.lookFirst).toBe(true);
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
