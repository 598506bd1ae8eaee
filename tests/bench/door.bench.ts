import { bench, describe } from 'vitest';
import { openStore } from '../../adapters/cli/compose.ts';
import { memoryStore } from '../../adapters/memory/store.ts';
import type { Actor } from '../../src/model/actor.ts';
import type { Store } from '../../src/ports.ts';
import { aDay, t } from '../flow/pack.ts';
import { World } from '../scenarios/world.ts';
import { tempFile } from '../sqlite/temp.ts';

const foreman: Actor = { kind: 'person', person: 'finn', surface: 'bench' };

/** One reading through the one door: load, decide, append, queue messages, next bell, commit. */
async function door(store: Store): Promise<() => Promise<void>> {
  const world = new World(store, [], t('06:00'));
  const posted = await world.take({ at: 0, by: foreman, command: aDay() }, 'post');
  if (!posted.ok) throw new Error(posted.shown.summary);
  let count = 0;
  return async () => {
    count += 1;
    world.now += 1000;
    const command = {
      type: 'take-reading',
      airC: 20,
      rhPct: 60,
      steelC: 21,
      place: `spot ${count}`,
    } as const;
    const outcome = await world.take({ at: 0, by: foreman, command }, `reading-${count}`);
    if (!outcome.ok) throw new Error(outcome.shown.summary);
  };
}

describe('one reading through the door', async () => {
  const memory = await door(memoryStore());
  const sqlite = await door(openStore(tempFile()));
  // The shift grows by every reading, so both take the same number.
  const same = { iterations: 300, time: 0, warmupIterations: 20, warmupTime: 0 };
  bench('memory', memory, same);
  bench('SQLite, every commit on the disk', sqlite, same);
});
