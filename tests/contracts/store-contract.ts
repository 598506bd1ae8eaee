import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { genesis, verifyChain } from '../../adapters/host/chain.ts';
import type { Delivery, Store } from '../../src/ports.ts';
import { aCommit, aDelivery, anEvent, aShift, MIN, put, start, T0 } from './fixtures.ts';

/** What every store promises; `make` gives an empty one. */
export function storeContract(name: string, make: () => Promise<Store> | Store): void {
  describe(`store contract: ${name}`, () => {
    let store: Store;
    beforeEach(async () => {
      store = await make();
    });
    afterEach(() => store.close());

    describe('transact', () => {
      test('a shift that is not there is loaded as null', async () => {
        const loaded = await store.transact('a', (found) => ({ commit: null, answer: found }));
        expect(loaded.shift).toBeNull();
        expect(loaded.head).toBeNull();
        expect(await store.shift('a')).toBeNull();
        expect(await store.journal('a')).toEqual([]);
        expect(await store.shifts()).toEqual([]);
      });

      test('gives back the answer and keeps events, state, deliveries and next bell', async () => {
        const commit = aCommit('a', 1, 2, { nextBell: T0 + MIN, deliveries: [aDelivery('a', '1')] });
        expect(await store.transact('a', () => ({ commit, answer: 42 }))).toBe(42);
        expect(await store.shift('a')).toEqual(commit.shift);
        const journal = await store.journal('a');
        expect(journal.map((line) => line.event)).toEqual(commit.events);
        expect(journal[0]?.previous).toBe(genesis('a'));
        expect(verifyChain('a', journal)).toEqual({ ok: true, head: journal[1]?.hash });
        expect(await store.shifts()).toEqual([
          { id: 'a', date: '2026-03-09', status: 'open', head: journal[1]?.hash, nextBell: T0 + MIN },
        ]);
        expect(await store.deliveries({ limit: 10 })).toEqual([
          { ...aDelivery('a', '1'), state: 'queued', attempts: 0, settledAt: null, lastError: null },
        ]);
      });

      test('the next one finds the state and the head the one before left, and chains to it', async () => {
        await start(store, 'a');
        const head = (await store.journal('a')).at(-1)?.hash;
        const found = await store.transact('a', (loaded) => ({ commit: aCommit('a', 2, 3), answer: loaded }));
        expect(found.shift).toEqual(aShift('a', 1));
        expect(found.head).toBe(head);
        const journal = await store.journal('a');
        expect(journal[1]?.previous).toBe(head);
        expect(verifyChain('a', journal)).toMatchObject({ ok: true });
      });

      test('a throw while deciding writes nothing and comes out as it is', async () => {
        await start(store, 'a');
        const thrown = new Error('decided badly');
        await expect(
          store.transact('a', () => {
            throw thrown;
          }),
        ).rejects.toBe(thrown);
        expect(await store.shift('a')).toEqual(aShift('a', 1));
        await start(store, 'b');
      });

      test('a delivery that cannot be kept takes the events, the state and the bell back with it', async () => {
        await start(store, 'a', { nextBell: T0 });
        const bad = aDelivery('a', 'bad', { queuedAt: Number.NaN });
        const commit = aCommit('a', 2, 2, { deliveries: [aDelivery('a', 'good'), bad], nextBell: T0 + MIN });
        await expect(put(store, commit)).rejects.toThrow(/NaN at \$\.queuedAt/);
        expect(await store.shift('a')).toEqual(aShift('a', 1));
        expect(await store.journal('a')).toHaveLength(1);
        expect(await store.deliveries({ limit: 10 })).toEqual([]);
        expect(await store.earliestBell()).toBe(T0);
        await put(store, aCommit('a', 2, 2));
      });

      test('an event that cannot be kept writes nothing either', async () => {
        const event = { ...anEvent(1), at: Number.POSITIVE_INFINITY };
        await expect(put(store, aCommit('a', 1, 1, { events: [event] }))).rejects.toThrow(
          /Infinity at \$\.at/,
        );
        expect(await store.shift('a')).toBeNull();
      });

      test('no commit, nothing written', async () => {
        await start(store, 'a', { nextBell: T0 });
        expect(await store.transact('a', () => ({ commit: null, answer: 'no' }))).toBe('no');
        expect(await store.journal('a')).toHaveLength(1);
        expect(await store.earliestBell()).toBe(T0);
      });

      test('a command is seen in its own shift only, also when its id holds half an emoji', async () => {
        const half = 'press \ud83d';
        await put(store, aCommit('a', 1, 2, { events: [anEvent(1, 'press-1'), anEvent(2, half)] }));
        await start(store, 'b');
        const seen = (shift: string, id: string) =>
          store.transact(shift, (loaded) => ({ commit: null, answer: loaded.seen(id) }));
        expect(await seen('a', 'press-1')).toBe(true);
        expect(await seen('a', half)).toBe(true);
        expect(await seen('a', 'press-2')).toBe(false);
        expect(await seen('b', 'press-1')).toBe(false);
        expect((await store.journal('a'))[1]?.event.commandId).toBe(half);
      });

      test('a transaction inside a transaction is refused', async () => {
        let inner: Promise<unknown> = Promise.resolve();
        await store.transact('a', () => {
          inner = store.transact('b', () => ({ commit: aCommit('b', 1, 1), answer: null }));
          inner.catch(() => {});
          return { commit: aCommit('a', 1, 1), answer: null };
        });
        await expect(inner).rejects.toThrow(/inside another/);
        expect((await store.shifts()).map(({ id }) => id)).toEqual(['a']);
      });

      test.each([
        ['a gap', aCommit('a', 3, 3), /line 3 cannot follow line 1/],
        ['a line twice', aCommit('a', 1, 1), /line 1 cannot follow line 1/],
        [
          'a gap inside',
          aCommit('a', 2, 4, { events: [anEvent(2), anEvent(4)] }),
          /line 4 cannot follow line 2/,
        ],
        [
          'a state ahead of the journal',
          aCommit('a', 2, 2, { shift: aShift('a', 3) }),
          /the state says line 3/,
        ],
        ['a state of another shift', aCommit('a', 2, 2, { shift: aShift('b', 2) }), /it carries shift "b"/],
        ['a bell at no time', aCommit('a', 2, 2, { nextBell: Number.NaN }), /next bell is NaN/],
        [
          'a delivery of another shift',
          aCommit('a', 2, 2, { deliveries: [aDelivery('b', '1')] }),
          /delivery "b:1" belongs to shift "b"/,
        ],
      ])('%s in a commit is refused and nothing is written', async (_, commit, why) => {
        await start(store, 'a');
        await expect(store.transact('a', () => ({ commit, answer: null }))).rejects.toThrow(why);
        expect(await store.journal('a')).toHaveLength(1);
        expect(await store.shift('a')).toEqual(aShift('a', 1));
        expect(await store.deliveries({ limit: 10 })).toEqual([]);
      });

      test('a new shift begins with line 1', async () => {
        await expect(start(store, 'a', { events: [anEvent(2)], shift: aShift('a', 2) })).rejects.toThrow(
          /line 2/,
        );
        await expect(start(store, 'a', { events: [], shift: aShift('a', 0) })).rejects.toThrow(
          /at least one/,
        );
      });
    });

    describe('what is kept is nobody else’s', () => {
      test('what is given back can be changed without changing the store', async () => {
        await start(store, 'a', { deliveries: [aDelivery('a', '1')] });
        const spoil = (value: unknown) =>
          Object.assign(value as object, { id: 'spoilt', seq: 99, message: null });
        spoil(await store.shift('a'));
        spoil((await store.journal('a'))[0]?.event);
        spoil((await store.deliveries({ limit: 1 }))[0]);
        spoil(await store.transact('a', ({ shift }) => ({ commit: null, answer: shift })));
        expect(await store.shift('a')).toEqual(aShift('a', 1));
        expect((await store.journal('a'))[0]?.event).toEqual(anEvent(1));
        expect(await store.claim(T0, 1, MIN)).toMatchObject([aDelivery('a', '1')]);
      });

      test('what was handed in can be changed afterwards', async () => {
        const commit = aCommit('a', 1, 1, { deliveries: [aDelivery('a', '1')] });
        await put(store, commit);
        Object.assign(commit.shift, { date: 'spoilt' });
        Object.assign(commit.events[0] as object, { at: 0 });
        Object.assign(commit.deliveries[0] as object, { key: 'spoilt' });
        expect(await store.shift('a')).toEqual(aShift('a', 1));
        expect((await store.journal('a'))[0]?.event).toEqual(anEvent(1));
        expect((await store.deliveries({ limit: 1 }))[0]).toMatchObject(aDelivery('a', '1'));
      });

      test('words come back letter by letter', async () => {
        const note = 'ß 漆 🎨 \u0000 \u2028 half \ud83d "quoted" <b>';
        await start(store, 'a', { shift: aShift('a', 1, { note }), events: [anEvent(1, 'c', note)] });
        expect(await store.shift('a')).toMatchObject({ note });
        expect((await store.journal('a'))[0]?.event.body).toMatchObject({ text: note });
      });
    });

    describe('bells', () => {
      test('due ones are those of open shifts at or before now, earliest first', async () => {
        await start(store, 'later', { nextBell: T0 + 2 });
        await start(store, 'now', { nextBell: T0 });
        await start(store, 'before', { nextBell: T0 - 0.5 });
        await start(store, 'none', { nextBell: null });
        await start(store, 'closed', { nextBell: T0 - 9, shift: aShift('closed', 1, { status: 'closed' }) });
        expect(await store.due(T0)).toEqual([
          { shift: 'before', at: T0 - 0.5 },
          { shift: 'now', at: T0 },
        ]);
        expect(await store.due(T0 - 1)).toEqual([]);
        expect(await store.earliestBell()).toBe(T0 - 0.5);
      });

      test('follow each commit, both ways and off', async () => {
        expect(await store.earliestBell()).toBeNull();
        await start(store, 'a', { nextBell: T0 });
        await put(store, aCommit('a', 2, 2, { nextBell: T0 + MIN }));
        expect(await store.due(T0)).toEqual([]);
        await put(store, aCommit('a', 3, 3, { nextBell: T0 - MIN }));
        expect(await store.due(T0)).toEqual([{ shift: 'a', at: T0 - MIN }]);
        await put(store, aCommit('a', 4, 4, { nextBell: null }));
        expect(await store.due(T0 + 999 * MIN)).toEqual([]);
        expect(await store.earliestBell()).toBeNull();
      });

      test('a bell can be moved without a journal line', async () => {
        await start(store, 'a', { nextBell: T0 });
        await put(store, aCommit('a', 1, 1, { events: [], nextBell: T0 + MIN }));
        expect(await store.earliestBell()).toBe(T0 + MIN);
        expect(await store.journal('a')).toHaveLength(1);
      });

      test('shifts are listed newest date first', async () => {
        await start(store, 'b', { shift: aShift('b', 1, { date: '2026-03-09' }) });
        await start(store, 'c', { shift: aShift('c', 1, { date: '2026-03-10', status: 'closed' }) });
        await start(store, 'a', { shift: aShift('a', 1, { date: '2026-03-09' }) });
        expect((await store.shifts()).map(({ id, status }) => [id, status])).toEqual([
          ['c', 'closed'],
          ['a', 'open'],
          ['b', 'open'],
        ]);
      });
    });

    describe('outbox', () => {
      const queue = (...deliveries: Delivery[]) => start(store, 'a', { deliveries });
      const ids = (found: readonly Delivery[]) => found.map(({ id }) => id);

      test('bells before quiet ones, each in the order of queueing, up to the limit', async () => {
        const bell = { urgency: 'bell' } as const;
        await queue(
          aDelivery('a', 'q1'),
          aDelivery('a', 'b1', bell),
          aDelivery('a', 'q2'),
          aDelivery('a', 'b2', bell),
        );
        expect(ids(await store.claim(T0, 3, MIN))).toEqual(['a:b1', 'a:b2', 'a:q1']);
        expect(ids(await store.claim(T0, 3, MIN))).toEqual(['a:q2']);
        expect(await store.claim(T0, 3, MIN)).toEqual([]);
      });

      test('a limit of nothing takes nothing', async () => {
        await queue(aDelivery('a', '1'));
        expect(await store.claim(T0, 0, MIN)).toEqual([]);
        expect(await store.deliveries({ limit: 9 })).toMatchObject([{ state: 'queued', attempts: 0 }]);
      });

      test('the same id is queued once, whatever came of the first', async () => {
        await queue(aDelivery('a', '1'), aDelivery('a', '1'));
        const [first] = await store.claim(T0, 9, MIN);
        await store.settle('a:1', first?.attempt ?? 0, { kind: 'sent' }, T0);
        await put(store, aCommit('a', 2, 2, { deliveries: [aDelivery('a', '1'), aDelivery('a', '2')] }));
        expect(ids(await store.claim(T0, 9, MIN))).toEqual(['a:2']);
        expect(await store.deliveries({ limit: 9 })).toHaveLength(2);
      });

      test('a claim holds to the millisecond, then it is a possible repeat', async () => {
        await queue(aDelivery('a', '1'));
        expect(await store.claim(T0, 1, MIN)).toMatchObject([{ attempt: 1, possibleRepeat: false }]);
        expect(await store.claim(T0 + MIN - 1, 1, MIN)).toEqual([]);
        expect(await store.claim(T0 + MIN, 1, MIN)).toMatchObject([{ attempt: 2, possibleRepeat: true }]);
      });

      test('a late answer from an older try changes nothing', async () => {
        await queue(aDelivery('a', '1'));
        await store.claim(T0, 1, MIN);
        await store.claim(T0 + MIN, 1, MIN);
        expect(await store.settle('a:1', 1, { kind: 'failed', why: 'too late' }, T0)).toBe(false);
        expect(await store.deliveries({ limit: 1 })).toMatchObject([{ state: 'sending', lastError: null }]);
        expect(await store.settle('a:1', 2, { kind: 'sent' }, T0 + 5)).toBe(true);
        expect(await store.deliveries({ limit: 1 })).toMatchObject([
          { state: 'sent', attempts: 2, settledAt: T0 + 5 },
        ]);
      });

      test('an answer after the lease but before another try still counts', async () => {
        await queue(aDelivery('a', '1'));
        await store.claim(T0, 1, MIN);
        expect(await store.settle('a:1', 1, { kind: 'sent' }, T0 + 2 * MIN)).toBe(true);
        expect(await store.claim(T0 + 3 * MIN, 1, MIN)).toEqual([]);
      });

      test('an answer counts once, and one to nothing not at all', async () => {
        await queue(aDelivery('a', '1'));
        expect(await store.settle('a:1', 0, { kind: 'sent' }, T0)).toBe(false);
        await store.claim(T0, 1, MIN);
        expect(await store.settle('a:1', 1, { kind: 'sent' }, T0)).toBe(true);
        expect(await store.settle('a:1', 1, { kind: 'failed', why: 'again' }, T0)).toBe(false);
        expect(await store.settle('nobody', 1, { kind: 'sent' }, T0)).toBe(false);
        expect(await store.deliveries({ limit: 1 })).toMatchObject([{ state: 'sent' }]);
      });

      test('a retry waits for its time; after a clear answer it is no repeat', async () => {
        await queue(aDelivery('a', '1'));
        await store.claim(T0, 1, MIN);
        const half = 'cut \ud83d';
        expect(await store.settle('a:1', 1, { kind: 'retry', at: T0 + 5, why: half }, T0)).toBe(true);
        expect(await store.claim(T0 + 4, 1, MIN)).toEqual([]);
        expect(await store.deliveries({ limit: 1 })).toMatchObject([
          { state: 'queued', lastError: expect.stringMatching(/^cut ./), settledAt: null },
        ]);
        expect(await store.claim(T0 + 5, 1, MIN)).toMatchObject([{ attempt: 2, possibleRepeat: false }]);
      });

      test('a retry without a clear answer is a possible repeat, and stays one', async () => {
        await queue(aDelivery('a', '1'));
        await store.claim(T0, 1, MIN);
        await store.settle('a:1', 1, { kind: 'retry', at: T0, why: 'timeout', ambiguous: true }, T0);
        expect(await store.claim(T0, 1, MIN)).toMatchObject([{ attempt: 2, possibleRepeat: true }]);
        await store.settle('a:1', 2, { kind: 'retry', at: T0, why: 'busy' }, T0);
        expect(await store.claim(T0, 1, MIN)).toMatchObject([{ attempt: 3, possibleRepeat: true }]);
      });

      test('one put back until its turn has not used up a try, however often', async () => {
        await queue(aDelivery('a', '1'));
        for (let turn = 0; turn < 30; turn += 1) {
          const at = T0 + turn * MIN;
          expect(await store.claim(at, 1, MIN)).toMatchObject([{ attempt: 1, possibleRepeat: false }]);
          expect(await store.settle('a:1', 1, { kind: 'later', at: at + MIN }, at)).toBe(true);
          expect(await store.claim(at + MIN - 1, 1, MIN)).toEqual([]);
          expect(await store.deliveries({ limit: 1 })).toMatchObject([
            { state: 'queued', attempts: 0, settledAt: null, lastError: null },
          ]);
        }
        expect(await store.settle('a:1', 1, { kind: 'sent' }, T0)).toBe(false);
      });

      test('put back after real tries it keeps their number, their error and its place in the queue', async () => {
        await queue(aDelivery('a', '1'), aDelivery('a', '2'));
        await store.claim(T0, 1, MIN);
        await store.settle('a:1', 1, { kind: 'retry', at: T0, why: 'busy' }, T0);
        expect(await store.claim(T0, 1, MIN)).toMatchObject([{ id: 'a:1', attempt: 2 }]);
        await store.settle('a:1', 2, { kind: 'later', at: T0 + 5 }, T0);
        expect(await store.deliveries({ limit: 9 })).toMatchObject([
          { id: 'a:2', attempts: 0 },
          { id: 'a:1', attempts: 1, lastError: 'busy' },
        ]);
        expect(await store.claim(T0 + 5, 9, MIN)).toMatchObject([
          { id: 'a:1', attempt: 2, possibleRepeat: false },
          { id: 'a:2', attempt: 1 },
        ]);
      });

      test.each([
        ['a lease that ran out', () => store.claim(T0, 1, 0)],
        ['a restart', async () => [await store.claim(T0, 1, MIN), await store.releaseClaims()]],
        [
          'no clear answer',
          async () => [
            await store.claim(T0, 1, MIN),
            await store.settle('a:1', 1, { kind: 'retry', at: T0, why: '?', ambiguous: true }, T0),
          ],
        ],
      ])('put back after %s it is still a possible repeat', async (_, before) => {
        await queue(aDelivery('a', '1'));
        await before();
        expect(await store.claim(T0, 1, MIN)).toMatchObject([{ attempt: 2, possibleRepeat: true }]);
        expect(await store.settle('a:1', 2, { kind: 'later', at: T0 + 5 }, T0)).toBe(true);
        expect(await store.claim(T0 + 5, 1, MIN)).toMatchObject([{ attempt: 2, possibleRepeat: true }]);
      });

      test('an older try that answers while it waits for its turn, or is tried anew, changes nothing', async () => {
        await queue(aDelivery('a', '1'));
        await store.claim(T0, 1, MIN);
        await store.claim(T0 + MIN, 1, MIN);
        await store.settle('a:1', 2, { kind: 'later', at: T0 + MIN + 5 }, T0 + MIN);
        expect(await store.settle('a:1', 1, { kind: 'sent' }, T0 + MIN)).toBe(false);
        expect(await store.claim(T0 + MIN + 5, 1, MIN)).toMatchObject([{ attempt: 2 }]);
        expect(await store.settle('a:1', 1, { kind: 'failed', why: 'late' }, T0 + MIN + 5)).toBe(false);
        expect(await store.settle('a:1', 2, { kind: 'sent' }, T0 + MIN + 5)).toBe(true);
      });

      test('failed is the end of it, with its reason', async () => {
        await queue(aDelivery('a', '1'));
        await store.claim(T0, 1, MIN);
        await store.settle('a:1', 1, { kind: 'failed', why: 'channel is gone' }, T0 + 7);
        expect(await store.claim(T0 + 999 * MIN, 1, MIN)).toEqual([]);
        expect(await store.deliveries({ limit: 1, state: 'failed' })).toMatchObject([
          { lastError: 'channel is gone', settledAt: T0 + 7 },
        ]);
      });

      test('superseded is the end of it as well, and is told from what was shown', async () => {
        await queue(aDelivery('a', '1'), aDelivery('a', '2'));
        await store.claim(T0, 1, MIN);
        expect(await store.settle('a:1', 1, { kind: 'superseded' }, T0 + 7)).toBe(true);
        expect(await store.deliveries({ limit: 9, state: 'superseded' })).toMatchObject([
          { id: 'a:1', settledAt: T0 + 7, lastError: null },
        ]);
        expect(ids(await store.claim(T0 + 999 * MIN, 9, MIN))).toEqual(['a:2']);
        await store.settle('a:2', 1, { kind: 'sent' }, T0 + 8);
        expect(await store.oldestUnsettled()).toBeNull();
        expect(await store.releaseClaims()).toBe(0);
      });

      test('the following words of the same message, in the order of queueing, whatever became of them', async () => {
        const toAna = { audience: { kind: 'person', person: 'ana' } } as const;
        await queue(
          aDelivery('a', '1'),
          aDelivery('a', 'other-key', { key: 'other' }),
          aDelivery('a', 'other-surface', { surface: 'slack' }),
          aDelivery('a', 'ana-1', toAna),
          aDelivery('a', '2', { urgency: 'bell' }),
          aDelivery('a', 'rui', { audience: { kind: 'person', person: 'rui' } }),
          aDelivery('a', 'ana-2', toAna),
          aDelivery('a', '3'),
        );
        await start(store, 'b', { deliveries: [aDelivery('b', '1', { key: 'stop:a' })] });
        await store.claim(T0, 1, MIN);
        await store.settle('a:2', 1, { kind: 'failed', why: 'gone' }, T0);
        const following = async (id: string) => (await store.following(id))?.id ?? null;
        expect(await store.following('a:1')).toMatchObject({ id: 'a:2', state: 'failed', urgency: 'bell' });
        expect(await following('a:2')).toBe('a:3');
        expect(await following('a:3')).toBeNull();
        expect(await following('a:ana-1')).toBe('a:ana-2');
        expect(await following('a:rui')).toBeNull();
        expect(await following('nobody')).toBeNull();
      });

      test('a new delivery does not wait out a clock that was set back', async () => {
        await queue(aDelivery('a', '1', { queuedAt: T0 + 60 * MIN }));
        expect(await store.claim(T0, 1, MIN)).toHaveLength(1);
      });

      test('after a restart what was being sent can be taken at once, as a possible repeat', async () => {
        await queue(aDelivery('a', '1'), aDelivery('a', '2'), aDelivery('a', '3'));
        await store.claim(T0, 2, 999 * MIN);
        await store.settle('a:2', 1, { kind: 'sent' }, T0);
        expect(await store.releaseClaims()).toBe(1);
        expect(await store.settle('a:1', 1, { kind: 'sent' }, T0)).toBe(false);
        expect(await store.claim(T0, 9, MIN)).toMatchObject([
          { id: 'a:1', attempt: 2, possibleRepeat: true },
          { id: 'a:3', attempt: 1, possibleRepeat: false },
        ]);
        await store.releaseClaims();
        expect(await store.releaseClaims()).toBe(0);
      });

      test('deliveries can be asked for by shift, surface and state, newest first', async () => {
        await queue(aDelivery('a', '1'), aDelivery('a', '2', { surface: 'slack' }), aDelivery('a', '3'));
        await start(store, 'b', { deliveries: [aDelivery('b', '4')] });
        await store.claim(T0, 1, MIN);
        const asked = async (query: Omit<Parameters<Store['deliveries']>[0], 'limit'>, limit = 9) =>
          ids(await store.deliveries({ ...query, limit }));
        expect(await asked({})).toEqual(['b:4', 'a:3', 'a:2', 'a:1']);
        expect(await asked({}, 2)).toEqual(['b:4', 'a:3']);
        expect(await asked({ shift: 'a' })).toEqual(['a:3', 'a:2', 'a:1']);
        expect(await asked({ surface: 'slack' })).toEqual(['a:2']);
        expect(await asked({ state: 'sending' })).toEqual(['a:1']);
        expect(await asked({ shift: 'a', surface: 'board', state: 'queued' })).toEqual(['a:3']);
      });

      test('the oldest unsettled is by queue time, also while it is being sent', async () => {
        expect(await store.oldestUnsettled()).toBeNull();
        await queue(aDelivery('a', '1', { queuedAt: T0 + 2 }), aDelivery('a', '2', { queuedAt: T0 + 1 }));
        expect(await store.oldestUnsettled()).toBe(T0 + 1);
        await store.claim(T0 + 9, 9, MIN);
        expect(await store.oldestUnsettled()).toBe(T0 + 1);
        await store.settle('a:2', 1, { kind: 'sent' }, T0 + 9);
        expect(await store.oldestUnsettled()).toBe(T0 + 2);
        await store.settle('a:1', 1, { kind: 'failed', why: 'gone' }, T0 + 9);
        expect(await store.oldestUnsettled()).toBeNull();
      });
    });

    describe('repairSnapshot', () => {
      test('writes the state anew from the journal and leaves the journal alone', async () => {
        await put(store, aCommit('a', 1, 3, { nextBell: T0, shift: aShift('a', 3, { note: 'wrong' }) }));
        const before = await store.journal('a');
        await store.repairSnapshot('a', (events) => {
          expect(events).toEqual([anEvent(1), anEvent(2), anEvent(3)]);
          return { shift: aShift('a', events.length, { note: 'replayed' }), nextBell: T0 + MIN };
        });
        expect(await store.shift('a')).toEqual(aShift('a', 3, { note: 'replayed' }));
        expect(await store.earliestBell()).toBe(T0 + MIN);
        expect(await store.journal('a')).toEqual(before);
        await put(store, aCommit('a', 4, 4));
      });

      test('a replay that ends elsewhere than the journal is refused', async () => {
        await put(store, aCommit('a', 1, 3));
        const replay = () => ({ shift: aShift('a', 2), nextBell: null });
        await expect(store.repairSnapshot('a', replay)).rejects.toThrow(/the state says line 2/);
        expect(await store.shift('a')).toEqual(aShift('a', 3));
      });

      test('without a journal there is nothing to replay', async () => {
        await expect(
          store.repairSnapshot('a', () => ({ shift: aShift('a', 0), nextBell: null })),
        ).rejects.toMatchObject({ name: 'StoreDamaged', shift: 'a', what: 'journal' });
      });
    });

    test('a closed store says so', async () => {
      await store.close();
      await expect(store.shifts()).rejects.toThrow('This store is closed.');
      await expect(start(store, 'a')).rejects.toThrow('This store is closed.');
    });
  });
}
