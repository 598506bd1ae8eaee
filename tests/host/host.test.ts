import { describe, expect, test, vi } from 'vitest';
import { steadyClock } from '../../adapters/host/clock.ts';
import { createHealth } from '../../adapters/host/health.ts';
import { hashPin, verifyPin } from '../../adapters/host/pin.ts';
import { createSweep } from '../../adapters/host/sweep.ts';
import { memoryStore } from '../../adapters/memory/store.ts';
import type { Commit, Store } from '../../src/ports.ts';
import { StoreDamaged } from '../../src/ports.ts';
import { person } from '../flow/harness.ts';
import { aDay, t } from '../flow/pack.ts';
import { recordingSurface, World } from '../scenarios/world.ts';

const id = 'weir:2026-05-12';

async function briefedDay(store: Store = memoryStore()) {
  const { surface, shown } = recordingSurface();
  const world = new World(store, [surface], t('06:00'));
  await world.take({ at: world.now, by: person('finn'), command: aDay() }, 'day');
  return { world, shown };
}

describe('bell loop', () => {
  test('BE8 what is due rings, once', async () => {
    const { world, shown } = await briefedDay();
    expect(await world.host.bells.runDue()).toBe(0);
    world.now = t('06:30');
    expect(await world.host.bells.runDue()).toBe(1);
    expect(await world.host.bells.runDue()).toBe(0);
    expect((await world.store.shift(id))?.issuedAt).toBe(t('06:30'));
    await world.host.outbox.drain();
    expect(shown.some(({ key }) => key.startsWith('briefing:'))).toBe(true);
  });

  test('BE3 after a night without Potbell overdue bells ring once and say how late', async () => {
    const { world, shown } = await briefedDay();
    await world.ringUntil(t('06:35'));
    const restarted = new World(world.store, world.surfaces, t('07:05'));
    await restarted.host.bells.runDue();
    await restarted.host.outbox.drain();
    const toPia = shown.filter(
      ({ audience, urgency }) =>
        urgency === 'bell' && audience.kind === 'person' && audience.person === 'pia',
    );
    expect(toPia).toHaveLength(1);
    const words = JSON.stringify(toPia[0]?.message);
    expect(words).toContain('This bell is 25 min late. It should have rung at 06:40.');
    expect(words).toContain('rings missed meanwhile');
  });

  test('one shift that cannot ring does not keep another from ringing, and is tried again', async () => {
    const good = memoryStore();
    const { world } = await briefedDay(good);
    await world.take(
      { at: world.now, by: person('finn'), command: aDay({ date: '2026-05-13' }) },
      'next',
      '2026-05-13',
    );
    let failing = true;
    const store: Store = {
      ...good,
      transact: (shift, decide) =>
        failing && shift === id ? Promise.reject(new Error('disk')) : good.transact(shift, decide),
    };
    const other = new World(store, [], t('06:31', '2026-05-13'));
    await other.host.bells.runDue();
    expect((await good.shift('weir:2026-05-13'))?.issuedAt).toBe(other.now);
    expect((await good.shift(id))?.issuedAt).toBeNull();
    failing = false;
    other.now += 5_000;
    await other.host.bells.runDue();
    expect((await good.shift(id))?.issuedAt).toBe(other.now);
  });

  test('two passes at once are one pass', async () => {
    const { world } = await briefedDay();
    world.now = t('06:30');
    expect(await Promise.all([world.host.bells.runDue(), world.host.bells.runDue()])).toEqual([1, 1]);
    expect(
      (await world.store.journal(id)).filter(({ event }) => event.body.type === 'briefing-issued'),
    ).toHaveLength(1);
  });
});

describe('sweep', () => {
  async function sweepAt(now: number) {
    const { world } = await briefedDay();
    world.now = now;
    const asked: string[] = [];
    const sweep = createSweep({
      store: world.store,
      bells: {
        ...world.host.bells,
        runDue() {
          asked.push('bells');
          return world.host.bells.runDue();
        },
      },
      outbox: { ...world.host.outbox, poke: () => void asked.push('outbox') },
      clock: { now: () => world.now },
      log: { info() {}, warn() {}, error: (_facts, message) => void asked.push(message) },
      handOver: async () => void asked.push('hand-over'),
    });
    await sweep.check();
    await sweep.stop();
    return asked;
  }

  test('a bell that the loop has left undone is rung, and logged as an error', async () => {
    expect(await sweepAt(t('06:30') + 8_000)).toEqual([
      'bells are overdue and the loop has not rung them; ringing now',
      'bells',
      'outbox',
      'hand-over',
    ]);
  });

  test('a bell that has just come due is left to the loop', async () => {
    expect(await sweepAt(t('06:30') + 7_999)).toEqual(['hand-over']);
  });
});

