import { describe, expect, it } from 'vitest';
import { BETWEEN_OLDER_MS } from '../../adapters/chat/older-rings.ts';
import type { Sent } from '../../adapters/chat/outcome.ts';
import type { ClaimedDelivery } from '../../src/ports.ts';
import { DIRECT, older, type World } from './older-world.ts';

const ONE = 'Call 1 at 09:46: Rig One, start the flush. Rang again at 09:50, below.';
const TWO = 'Call 2 at 09:50: Rig One, start the flush. Rang again at 09:54, below.';
const NEWEST = expect.stringMatching(/^Call 3 since 09:46\. Rig One, .*START THE FLUSH NOW/);

const crews = (all: readonly ClaimedDelivery[]) => all.filter(({ audience }) => audience.kind === 'crew');

async function sayAll(world: World, all: readonly ClaimedDelivery[]): Promise<void> {
  for (const one of all) expect(await world.deliver(one)).toEqual({ kind: 'sent' });
}

/** Rings that are said in the channel alone, without anything else going on. */
async function rings(world: World, count: number): Promise<void> {
  for (let ring = 0; ring < count; ring += 1) await sayAll(world, crews(world.nextRing()));
}

describe('BE12 a ring that was followed by another one', () => {
  it('is one line without buttons, everywhere it stood, and in the language of who reads it there', async () => {
    const world = older();
    for (let ring = 0; ring < 3; ring += 1) {
      await sayAll(world, world.nextRing());
      await world.rest();
    }
    expect(world.openings('crew')).toEqual([ONE, TWO, NEWEST]);
    expect(world.openings(DIRECT)).toEqual([
      '1.ª llamada de las 09:46: Rig One, empezar el lavado. Volvió a sonar a las 09:50, más abajo.',
      '2.ª llamada de las 09:50: Rig One, empezar el lavado. Volvió a sonar a las 09:54, más abajo.',
      expect.stringMatching(/^3\.ª llamada desde las 09:46\..*EMPIECE EL LAVADO AHORA/),
    ]);
    // The foreman was called from the second ring on: which call it was counts, not how many stood there.
    expect(world.openings('direct-finn')).toEqual([TWO, NEWEST]);
    // Only what opens a message is left of the older ones: their further parts are gone.
    for (const place of ['crew', DIRECT, 'direct-finn']) expect(world.buttons(place)).toBe(1);
    expect(world.stands.get('m1')?.text).toBe(ONE);
    expect(world.warned).toEqual([]);
  });

  it('stays one line when the bell is answered: the newest alone says who is on it', async () => {
    const world = older();
    await rings(world, 3);
    await sayAll(world, crews(world.answer()));
    await world.rest();
    expect(world.openings('crew')).toEqual([ONE, TWO, expect.stringContaining('Pia is on it since 09:54.')]);
    expect(world.buttons('crew')).toBe(0);
  });

  it('is one line also where somebody had taken it before it came back', async () => {
    const world = older();
    await rings(world, 1);
    await sayAll(world, crews(world.answer()));
    await rings(world, 1);
    await world.rest();
    expect(world.openings('crew')).toEqual([
      'Call 1 at 09:46: Rig One, start the flush. Rang again at 09:56, below.',
      expect.stringMatching(/^Call 2 since 09:46\./),
    ]);
    expect(world.buttons('crew')).toBe(1);
  });

  it('stays whole until the new one stands whole, whatever breaks off in between', async () => {
    const world = older();
    await rings(world, 1);
    const [next] = crews(world.nextRing());
    if (next === undefined) throw new Error('no ring for the crew');
    world.calls.length = 0;
    world.answers.post.push({ kind: 'retry', why: 'Down.', afterMs: 500 });
    expect(await world.deliver(next)).toEqual({ kind: 'later', afterMs: 500 });
    await world.turn(60_000);
    expect(world.calls).toEqual([]);
    // Its opening is posted, its detail is not.
    world.answers.post.push(null, { kind: 'retry', why: 'Down.', afterMs: 500 });
    expect(await world.deliver(next)).toEqual({ kind: 'later', afterMs: 500 });
    await world.turn(60_000);
    expect(world.calls).toHaveLength(1);
    expect(world.calls[0]).toMatch(/^post/);
    await sayAll(world, [next]);
    await world.rest();
    expect(world.calls.filter((call) => call.startsWith('update'))).toEqual(['update m1']);
    expect(world.calls.findIndex((call) => call.startsWith('update'))).toBeGreaterThan(
      world.calls.findLastIndex((call) => call.startsWith('post')),
    );
  });

  it('says which ring followed it, though a later one asked first to be said', async () => {
    const world = older();
    await rings(world, 1);
    const [second] = crews(world.nextRing());
    const [third] = crews(world.nextRing());
    if (second === undefined || third === undefined) throw new Error('no ring for the crew');
    world.answers.post.push({ kind: 'retry', why: 'Down.', afterMs: 500 });
    await world.deliver(second);
    expect(await world.deliver(third)).toMatchObject({ kind: 'later' });
    await sayAll(world, [second, third]);
    await world.rest();
    expect(world.openings('crew')).toEqual([ONE, TWO, NEWEST]);
  });

  it('is never the newest, though an answer overtakes the ring that was to follow', async () => {
    const world = older();
    await rings(world, 1);
    const [next] = crews(world.nextRing());
    if (next === undefined) throw new Error('no ring for the crew');
    world.answers.post.push({ kind: 'retry', why: 'Down.', afterMs: 500 });
    await world.deliver(next);
    await sayAll(world, crews(world.answer()));
    expect(await world.deliver(next)).toEqual({ kind: 'superseded' });
    await world.rest();
    expect(world.openings('crew')).toEqual([expect.stringContaining('Pia is on it since')]);
    expect(await world.memory.list('yard', 'older:')).toEqual([]);
  });
});

