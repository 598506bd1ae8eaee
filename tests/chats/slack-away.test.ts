import { awayForAnHour } from './faults-away.ts';
import { talkInTheChannel } from './faults-channel.ts';
import { sixtySign } from './faults-many.ts';
import { flushUnderFaults } from './faults-order.ts';
import { inSlack } from './slack-hands.ts';

awayForAnHour(inSlack);
talkInTheChannel(inSlack);
sixtySign(inSlack);
flushUnderFaults(inSlack);
