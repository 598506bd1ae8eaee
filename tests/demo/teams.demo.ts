import { afterAll, beforeAll, it } from 'vitest';
import { type Crew, crewOnTeams } from '../teams/crew.ts';
import { pictured } from './day.ts';
import { look } from './teams-frame.ts';
import { handsOf } from './teams-hands.ts';
import { watching } from './teams-watch.ts';

let crew: Crew;
beforeAll(async () => {
  crew = await crewOnTeams();
});
afterAll(async () => {
  await crew?.close();
});

it('a day of the demo site in Teams, as pictures', async () => {
  const stage = { crew, now: () => crew.teams.clock.now(), hands: handsOf(crew), watch: watching(crew) };
  await pictured(stage, look, 'build/teams');
});
