import { expect } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { formIds } from '../../src/message/form-ids.ts';
import { evening, flushing, secondFlush, spraying } from './afternoon.ts';
import { morning, rigs, stranger } from './morning.ts';
import { type Look, takePictures } from './shots.ts';
import type { Stage } from './stage.ts';

const texts = loadTexts().textsFor('en');

/** The demo day from its beginning to its end, in which every form is seen. */
export async function wholeDay(stage: Stage): Promise<void> {
  const { crew, watch } = stage;
  await morning(stage);
  await stranger(stage);
  await rigs(stage);
  await spraying(stage);
  await flushing(stage, texts);
  await secondFlush(stage, texts);
  await evening(stage);
  expect(crew.faults).toEqual([]);
  const forms = new Set(watch.shots.map(({ form }) => form));
  expect(formIds.filter((id) => !forms.has(id))).toEqual([]);
}

/** The same, as pictures, which are taken also when it stops halfway. */
export async function pictured(stage: Stage, look: Look, folder: string): Promise<void> {
  try {
    await wholeDay(stage);
  } finally {
    await takePictures(stage.watch.shots, look, folder);
  }
}
