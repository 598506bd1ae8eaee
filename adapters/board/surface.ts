import type { Surface } from '../../src/ports.ts';
import type { Live } from './live.ts';
import type { Log } from './services.ts';

/**
 * The board as a surface: the pages are made from the shift, so a delivery only has to wake them and, for a bell,
 * ring. It counts as sent even with no page open: whoever opens one finds the bell still on top.
 */
export function createSurface(live: Live, log: Log): Surface {
  return {
    name: 'board',
    reaches: () => true,
    async deliver(delivery) {
      live.changed();
      // One ring goes to several audiences, each a delivery of its own, queued in the same moment: it rings once here.
      const { shift, key, queuedAt, audience, message } = delivery;
      if (delivery.urgency === 'bell') {
        live.bell(`${shift} ${key} ${queuedAt}`, message.summary, audience.kind === 'crew');
      }
      log.info(
        { delivery: delivery.id, urgency: delivery.urgency, pages: live.pages() },
        'shown on the board',
      );
      return { kind: 'sent' };
    },
  };
}
