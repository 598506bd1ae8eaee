/**
 * What a client does with the answer to a press: learn.microsoft.com/microsoftteams/platform/task-modules-and-cards/
 * cards/universal-actions-for-adaptive-cards/work-with-universal-actions-for-adaptive-cards, "Response format".
 */
import { type Dict, dict, text } from '../slack/json.ts';
import { cardProblems } from './check-activity.ts';
import { CARD, viewKey, type World } from './state.ts';
import type { MessageState, Outcome } from './types.ts';

const WORDS = 'application/vnd.microsoft.activity.message';
const FAILED = /^application\/vnd\.microsoft\.error/;

/** Shows the card or the words to the person who pressed, and to nobody else. */
export function cardAnswer(world: World, userId: string, message: MessageState, outcome: Outcome): Outcome {
  const { body } = outcome;
  const problem = (words: string): Outcome => ({ ...outcome, problem: words });
  if (typeof outcome.status === 'string') return outcome;
  const type = text(body.type);
  if (FAILED.test(type)) return problem(`The bot answered with an error: ${JSON.stringify(body.value)}`);
  if (outcome.status !== 200) return problem(`The bot answered ${outcome.status}.`);
  if (body.statusCode !== 200)
    return problem(`The body has the statusCode ${String(body.statusCode)}, not 200.`);
  if (type === WORDS) {
    if (text(body.value) === '') return problem('The message to show is empty.');
    world.notes.push({ user: userId, text: text(body.value) });
    return outcome;
  }
  if (type !== CARD) return problem(`The body has the type "${type}", neither a card nor a message.`);
  const wrong = cardProblems(body.value);
  if (wrong.length > 0) return problem(`The card cannot be shown: ${wrong.join('; ')}`);
  const card: Dict = structuredClone(dict(body.value));
  world.views.set(viewKey(userId, message), { card, at: world.clock.now() });
  return outcome;
}