/** The crew has heard the second ring, and somebody who is called alone has not yet. */
async function withOneHeld() {
  const world = older();
  await rings(world, 1);
  const all = world.nextRing();
  await sayAll(world, crews(all));
  const held = all.find(({ audience }) => audience.kind === 'person');
  if (held === undefined) throw new Error('no ring for a person');
  return { world, held };
}

describe('BE12 no bell waits for an older ring', () => {
  it('nothing is changed while a bell waits for its turn, and a moment after', async () => {
    const { world, held } = await withOneHeld();
    world.answers.post.push({ kind: 'retry', why: 'Asked to wait.', afterMs: 20_000 });
    await world.deliver(held);
    await world.turn(BETWEEN_OLDER_MS);
    await world.turn(10_000);
    expect(world.openings('crew')[0]).toMatch(/START THE FLUSH NOW/);
    // Its turn: it is said first.
    await world.turn(8_000);
    world.calls.length = 0;
    await sayAll(world, [held]);
    expect(world.calls[0]).toMatch(/^post/);
    expect(world.calls.some((call) => call.startsWith('update'))).toBe(false);
    await world.rest();
    expect(world.openings('crew')[0]).toBe(ONE);
  });

  it('a bell to somebody who cannot be reached for long holds nothing up', async () => {
    const { world, held } = await withOneHeld();
    for (let tries = 0; tries < 12 && world.openings('crew')[0] !== ONE; tries += 1) {
      world.answers.post.push({ kind: 'retry', why: 'Blocked.', afterMs: 30_000 });
      await world.deliver(held);
      await world.turn(15_000);
      await world.turn(15_000);
    }
    expect(world.openings('crew')[0]).toBe(ONE);
    expect(world.play.now - held.queuedAt).toBeGreaterThan(2 * 60_000);
  });

  it('of sixty at once one is changed every two seconds, so that the news has its share', async () => {
    const world = older();
    const [first] = crews(world.nextRing());
    const [second] = crews(world.nextRing());
    if (first === undefined || second === undefined) throw new Error('no ring for the crew');
    const people = Array.from({ length: 60 }, (_, index) => `hand-${index}`);
    for (const [line, ring] of [first, second].entries())
      await sayAll(
        world,
        people.map((person, index) => ({
          ...ring,
          id: `${ring.shift}:${1_000 * (line + 1)}:${index}:yard`,
          audience: { kind: 'person', person },
        })),
      );
    const began = world.play.now;
    expect(await world.rest()).toBeGreaterThanOrEqual(60);
    expect(world.openings('direct-hand-59')[0]).toBe(ONE);
    expect(world.calls.filter((call) => call.startsWith('update'))).toHaveLength(60);
    expect(world.play.now - began).toBeGreaterThanOrEqual(60 * BETWEEN_OLDER_MS);
    expect(world.play.now - began).toBeLessThan(62 * BETWEEN_OLDER_MS);
  });

  const troubles: readonly (readonly [string, Sent<never>])[] = [
    ['429', { kind: 'retry', why: 'wait', afterMs: 9_000 }],
    ['503', { kind: 'unclear', why: 'HTTP 503' }],
    ['not its turn', { kind: 'later', afterMs: 700 }],
    ['a token that was taken away', { kind: 'gone', why: 'revoked', code: 'out' }],
  ];
  it.each(troubles)(
    'the ring is said once and done with, the change is tried again after %s',
    async (_, trouble) => {
      const world = older();
      await rings(world, 1);
      world.answers.update.push(trouble, trouble);
      world.answers.remove.push(trouble);
      await rings(world, 1);
      await world.rest();
      expect(world.openings('crew')).toEqual([ONE, expect.stringMatching(/^Call 2 since/)]);
      expect(world.buttons('crew')).toBe(1);
      expect(world.answers.remove).toEqual([]);
      expect(world.warned).toEqual([]);
    },
  );

  it('one that cannot be changed is given up with a line in the log, and holds up no other', async () => {
    const world = older();
    await sayAll(world, world.nextRing());
    world.stuck.add('m1');
    await sayAll(world, world.nextRing());
    const began = world.play.now;
    await world.rest(3);
    expect(world.openings(DIRECT)[0]).toMatch(/^1\.ª llamada de las 09:46/);
    expect(world.openings('crew')[0]).toMatch(/START THE FLUSH NOW/);
    expect(world.warned).toEqual([]);
    await world.rest();
    expect(world.warned).toEqual(['an older ring of a bell stays as it is: it could not be changed']);
    expect(world.openings('crew')[0]).toMatch(/START THE FLUSH NOW/);
    expect(await world.memory.list('yard', 'older:')).toEqual([]);
    // Each wait is twice the one before, up to two minutes.
    expect(world.play.now - began).toBeGreaterThan(10 * 60_000);
  });

  it('one that somebody deleted is done with', async () => {
    const world = older();
    await rings(world, 1);
    world.stands.delete('m1');
    await rings(world, 1);
    await world.rest();
    expect(world.buttons('crew')).toBe(1);
    expect(await world.memory.list('yard', 'older:')).toEqual([]);
    expect(world.warned).toEqual([]);
  });
});

describe('BE12 across a restart', () => {
  it('what the process before had not changed yet is changed by the next one, by itself', async () => {
    const world = older();
    await rings(world, 2);
    expect(world.openings('crew')[0]).toMatch(/START THE FLUSH NOW/);
    await world.restart();
    await world.rest();
    expect(world.openings('crew')).toEqual([ONE, expect.stringMatching(/^Call 2 since 09:46\./)]);
  });

  it('a ring that rang before the restart is followed by one after it', async () => {
    const world = older();
    await rings(world, 2);
    await world.rest();
    await world.restart();
    await rings(world, 1);
    await world.rest();
    expect(world.openings('crew')).toEqual([ONE, TWO, NEWEST]);
  });

  it('nothing is changed once it has ended', async () => {
    const world = older();
    await rings(world, 2);
    await world.stop();
    world.calls.length = 0;
    expect(await world.rest()).toBe(0);
    expect(world.calls).toEqual([]);
  });
});
