import { afterAll, beforeAll, it } from 'vitest';
import { type Crew, crewOnTeams } from '../teams/crew.ts';
import { pictured } from './day.ts';
import { teamsStage } from './stages.ts';
import { look } from './teams-frame.ts';

let crew: Crew;
beforeAll(async () => {
  crew = await crewOnTeams();
});
afterAll(async () => {
  await crew?.close();
});

it('a day of the demo site in Teams, as pictures', async () => {
  await pictured(teamsStage(crew), look, 'build/teams');
});
