import { describe, expect, it } from 'vitest';
import { memoryStore } from '../../adapters/memory/store.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { MORNING, mortal } from '../chats/day.ts';
import type { Fault } from '../peers/slack/types.ts';
import { type Crew, type CrewOptions, crewOnSlack } from './crew.ts';
import { dayOf, mustOnBoard, wrongIn } from './faults.ts';

const updates = (crew: Crew) => crew.slack.callsOf('chat.update').length;

function entryOf(crew: Pick<Crew, 'site'>, airBar: number) {
  const day = dayOf(crew);
  const atWork = day.jobs.flatMap(({ sprayers, mixers }) => [...sprayers, ...mixers]);
  const others = crew.site.pack.people.map(({ id }) => id).filter((id) => !atWork.includes(id));
  return { ...day, others, jobs: day.jobs.map((job) => ({ ...job, airBar })) };
}

const post = (crew: Crew, airBar: number) =>
  mustOnBoard(crew, 'ines', { type: 'post-day', entry: entryOf(crew, airBar) });

/** The foreman changes the pressure again and again: each time everybody has to read and sign anew. */
async function changedFast(crew: Crew, meanwhile: () => Promise<unknown>): Promise<void> {
  for (const airBar of [4.8, 4.6, 4.4, 4.2, 4]) {
    await post(crew, airBar);
    await meanwhile();
  }
}

async function briefed(options: CrewOptions = {}) {
  const crew = await crewOnSlack(options);
  await post(crew, 5);
  await crew.passTo('07:00');
  return crew;
}

describe('what is changed faster than it can be said', () => {
  it('five changes at once cost each message two calls, and what was left out says so', async () => {
    const crew = await briefed();
    const stood = crew.slack.callsOf('chat.postMessage').length;
    const before = updates(crew);
    await changedFast(crew, () => crew.potbell.host.outbox.drain());
    await crew.deliver();
    const made = updates(crew) - before;
    const left = await crew.potbell.store.deliveries({ surface: 'slack', state: 'superseded', limit: 1_000 });
    const people = crew.site.pack.people.length;
    // The first and the last of five, for everybody and for the briefing.
    expect(left).toHaveLength(3 * (people + 1));
    expect(left.every(({ urgency, attempts }) => urgency === 'quiet' && attempts > 0)).toBe(true);
    expect(made).toBeGreaterThan(people);
    // Half a message more or less: one whose turn ends between two parts is begun anew. Five times would be 5 * stood.
    expect(made).toBeLessThan(2.5 * stood);
    expect(await wrongIn(crew)).toEqual([]);
    expect(crew.faults).toEqual([]);
    await crew.close();
  });

  it.each<readonly [string, Fault]>([
    ['429', { kind: '429', retryAfter: 20 }],
    ['503', { kind: 'status', status: 503 }],
    ['a lost call', { kind: 'drop' }],
    ['a call taken without an answer', { kind: 'accept-then-drop' }],
  ])('with %s at each change: the last words stand', async (_, fault) => {
    const crew = await briefed();
    await changedFast(crew, async () => {
      crew.slack.fault('chat.update', fault, 2);
      crew.slack.fault('chat.postMessage', fault);
      crew.pass(1_000);
      await crew.potbell.host.outbox.drain();
    });
    await crew.deliver();
    expect(await wrongIn(crew)).toEqual([]);
    expect(crew.faults).toEqual([]);
    await crew.close();
  });

  it('and the process dies in between: the last words stand', async () => {
    for (const dieAt of [9, 24]) {
      let time = () => MORNING;
      const kept = { store: memoryStore(), memory: memorySurfaceMemory({ now: () => time() }) };
      const before = await briefed(mortal(kept.store, kept.memory));
      time = () => before.slack.clock.now();
      await before.potbell.stop();
      const life = mortal(kept.store, kept.memory, dieAt);
      const first = await crewOnSlack({ ...life, slack: before.slack, at: '07:01' });
      life.begins();
      await changedFast(first, () => first.potbell.host.outbox.drain().catch(() => undefined));
      for (let turns = 0; turns < 60 && !life.isDead(); turns += 1) {
        first.pass(1_000);
        await first.potbell.host.outbox.drain().catch(() => undefined);
      }
      expect(life.isDead()).toBe(true);
      await first.potbell.stop();
      const second = await crewOnSlack({
        ...mortal(kept.store, kept.memory),
        slack: before.slack,
        at: '07:03',
      });
      await second.potbell.store.releaseClaims();
      await second.deliver();
      expect({ dieAt, wrong: await wrongIn(second) }).toEqual({ dieAt, wrong: [] });
      await second.close();
    }
  });
});
