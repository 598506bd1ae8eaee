import { twiceAndLate } from './faults-twice.ts';
import { inSlack } from './slack-hands.ts';

twiceAndLate(inSlack);
