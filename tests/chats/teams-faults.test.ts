import { faultsInADay } from './faults-day.ts';
import { inTeams } from './teams-hands.ts';

faultsInADay(inTeams);
