import type { Outcome } from '../../src/ports.ts';
import { answerWords } from './answer.ts';
import { type BoardContext, type BoardParts, look } from './parts.ts';
import type { Pressed } from './press.ts';
import type { Pending, Press, Visit } from './session.ts';

/**
 * The answer to a press. A press that needs a PIN waits in this browser's visit. What was done, or refused, is said on
 * the page people come back to. `refused` may answer a refusal in another way, for example on the form itself.
 */
export async function answerPress(
  parts: BoardParts,
  c: BoardContext,
  pressed: Pressed,
  {
    pending,
    press,
    refused,
  }: {
    readonly pending: Pending;
    readonly press: Press;
    readonly refused?: (outcome: Outcome & { ok: false }) => Promise<Response>;
  },
): Promise<Response> {
  switch (pressed.kind) {
    case 'pin': {
      const visit = visitOf(parts, c);
      const query = new URLSearchParams({ held: parts.visits.wait(visit, pending), next: press.back });
      if (pressed.why === 'fresh' && visit.person !== null) query.set('who', visit.person);
      return c.redirect(`/login?${query}`, 303);
    }
    case 'old': {
      const view = await look(parts, c);
      return answerWords(parts, c, view, 400, view.words.oldButtonTitle, view.words.oldButtonText);
    }
    case 'no-shift': {
      const view = await look(parts, c);
      const text = press.command.type === 'stop-work' ? view.words.stopNoShift : view.words.noShiftText;
      return answerWords(parts, c, view, 409, view.words.noShiftTitle, text);
    }
    case 'answered': {
      const { outcome } = pressed;
      if (!outcome.ok && refused !== undefined) return refused(outcome);
      const visit = visitOf(parts, c);
      const { say } = parts.visits;
      // The answer to the first of two equal presses is the one worth reading.
      say(visit, press.commandId, outcome.shown, { keepFirst: outcome.ok && outcome.repeated });
      return c.redirect(press.back, 303);
    }
  }
}

/** This browser's visit; a nameless one is opened when it has none yet. */
export function visitOf(parts: BoardParts, c: BoardContext): Visit {
  const known = c.get('visit');
  if (known !== null) return known;
  const visit = parts.visits.open();
  c.set('visit', visit);
  return visit;
}
