import { expect, it } from 'vitest';
import { crewOnSlack } from '../slack/crew.ts';
import { crewOnTeams } from '../teams/crew.ts';
import { wholeDay } from './day.ts';
import * as slack from './slack-hands.ts';
import { watching as watchingSlack } from './slack-watch.ts';
import type { Stage } from './stage.ts';
import * as teams from './teams-hands.ts';
import { watching as watchingTeams } from './teams-watch.ts';

// The demonstrations themselves take pictures, which takes longer. A change must not break them unseen.
async function played(stage: Stage): Promise<void> {
  await wholeDay(stage);
  expect(stage.watch.shots.length).toBeGreaterThan(100);
}

it('the day that is shown in Slack can be played to its end', async () => {
  const crew = await crewOnSlack();
  try {
    await played({
      crew,
      now: () => crew.slack.clock.now(),
      hands: slack.handsOf(crew),
      watch: watchingSlack(crew),
    });
  } finally {
    await crew.close();
  }
});

it('the day that is shown in Teams can be played to its end', async () => {
  const crew = await crewOnTeams();
  try {
    await played({
      crew,
      now: () => crew.teams.clock.now(),
      hands: teams.handsOf(crew),
      watch: watchingTeams(crew),
    });
  } finally {
    await crew.close();
  }
});
