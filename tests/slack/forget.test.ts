import { expect, it } from 'vitest';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { forgetOld } from '../../adapters/slack/forget.ts';

it('forgets where messages of two months ago stand, and nothing newer, and nobody', async () => {
  const day = 24 * 3_600_000;
  let now = 0;
  const memory = memorySurfaceMemory({ now: () => now });
  const keys = ['said:a', 'thread:a', 'half:a', 'draft:a', 'dm:U1', 'backstop:x'];
  for (const key of keys) await memory.put('slack', key, '1');
  now = 50 * day;
  await memory.put('slack', 'said:b', '1');
  await forgetOld(memory, 60 * day);
  expect(await memory.list('slack', '')).toHaveLength(keys.length + 1);
  await forgetOld(memory, 61 * day);
  expect((await memory.list('slack', '')).map(({ key }) => key)).toEqual(['backstop:x', 'dm:U1', 'said:b']);
});
