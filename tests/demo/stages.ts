import type { Crew as SlackCrew } from '../slack/crew.ts';
import type { Crew as TeamsCrew } from '../teams/crew.ts';
import * as slack from './slack-hands.ts';
import { watching as watchingSlack } from './slack-watch.ts';
import type { Stage } from './stage.ts';
import * as teams from './teams-hands.ts';
import { watching as watchingTeams } from './teams-watch.ts';

export const slackStage = (crew: SlackCrew): Stage => ({
  crew,
  now: () => crew.slack.clock.now(),
  hands: slack.handsOf(crew),
  watch: watchingSlack(crew),
});

export const teamsStage = (crew: TeamsCrew): Stage => ({
  crew,
  now: () => crew.teams.clock.now(),
  hands: teams.handsOf(crew),
  watch: watchingTeams(crew),
});
