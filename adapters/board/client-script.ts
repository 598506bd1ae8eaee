import { baseScript } from './client/base.ts';
import { bellScript } from './client/bell.ts';
import { formScript } from './client/forms.ts';
import { liveScript } from './client/live.ts';
import { swapScript } from './client/swap.ts';
import { remainingText } from './remaining.ts';

/** The one script of every page. The countdown is worded by the very function the server uses. */
export const clientScript = `(() => {
'use strict';
const remainingText = ${remainingText.toString()};
${[baseScript, swapScript, bellScript, formScript, liveScript].join('\n')}
})();
`;
