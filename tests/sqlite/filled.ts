import { readFileSync } from 'node:fs';
import { openSqliteStore } from '../../adapters/sqlite/store.ts';
import type { Store } from '../../src/ports.ts';
import { aCommit, aDelivery, anEvent, aShift, MIN, put, T0 } from '../contracts/fixtures.ts';
import { tempFile } from './temp.ts';

/** Three shifts, long and short lines, deliveries in every state. */
export async function fill(store: Store): Promise<void> {
  for (const id of ['monday', 'tuesday', 'wednesday']) {
    const bell = { urgency: 'bell' } as const;
    const deliveries = [aDelivery(id, '1'), aDelivery(id, '2', bell), aDelivery(id, '3'), aDelivery(id, '4')];
    await put(store, aCommit(id, 1, 1, { deliveries }));
    const long = Array.from({ length: 900 }, (_, word) => `word-${word}`).join(' ');
    const events = [
      anEvent(2, `${id}-long`, long),
      ...Array.from({ length: 9 }, (_, line) => anEvent(line + 3)),
    ];
    const shift = aShift(id, 11, { note: long, status: id === 'monday' ? 'closed' : 'open' });
    await put(store, { shift, events, nextBell: T0 + MIN, deliveries: [aDelivery(id, '5')] });
    for (const { id: delivery, attempt } of await store.claim(T0, 4, MIN)) {
      if (delivery.endsWith('1')) await store.settle(delivery, attempt, { kind: 'sent' }, T0);
      if (delivery.endsWith('2'))
        await store.settle(delivery, attempt, { kind: 'retry', at: T0 + 5, why: 'busy' }, T0);
      if (delivery.endsWith('3')) await store.settle(delivery, attempt, { kind: 'failed', why: 'gone' }, T0);
    }
  }
}

/** The bytes of a filled and cleanly closed database. */
export async function filledDatabase(): Promise<Buffer> {
  const file = tempFile();
  const store = openSqliteStore({ file });
  await fill(store);
  await store.close();
  return readFileSync(file);
}

/** Everything a store can be asked, as one text. Takes what can be claimed. */
export async function everythingIn(store: Store): Promise<string> {
  const shifts = await store.shifts();
  return JSON.stringify([
    shifts,
    await Promise.all(shifts.map(({ id }) => store.shift(id))),
    await Promise.all(shifts.map(({ id }) => store.journal(id))),
    await Promise.all(
      shifts.map(({ id }) =>
        store.transact(id, ({ shift, head, seen }) => ({
          commit: null,
          answer: [shift, head, seen('command-1'), seen(`${id}-long`), seen('never')],
        })),
      ),
    ),
    await store.due(T0 - 1),
    await store.due(T0 + 999 * MIN),
    await store.earliestBell(),
    await store.oldestUnsettled(),
    await store.deliveries({ limit: 999 }),
    await store.claim(T0 + 999 * MIN, 999, MIN),
  ]);
}

/** Open a file and read everything: what it holds, or the error that kept it from being read. */
export async function read(file: string): Promise<string | Error> {
  let store: Store | undefined;
  try {
    store = openSqliteStore({ file });
    return await everythingIn(store);
  } catch (error) {
    return error as Error;
  } finally {
    await store?.close();
  }
}
