import { twiceAndLate } from './faults-twice.ts';
import { inTeams } from './teams-hands.ts';

twiceAndLate(inTeams);
