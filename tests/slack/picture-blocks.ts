import { type Dict, dicts, isDict, label, list, text } from '../peers/slack/json.ts';
import type { ViewState } from '../peers/slack/types.ts';

/** Who an id in a mention is, as people see it. */
export type NameOf = (member: string) => string;

/**
 * The blocks as the drawing library has to get them. It takes `verbatim` for "no marks at all", where the platform only
 * leaves off links and mentions; it shows no chosen option of a closed list; and it knows no "optional".
 */
export function drawable(blocks: readonly Dict[], errors: ViewState['errors'] = {}): Dict[] {
  return blocks.map(shielded).map((block) => {
    const out: Dict = { ...block };
    if (isDict(block.text)) out.text = unmarked(block.text);
    if (Array.isArray(block.elements))
      out.elements = block.elements.map((one) =>
        isDict(one) && one.type === 'mrkdwn' ? unmarked(one) : one,
      );
    if (block.type !== 'input') return out;
    // From memory: the platform writes this behind the label of a field that may stay empty.
    if (block.optional === true) out.label = plain(`${label(block.label)} (optional)`);
    if (isDict(block.element)) out.element = chosen(block.element);
    const error = errors[text(block.block_id)];
    if (error !== undefined) out.hint = plain(`▲ ${error}`);
    return out;
  });
}

/** The library takes what stands between two colons for the name of a picture, "30–07" as well: a look-alike for them. */
export const COLON = '∶';

/** The same with a look-alike for each colon; ids and values stay as they are. */
function shielded(block: Dict): Dict {
  return Object.fromEntries(
    Object.entries(block).map(([key, value]) => {
      if (key === 'text' && typeof value === 'string')
        return [key, value.replace(/<![^>]*>|:/g, (one) => (one === ':' ? COLON : one))];
      if (isDict(value)) return [key, shielded(value)];
      return [key, Array.isArray(value) ? value.map((one) => (isDict(one) ? shielded(one) : one)) : value];
    }),
  );
}

const plain = (words: string): Dict => ({ type: 'plain_text', text: words });

function unmarked({ verbatim: _, ...rest }: Dict): Dict {
  return rest;
}

function chosen(element: Dict): Dict {
  // The library gives every text field five lines; this other field has one.
  if (element.type === 'plain_text_input' && element.multiline !== true)
    return { ...element, type: 'url_text_input', placeholder: plain(' ') };
  if (element.type !== 'static_select' && element.type !== 'multi_static_select') return element;
  const { initial_option: one, initial_options: several, ...rest } = element;
  const names = [one, ...list(several)].filter(isDict).map((option) => label(option.text));
  return names.length === 0 ? element : { ...rest, placeholder: plain(names.join(', ')) };
}

/** Everything that somebody reads in these blocks without opening a list, in their order, marks as they are. */
export function readable(blocks: readonly Dict[]): string[] {
  return blocks.flatMap((block) => {
    const { element } = block;
    const inside = isDict(element) ? [...openOptions(element), ...startText(element)] : [];
    const beside = [block.text, block.label, block.hint, ...list(block.fields)].filter(isDict);
    const elements = dicts(block.elements).flatMap((one) => (isDict(one.text) ? [one.text] : [one]));
    return [...[...beside, ...elements].map((one) => text(one.text)), ...inside].filter((one) => one !== '');
  });
}

/** Radio buttons and boxes stand open; a list is closed. */
function openOptions(element: Dict): string[] {
  if (element.type !== 'radio_buttons' && element.type !== 'checkboxes') return [];
  return dicts(element.options).map((option) => label(option.text));
}

const startText = (element: Dict): string[] =>
  [element.initial_value, element.initial_time, element.initial_date].map(text);
