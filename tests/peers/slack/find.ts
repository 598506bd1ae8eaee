/** Finds what a person wants to press, among what stands there now. */
import { type Answer, answered, type Field, optionOf } from './fill.ts';
import { type Dict, isDict, label, list, text } from './json.ts';

/** What to press: by action_id, by the value behind it, by the words on it; all that are given must fit. */
export type Wanted = { actionId?: string; value?: string; label?: string; answer?: Answer };

type Spot = { block: Dict; element: Dict };

function spots(blocks: readonly Dict[]): Spot[] {
  return blocks.flatMap((block) =>
    [block.accessory, block.element, ...list(block.elements)]
      .filter(isDict)
      .filter((element) => element.action_id !== undefined)
      .map((element) => ({ block, element })),
  );
}

function fits({ element }: Spot, wanted: Wanted): boolean {
  if (wanted.actionId !== undefined && element.action_id !== wanted.actionId) return false;
  if (element.type === 'button') {
    if (wanted.value !== undefined && element.value !== wanted.value) return false;
    return wanted.label === undefined || label(element.text) === wanted.label;
  }
  const choice = wanted.value ?? wanted.label;
  if (choice === undefined) return wanted.actionId !== undefined;
  const all = [
    ...list(element.options),
    ...list(element.option_groups).flatMap((one) => (isDict(one) ? list(one.options) : [])),
  ];
  return all.filter(isDict).some((one) => one.value === choice || label(one.text) === choice);
}

function shown({ element }: Spot): string {
  const words = element.type === 'button' ? `"${label(element.text)}"` : text(element.type);
  return `${words} [${text(element.action_id)}${element.value === undefined ? '' : ` = ${text(element.value)}`}]`;
}

/** The one element that fits; throws when there is none or more than one, and says what there is. */
export function findSpot(blocks: readonly Dict[], wanted: Wanted, where: string): Spot {
  if (wanted.actionId === undefined && wanted.value === undefined && wanted.label === undefined) {
    throw new Error('Say what to press: give actionId, value or label.');
  }
  const all = spots(blocks);
  const found = all.filter((one) => fits(one, wanted));
  const [first] = found;
  if (first !== undefined && found.length === 1) return first;
  const list = all.map(shown).join(', ') || 'nothing to press';
  const what = JSON.stringify(wanted);
  throw new Error(
    `${found.length === 0 ? 'Nothing' : `${found.length} things`} in ${where} fit ${what}. There is: ${list}.`,
  );
}

/** The entry of `actions` that the app gets. */
export function actionOf({ block, element }: Spot, wanted: Wanted, actionTs: string): Dict {
  const base = {
    type: element.type,
    action_id: element.action_id,
    block_id: block.block_id,
    action_ts: actionTs,
  };
  if (element.type === 'button') {
    const { text: words, value, style } = element;
    return {
      ...base,
      text: words,
      ...(value === undefined ? {} : { value }),
      ...(style === undefined ? {} : { style }),
    };
  }
  const answer = wanted.answer ?? wanted.value ?? wanted.label ?? '';
  if (element.type === 'overflow') {
    const one = typeof answer === 'string' ? answer : (answer[0] ?? '');
    return { ...base, selected_option: optionOf(element, one, 'overflow menu') };
  }
  const field: Field = { blockId: text(block.block_id), actionId: text(element.action_id), block, element };
  return { ...base, ...answered(field, answer) };
}