describe('hand-over', () => {
  test('SR4 a forgotten shift gives way an hour after its end, once a later day has been briefed', async () => {
    const { world } = await briefedDay();
    await world.take(
      { at: world.now, by: person('finn'), command: aDay({ date: '2026-05-13' }) },
      'next',
      '2026-05-13',
    );
    expect((await world.host.currentShift())?.id).toBe(id);
    world.now = t('06:31', '2026-05-13');
    await world.host.bells.runDue();
    const { createHandOver } = await import('../../adapters/host/hand-over.ts');
    await createHandOver(world.store, world.host.handle, { now: () => world.now })();
    expect((await world.store.shift(id))?.status).toBe('closed');
    expect((await world.host.currentShift())?.id).toBe('weir:2026-05-13');
    expect((await world.host.previousShift())?.id).toBe(id);
  });
});

describe('faults not yet mended', () => {
  test('SR4 a shift with paint that is still going off is not handed over', async () => {
    const { world } = await briefedDay();
    const next = { at: world.now, by: person('finn'), command: aDay({ date: '2026-05-13' }) };
    await world.take(next, 'next', '2026-05-13');
    world.now = t('06:20', '2026-05-13');
    const command = {
      type: 'mix-batch',
      rig: 'rig-1',
      coating: 'epoxy',
      litres: 20,
      paintC: 20,
      pot: 'fresh',
    } as const;
    await world.take({ at: world.now, by: person('max'), command }, 'mix');
    world.now = t('06:31', '2026-05-13');
    await world.host.bells.runDue();
    const { createHandOver } = await import('../../adapters/host/hand-over.ts');
    await createHandOver(world.store, world.host.handle, { now: () => world.now })();
    expect((await world.store.shift(id))?.status).toBe('open');
  });

  test('one damaged journal does not keep Potbell from starting its loops', async () => {
    const damaged = new StoreDamaged('x', { shift: 'a', what: 'journal' });
    const world = new World({ ...memoryStore(), due: () => Promise.reject(damaged) }, [], t('06:00'));
    await expect(world.host.start()).resolves.toBeUndefined();
    await world.host.stop();
  });

  test('a pass that never returns does not stop the sweep from ringing', async () => {
    vi.useFakeTimers();
    const { world } = await briefedDay();
    const store: Store = { ...world.store, transact: () => new Promise(() => {}) };
    const hung = new World(store, [], t('06:31'));
    void hung.host.bells.runDue();
    let answered = false;
    void hung.host.bells.runDue().then(() => {
      answered = true;
    });
    await vi.advanceTimersByTimeAsync(120_000);
    vi.useRealTimers();
    expect(answered).toBe(true);
  });
});

describe('a damaged store', () => {
  test('EN1 a state that cannot be rebuilt is a clear answer, not a throw', async () => {
    const damaged = (what: 'snapshot' | 'journal') =>
      new StoreDamaged(`the ${what} of ${id} is not what was written`, { shift: id, what });
    const store: Store = {
      ...memoryStore(),
      transact: () => Promise.reject(damaged('snapshot')),
      repairSnapshot: () => Promise.reject(damaged('journal')),
    };
    const world = new World(store, [], t('06:00'));
    const done = await world.host.handle({
      shift: id,
      command: { type: 'stop-work', text: '' },
      actor: person('pia'),
      commandId: 'x',
    });
    expect(done).toMatchObject({
      ok: false,
      shown: { summary: expect.stringContaining('Potbell cannot read this shift') },
    });
    expect(world.log.some(({ level }) => level === 'error')).toBe(true);
  });

  test('a damaged state is rebuilt from its journal and the press goes through', async () => {
    const good = memoryStore();
    await briefedDay(good);
    let broken = true;
    const store: Store = {
      ...good,
      transact: (shift, decide) =>
        broken
          ? Promise.reject(new StoreDamaged('x', { shift, what: 'snapshot' }))
          : good.transact(shift, decide),
      async repairSnapshot(shift, replay) {
        await good.repairSnapshot(shift, replay);
        broken = false;
      },
    };
    const world = new World(store, [], t('06:10'));
    const done = await world.host.handle({
      shift: id,
      command: { type: 'stop-work', text: '' },
      actor: person('pia'),
      commandId: 'x',
    });
    expect(done.ok).toBe(true);
  });
});

