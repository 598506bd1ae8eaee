import { awayForAnHour } from './faults-away.ts';
import { talkInTheChannel } from './faults-channel.ts';
import { sixtySign } from './faults-many.ts';
import { flushUnderFaults } from './faults-order.ts';
import { inTeams } from './teams-hands.ts';

awayForAnHour(inTeams);
talkInTheChannel(inTeams);
sixtySign(inTeams);
flushUnderFaults(inTeams);
