import { cutText, shortened } from '../../src/chat/cut.ts';
import { packed, packs } from '../../src/chat/pack.ts';
import { encodeAction } from '../../src/message/action.ts';
import type { Button } from '../../src/message/message.ts';
import { limits } from './limits.ts';
import type { ActionData, CardAction, CardElement } from './render-card.ts';
import { plainLine } from './render-text.ts';

export interface ActionOptions {
  /** The mark of the shift a message is of; it comes back with every press. */
  readonly of?: string;
  /** The card stands in a dialog, which knows the older kind of action only and opens no second one. */
  readonly dialog?: boolean;
}

type Ways = Pick<ActionOptions, 'dialog'> & { readonly associatedInputs?: 'none' | undefined };

const EDGES = 4;
/** Characters of JSON in one row. */
const MOST_ROW = 12_000;

const styles = { main: { style: 'positive' }, plain: {}, danger: { style: 'destructive' } } as const;

/**
 * An action in both forms the platform knows; either brings back the same data. What it does is said by its title, never
 * by its style alone.
 */
export function sending(
  title: string,
  tone: Button['tone'],
  verb: string,
  data: ActionData,
  ways: Ways = {},
): CardAction {
  const own = { ...looks(title, tone, ways), data };
  if (ways.dialog === true) return { type: 'Action.Submit', ...own };
  return { type: 'Action.Execute', verb, ...own, fallback: { type: 'Action.Submit', ...own } };
}

/** An action that the platform fetches a dialog for. An old client sends its data as a message. */
function fetching(title: string, tone: Button['tone'], data: ActionData, ways: Ways): CardAction {
  return {
    type: 'Action.Submit',
    ...looks(title, tone, ways),
    data: { ...data, msteams: { type: 'task/fetch' } },
  };
}

const looks = (title: string, tone: Button['tone'], { associatedInputs }: Ways) => ({
  title: plainLine(title),
  ...styles[tone],
  ...(associatedInputs === undefined ? {} : { associatedInputs }),
});

/** A button as an action. Throws RangeError when its action is longer than any surface takes. */
export function buttonAction(
  { label, tone, action }: Button,
  title: string,
  { of, dialog = false }: ActionOptions,
  associatedInputs?: 'none',
): CardAction {
  const value = encodeAction(action);
  if (value.length > limits.actionData.most)
    throw new RangeError(
      `The button "${label}" (${action.kind}) carries ${value.length} characters; at most ${limits.actionData.most} ` +
        'are taken. Put an id into its action instead of the text itself.',
    );
  const data = { action: value, ...(of === undefined ? {} : { of }) };
  if (action.kind === 'open' && !dialog) return fetching(title, tone, data, { associatedInputs });
  return sending(title, tone, action.kind, data, { dialog, associatedInputs });
}

/** Rows of buttons that a phone shows whole: it does not break a row. Labels that may be cut short stand whole above their row, under the number on the button. */
export function actionSets(
  buttons: readonly Button[],
  options: ActionOptions,
): { readonly whole: readonly string[]; readonly sets: readonly CardElement[] } {
  const { short, whole } = shortened(
    buttons.map(({ label }) => label),
    limits.actionTitle.most,
  );
  const actions = buttons.map((button, at) => buttonAction(button, short[at] ?? '–', options));
  const { actionsInSet, actionRow } = limits;
  const rows = packs(actions, actionsInSet.most, actionRow.most, ({ title }) => title.length + EDGES);
  const sets = rows
    .flatMap((row) => packed(row, actionsInSet.most, MOST_ROW))
    .map((row): CardElement => ({ type: 'ActionSet', actions: row }));
  return { whole, sets };
}

/**
 * A button that shows and hides the element with an id. `mark` says which of several it is and is never cut off. A label too
 * long for a button stands whole above, and the button has a short word instead of its first half once more.
 */
export function toggle(
  label: string,
  id: string,
  short: string,
  mark = '',
): { readonly whole: readonly string[]; readonly set: CardElement } {
  const room = limits.actionTitle.most - mark.length;
  const isLong = label.length > room;
  const title = plainLine(`${isLong ? cutText(short, room) : label.trim() === '' ? '–' : label}${mark}`);
  return {
    whole: isLong ? [label] : [],
    set: { type: 'ActionSet', actions: [{ type: 'Action.ToggleVisibility', title, targetElements: [id] }] },
  };
}
