/** What people do in a modal: type, send, close. The ack can keep it open with errors, replace it, or stack another. */
import type { Delivery } from './deliver.ts';
import { type Answer, answered, fieldsIn, isEmpty } from './fill.ts';
import { type Dict, dict, dicts, isDict, label, text } from './json.ts';
import { checked, Refused } from './methods/method.ts';
import { closing, submission } from './payloads.ts';
import type { Workspace } from './state.ts';
import { mintTrigger } from './triggers.ts';
import type { Outcome, ViewState } from './types.ts';
import { popView, pushView, replaceView, stackOf } from './views.ts';

/** By block_id or action_id; for choices the option's value or its words. */
export type Answers = { readonly [blockOrAction: string]: Answer };

export type ModalPerson = {
  /** Types into the top modal without sending. Throws for a field that is not there or cannot hold the value. */
  fill(userId: string, answers: Answers): void;
  /** Types and sends. Throws when the modal has no submit button or a required field is empty. */
  submit(userId: string, answers?: Answers): Promise<Outcome>;
  /** Closes the top modal. Resolves at once when the app did not ask to be told. */
  closeModal(userId: string): Promise<Outcome>;
};

export function startModalPerson(space: Workspace, delivery: Delivery): ModalPerson {
  function top(userId: string): ViewState {
    const view = stackOf(space, userId).at(-1);
    if (view === undefined) throw new Error(`${userId} has no modal open.`);
    return view;
  }

  function fill(userId: string, answers: Answers): void {
    const view = top(userId);
    const fields = fieldsIn(view.view);
    for (const [name, answer] of Object.entries(answers)) {
      const fits = fields.filter((one) => one.blockId === name || one.actionId === name);
      const [field] = fits;
      if (field === undefined || fits.length > 1) {
        const there = fields.map((one) => `${one.blockId}/${one.actionId}`).join(', ');
        throw new Error(
          `${fits.length} fields are called '${name}'; the modal has: ${there || 'no fields'}.`,
        );
      }
      view.typed[field.blockId] = { ...view.typed[field.blockId], [field.actionId]: answered(field, answer) };
    }
  }

  /** The platform's own app does not send a form with a required field empty. */
  function complete(view: ViewState): void {
    for (const { block, blockId, actionId } of fieldsIn(view.view)) {
      if (block.type !== 'input' || block.optional === true) continue;
      if (isEmpty(view.typed[blockId]?.[actionId])) {
        throw new Error(
          `The form cannot be sent: "${label(block.label)}" (${blockId}) is required and empty.`,
        );
      }
    }
  }

  function bad(outcome: Outcome, problem: string): Outcome {
    return { ...outcome, acked: false, status: 'bad_response', problem };
  }

  function showErrors(view: ViewState, outcome: Outcome): Outcome {
    const given = dict(outcome.body.errors);
    const inputs = dicts(view.view.blocks).filter((block) => block.type === 'input');
    const known = new Set(inputs.map((block) => text(block.block_id)));
    const names = Object.keys(given);
    const strange = names.filter((name) => !known.has(name) || text(given[name]) === '');
    if (names.length === 0) return bad(outcome, 'response_action errors names no block');
    if (strange.length > 0) return bad(outcome, `no input block, or no words, for: ${strange.join(', ')}`);
    view.errors = Object.fromEntries(names.map((name) => [name, text(given[name])]));
    return outcome;
  }

  function show(view: ViewState, outcome: Outcome, how: 'update' | 'push'): Outcome {
    const sent: unknown = outcome.body.view;
    try {
      checked('modal', sent);
      if (!isDict(sent)) throw new Refused('invalid_arguments');
      if (how === 'update') replaceView(space, view, sent);
      else pushView(space, view.user, sent);
      return outcome;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      return bad(outcome, JSON.stringify(error.reply));
    }
  }

  /** docs.slack.dev/surfaces/modals: what the ack of a submission does to the stack. */
  function afterwards(view: ViewState, outcome: Outcome): Outcome {
    view.errors = {};
    const action = outcome.body.response_action;
    if (action === undefined) popView(space, view.user);
    else if (action === 'clear') space.modals.set(view.user, []);
    else if (action === 'errors') return showErrors(view, outcome);
    else if (action === 'update' || action === 'push') return show(view, outcome, action);
    else return bad(outcome, `unknown response_action: ${JSON.stringify(action)}`);
    return outcome;
  }

  return {
    fill,
    async submit(userId, answers = {}) {
      const view = top(userId);
      if (view.view.submit === undefined) throw new Error(`The modal of ${userId} has no submit button.`);
      fill(userId, answers);
      complete(view);
      const triggerId = mintTrigger(space, userId, view.id);
      const outcome = await delivery.interact('interactive', submission(space, view, triggerId));
      return outcome.acked ? afterwards(view, outcome) : outcome;
    },
    async closeModal(userId) {
      const view = top(userId);
      const clears = view.view.clear_on_close === true;
      const closed: ViewState[] = clears ? [...stackOf(space, userId)].reverse() : [view];
      if (clears) space.modals.set(userId, []);
      else popView(space, userId);
      let outcome: Outcome = { acked: true, status: 'not_asked', body: {} };
      for (const one of closed.filter(({ view: { notify_on_close: asked } }) => asked === true)) {
        const payload: Dict = closing(space, one, clears);
        outcome = await delivery.interact('interactive', payload);
      }
      return outcome;
    },
  };
}
