import { talkInTheChannel } from './faults-channel.ts';
import { sixtySign } from './faults-many.ts';
import { flushUnderFaults } from './faults-order.ts';
import { inSlack } from './slack-hands.ts';

talkInTheChannel(inSlack);
sixtySign(inSlack);
flushUnderFaults(inSlack);
