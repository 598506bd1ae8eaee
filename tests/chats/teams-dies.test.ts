import { dyingInTheBriefing } from './faults-day.ts';
import { inTeams } from './teams-hands.ts';

dyingInTheBriefing(inTeams);
