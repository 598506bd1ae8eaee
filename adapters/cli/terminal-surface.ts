import { plainText } from '../../src/message/plain-text.ts';
import type { ClaimedDelivery, Surface } from '../../src/ports.ts';

/** People at a terminal: every message as plain text, in the order it was said. */
export function terminalSurface(write: (delivery: ClaimedDelivery, text: string) => void): Surface {
  return {
    name: 'terminal',
    reaches: () => true,
    async deliver(delivery) {
      write(delivery, plainText(delivery.message));
      return { kind: 'sent' };
    },
  };
}
