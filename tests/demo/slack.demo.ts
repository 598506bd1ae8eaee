import { afterAll, beforeAll, it } from 'vitest';
import { type Crew, crewOnSlack } from '../slack/crew.ts';
import { pageHtml } from '../slack/picture.ts';
import { pictured } from './day.ts';
import { slackStage } from './stages.ts';

let crew: Crew;
beforeAll(async () => {
  crew = await crewOnSlack();
});
afterAll(async () => {
  await crew?.close();
});

it('a day of the demo site in Slack, as pictures', async () => {
  const drawnBy = 'Drawn by a library that imitates the platform’s blocks';
  await pictured(slackStage(crew), { drawnBy, page: pageHtml }, 'build/slack');
});
