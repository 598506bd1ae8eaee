/**
 * Dialogs with cards: task/fetch opens, task/submit sends. learn.microsoft.com/microsoftteams/platform/
 * task-modules-and-cards/task-modules/task-modules-bots. A bot is not told when a person closes one.
 */
import { type Dict, dict, text } from '../slack/json.ts';
import { actionsIn, dataOf, findAction, type Typed, type Wanted } from './card.ts';
import { cardProblems } from './check-activity.ts';
import type { Delivery } from './deliver.ts';
import { CARD, conversationOf, messageOf, personOf, type World } from './state.ts';
import type { ConversationState, DialogState, MessageState, Outcome } from './types.ts';
import { base } from './wire.ts';

export type Dialogs = {
  open(userId: string, conversation: ConversationState, message: MessageState, data: Dict): Promise<Outcome>;
  /** Presses a button of the open dialog: the only Action.Submit unless told which. */
  submitDialog(userId: string, typed?: Typed, wanted?: Wanted): Promise<Outcome>;
  closeDialog(userId: string): void;
  dialog(userId: string): DialogState | null;
};

/** Action.Execute belongs to cards in messages; a dialog sends with Action.Submit (from memory). */
const dialogProblems = (card: Dict): string[] =>
  actionsIn(card)
    .filter(({ type }) => type === 'Action.Execute')
    .map(
      ({ title }) => `the button "${text(title)}" is an Action.Execute, a dialog takes Action.Submit only`,
    );

export function startDialogs(world: World, delivery: Delivery): Dialogs {
  function opened(userId: string): DialogState {
    const found = world.dialogs.get(personOf(world, userId).id);
    if (found === undefined) throw new Error(`${userId} has no dialog open.`);
    return found;
  }

  function shown(
    userId: string,
    place: { conversation: string; replyTo: string },
    outcome: Outcome,
  ): Outcome {
    const problem = (words: string): Outcome => ({ ...outcome, problem: words });
    if (typeof outcome.status === 'string') return outcome;
    if (outcome.status !== 200) return problem(`The bot answered ${outcome.status}.`);
    const task = dict(outcome.body.task);
    if (task.type === 'message') {
      world.dialogs.delete(userId);
      world.notes.push({ user: userId, text: text(task.value) });
      return outcome;
    }
    if (task.type !== 'continue')
      return problem(`task.type is "${String(task.type)}", neither continue nor message.`);
    const value = dict(task.value);
    const attached = dict(value.card);
    if (attached.contentType !== CARD)
      return problem('task.value.card is not an Adaptive Card with its contentType.');
    const wrong = [...cardProblems(attached.content), ...dialogProblems(dict(attached.content))];
    if (wrong.length > 0) return problem(`The card cannot be shown: ${wrong.join('; ')}`);
    const card = structuredClone(dict(attached.content));
    world.dialogs.set(userId, { user: userId, title: text(value.title), card, ...place });
    return outcome;
  }

  function invoke(userId: string, name: string, where: ConversationState, message: MessageState, data: Dict) {
    return delivery.deliver({
      ...base(world, userId, where, message.thread),
      type: 'invoke',
      name,
      replyToId: message.id,
      value: { data, context: { theme: 'default' } },
    });
  }

  return {
    async open(userId, conversation, message, data) {
      const place = { conversation: conversation.id, replyTo: message.id };
      return shown(userId, place, await invoke(userId, 'task/fetch', conversation, message, data));
    },
    async submitDialog(userId, typed = {}, wanted) {
      const { card, conversation, replyTo } = opened(userId);
      const where = conversationOf(world, conversation);
      const message = messageOf(where, replyTo);
      if (message === undefined) throw new Error(`The message ${replyTo} behind the dialog is gone.`);
      const submits = { type: 'Action.Submit', ...wanted };
      const data = dataOf(card, findAction(card, submits, `the dialog of ${userId}`), typed);
      const outcome = await invoke(userId, 'task/submit', where, message, data);
      const empty = Object.keys(outcome.body).length === 0;
      if (outcome.status === 200 && empty) {
        world.dialogs.delete(userId);
        return outcome;
      }
      return shown(userId, { conversation, replyTo }, outcome);
    },
    closeDialog(userId) {
      world.dialogs.delete(opened(userId).user);
    },
    dialog: (userId) => structuredClone(world.dialogs.get(userId) ?? null),
  };
}
