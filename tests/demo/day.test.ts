import { expect, it } from 'vitest';
import { crewOnSlack } from '../slack/crew.ts';
import { crewOnTeams } from '../teams/crew.ts';
import { wholeDay } from './day.ts';
import type { Stage } from './stage.ts';
import { slackStage, teamsStage } from './stages.ts';

// The demonstrations themselves take pictures, which takes longer. A change must not break them unseen.
async function played<C extends { close(): Promise<void> }>(crew: C, on: (crew: C) => Stage): Promise<void> {
  try {
    const stage = on(crew);
    await wholeDay(stage);
    expect(stage.watch.shots.length).toBeGreaterThan(100);
  } finally {
    await crew.close();
  }
}

it('the day that is shown in Slack can be played to its end', async () =>
  played(await crewOnSlack(), slackStage));

it('the day that is shown in Teams can be played to its end', async () =>
  played(await crewOnTeams(), teamsStage));
