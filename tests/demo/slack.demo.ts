import { afterAll, beforeAll, it } from 'vitest';
import { type Crew, crewOnSlack } from '../slack/crew.ts';
import { pageHtml } from '../slack/picture.ts';
import { pictured } from './day.ts';
import { handsOf } from './slack-hands.ts';
import { watching } from './slack-watch.ts';

let crew: Crew;
beforeAll(async () => {
  crew = await crewOnSlack();
});
afterAll(async () => {
  await crew?.close();
});

it('a day of the demo site in Slack, as pictures', async () => {
  const stage = { crew, now: () => crew.slack.clock.now(), hands: handsOf(crew), watch: watching(crew) };
  const drawnBy = 'Drawn by a library that imitates the platform’s blocks';
  await pictured(stage, { drawnBy, page: pageHtml }, 'build/slack');
});
