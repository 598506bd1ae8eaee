import { expect, it } from 'vitest';
import { forgetOld } from '../../adapters/chat/forget.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { crewOnSlack } from './crew.ts';
import { dayOf, mustOnBoard } from './faults.ts';

const day = 24 * 3_600_000;
const keys = ['said:a', 'thread:a', 'half:a', 'draft:a', 'dm:U1', 'backstop:x'];
const keysOf = async (memory: ReturnType<typeof memorySurfaceMemory>, surface: string) =>
  (await memory.list(surface, '')).map(({ key }) => key);

it('forgets where messages of two months ago stand, and nothing newer, and nobody, and no other chat', async () => {
  let now = 0;
  const memory = memorySurfaceMemory({ now: () => now });
  for (const key of keys) for (const surface of ['slack', 'teams']) await memory.put(surface, key, '1');
  now = 50 * day;
  await memory.put('slack', 'said:b', '1');
  await forgetOld(memory, 'slack', 60 * day);
  expect(await keysOf(memory, 'slack')).toHaveLength(keys.length + 1);
  await forgetOld(memory, 'slack', 61 * day);
  expect(await keysOf(memory, 'slack')).toEqual(['backstop:x', 'dm:U1', 'said:b']);
  expect(await keysOf(memory, 'teams')).toHaveLength(keys.length);
});

it('is done when Potbell starts', async () => {
  const memory = memorySurfaceMemory({ now: () => 0 });
  await memory.put('slack', 'said:old', '1');
  await memory.put('slack', 'dm:U1', '"D1"');
  const crew = await crewOnSlack({ memory });
  await crew.close();
  expect(await keysOf(memory, 'slack')).toEqual(['dm:U1']);
});

it('is done again with the first commit a day later, not with each', async () => {
  const memory = memorySurfaceMemory({ now: () => 0 });
  const crew = await crewOnSlack({ memory });
  await memory.put('slack', 'said:old', '1');
  await mustOnBoard(crew, 'ines', { type: 'post-day', entry: dayOf(crew) });
  const isKept = async () => (await keysOf(memory, 'slack')).includes('said:old');
  expect(await isKept()).toBe(true);
  crew.pass(day);
  await mustOnBoard(crew, 'ines', { type: 'take-reading', airC: 16, rhPct: 70, steelC: 16, place: 'Span 2' });
  expect(await isKept()).toBe(false);
  await crew.close();
});
