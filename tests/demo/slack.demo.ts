import { afterAll, beforeAll, expect, it } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { formIds } from '../../src/message/form-ids.ts';
import { type Crew, crewOnSlack } from '../slack/crew.ts';
import { handsOf } from './hands.ts';
import { takePictures } from './shots.ts';
import { evening, flushing, secondFlush, spraying } from './slack-afternoon.ts';
import { morning, rigs, stranger } from './slack-morning.ts';
import { watching } from './watch.ts';

const texts = loadTexts().textsFor('en');
const FOLDER = 'build/slack';
let crew: Crew;
beforeAll(async () => {
  crew = await crewOnSlack();
});
afterAll(async () => {
  await crew?.close();
});

it('a day of the demo site in Slack, as pictures', async () => {
  const watch = watching(crew);
  const hands = handsOf(crew);
  try {
    await morning(crew, watch, hands);
    await stranger(crew, watch, hands);
    await rigs(watch, hands);
    await spraying(crew, watch, hands);
    await flushing(crew, watch, hands, texts);
    await secondFlush(crew, watch, hands, texts);
    await evening(crew, watch, hands);
  } finally {
    await takePictures(watch.shots, FOLDER);
  }
  expect(crew.faults).toEqual([]);
  const forms = new Set(watch.shots.map(({ form }) => form));
  expect(formIds.filter((id) => !forms.has(id))).toEqual([]);
});
