import { faultsInADay } from './faults-day.ts';
import { inSlack } from './slack-hands.ts';

faultsInADay(inSlack);