describe('health', () => {
  const at = (store: Store, now: number, standing: readonly string[] = []) =>
    createHealth(store, { now: () => now }, () => standing)();

  test('green when nothing is overdue and nothing is stuck', async () => {
    const { world } = await briefedDay();
    expect(await at(world.store, t('06:29'))).toEqual({ ok: true, problems: [] });
  });

  test('red when a bell is overdue', async () => {
    const { world } = await briefedDay();
    expect(await at(world.store, t('06:30') + 20_000)).toEqual({
      ok: false,
      problems: [`A bell of ${id} is 20 s overdue.`],
    });
  });

  test('red when a message is stuck', async () => {
    const { world } = await briefedDay();
    await world.take({ at: world.now, by: person('pia'), command: { type: 'stop-work', text: '' } }, 'stop');
    expect((await at(world.store, world.now + 60_000)).ok).toBe(true);
    expect((await at(world.store, world.now + 61_000)).problems).toEqual([
      'A message has been waiting for 61 s.',
    ]);
  });

  test('red for damage found at start, and when the store does not answer', async () => {
    expect((await at(memoryStore(), 0, ['line 3 of the journal'])).problems).toEqual([
      'line 3 of the journal',
    ]);
    const closed = memoryStore();
    await closed.close();
    expect((await at(closed, 0)).problems[0]).toContain('The store does not answer');
  });
});

describe('steady clock', () => {
  function clocked() {
    const world = { wall: 1_000_000_000, monotonic: 500 };
    const said: string[] = [];
    const say = (_facts: object, message: string) => void said.push(message);
    const clock = steadyClock(
      { info: say, warn: say, error: say },
      () => world.wall,
      () => world.monotonic,
    );
    const pass = (ms: number) => {
      world.wall += ms;
      world.monotonic += ms;
    };
    return { world, said, clock, pass };
  }

  test('it goes with the wall clock', () => {
    const { clock, pass, said } = clocked();
    pass(90_000);
    expect(clock.now()).toBe(1_000_090_000);
    expect(said).toEqual([]);
  });

  test('set back, it goes on by elapsed time and is said once', () => {
    const { clock, pass, world, said } = clocked();
    world.wall -= 3_600_000;
    expect(clock.now()).toBe(1_000_000_000);
    pass(60_000);
    expect(clock.now()).toBe(1_000_060_000);
    expect(said).toHaveLength(1);
  });

  test('set forward, it follows and says so', () => {
    const { clock, world, said } = clocked();
    world.wall += 3_600_000;
    expect(clock.now()).toBe(1_003_600_000);
    expect(said).toHaveLength(1);
  });

  test('a small step back is waited out, never gone back', () => {
    const { clock, pass, world, said } = clocked();
    pass(1_000);
    const before = clock.now();
    world.wall -= 400;
    expect(clock.now()).toBe(before);
    pass(500);
    expect(clock.now()).toBe(before + 100);
    expect(said).toEqual([]);
  });
});

describe('PINs', () => {
  test('the right PIN is right and another is not', async () => {
    const line = await hashPin('4071');
    expect(line).toMatch(/^scrypt:16384:8:1:[\w-]{22}:[\w-]{43}$/);
    expect(line).not.toContain('4071');
    expect(await verifyPin('4071', line)).toBe(true);
    expect(await verifyPin('4072', line)).toBe(false);
    expect(await verifyPin('', line)).toBe(false);
  });

  test('the same PIN twice makes two lines', async () => {
    expect(await hashPin('4071')).not.toBe(await hashPin('4071'));
  });

  test('a known line verifies (RFC 7914, section 12: "pleaseletmein", "SodiumChloride", first 32 bytes)', async () => {
    const salt = Buffer.from('SodiumChloride').toString('base64url');
    const key = Buffer.from(
      '7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2',
      'hex',
    ).toString('base64url');
    expect(await verifyPin('pleaseletmein', `scrypt:16384:8:1:${salt}:${key}`)).toBe(true);
  });

  test.each(['', '4071', 'bcrypt:1:2:3:aa:bb', 'scrypt:16384:8:1::'])(
    'the stored line "%s" is refused with a throw',
    async (line) => {
      await expect(verifyPin('4071', line)).rejects.toThrow('scrypt:N:r:p:salt:hash');
    },
  );
});

test('EN2 a commit that a store refuses tells nobody', async () => {
  const good = memoryStore();
  const store: Store = {
    ...good,
    transact: (shift, decide) =>
      good.transact(shift, (loaded) => {
        const decided = decide(loaded);
        return { ...decided, commit: decided.commit && ({ ...decided.commit, events: [] } as Commit) };
      }),
  };
  const { surface, shown } = recordingSurface();
  const world = new World(store, [surface], t('06:40'));
  await expect(world.take({ at: world.now, by: person('finn'), command: aDay() }, 'day')).rejects.toThrow(
    'Nothing was written',
  );
  await world.host.outbox.drain();
  expect(shown).toEqual([]);
});
