import { dyingInTheBriefing } from './faults-day.ts';
import { inSlack } from './slack-hands.ts';

dyingInTheBriefing(inSlack);
