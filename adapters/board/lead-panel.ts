import type { Message } from '../../src/message/message.ts';
import { type Instant, MINUTE } from '../../src/model/time.ts';
import type { Panel } from '../../src/views/pages.ts';
import type { BoardContext } from './parts.ts';

/** How long the panel a press was about stands first. After that what matters most is on top again. */
const LEADS_FOR = 2 * MINUTE;

/** The panel somebody just pressed in, which stands first until `until`. */
export interface Lead {
  readonly panel: string;
  readonly until: Instant;
}

/** The panel that says the same as the answer to a press. */
export function sameAs(said: Message, panels: readonly Panel[]): Panel | undefined {
  return panels.find(({ message }) => message.summary === said.summary);
}

export function leadOf(said: readonly Message[], panels: readonly Panel[], now: Instant): Lead | null {
  for (const message of said.toReversed()) {
    const same = sameAs(message, panels);
    if (same !== undefined) return { panel: same.id, until: now + LEADS_FOR };
  }
  return null;
}

/** What a live page asks for, so that its panels do not change places right after it was opened. */
export function askedLead(c: BoardContext, now: Instant): Lead | null {
  const panel = c.req.query('_lead');
  const until = Number(c.req.query('_until'));
  return panel !== undefined && now < until && until <= now + LEADS_FOR ? { panel, until } : null;
}

export function inOrder(panels: readonly Panel[], lead: Lead | null): readonly Panel[] {
  const first = panels.filter(({ id }) => id === lead?.panel);
  return [...first, ...panels.filter((panel) => !first.includes(panel))];
}
