import type { Clock, Store } from '../../src/ports.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import { recordFiles } from '../record/record-files.ts';

/** One file of a shift's record, made anew from the store; null when there is no such shift. */
export async function recordFile(
  store: Store,
  textsFor: TextsFor,
  clock: Clock,
  id: string,
  format: 'json' | 'csv' | 'html',
) {
  const files = await allRecordFiles(store, textsFor, clock, id);
  const file = files?.find(({ name }) => name.endsWith(`.${format}`));
  return file ? { body: file.body, contentType: file.contentType, fileName: file.name } : null;
}

export async function allRecordFiles(store: Store, textsFor: TextsFor, clock: Clock, id: string) {
  const shift = await store.shift(id);
  if (!shift) return null;
  const [journal, deliveries] = await Promise.all([
    store.journal(id),
    store.deliveries({ shift: id, limit: 10_000 }),
  ]);
  return recordFiles({ shift, journal, deliveries, textsFor, madeAt: clock.now() });
}
