import { html } from 'hono/html';
import type { Field, FieldProblem, FormValues, Option } from '../../src/message/form.ts';
import { toneIcons } from './icons.ts';
import type { Html } from './render-html.ts';
import { type BoardWords, fill } from './words.ts';

export interface FieldContext {
  readonly words: BoardWords;
  /** As typed, to show again after a problem; empty for a fresh form. */
  readonly typed: FormValues;
  readonly problems: readonly FieldProblem[];
}

type Input = Exclude<Field, { kind: 'group' }>;
type InputOf<K extends Input['kind']> = Extract<Input, { kind: K }>;

/** More choices than this become a drop-down list; up to here each is a tile that a glove can hit. */
const MOST_TILES = 12;

export const fieldId = (name: string): string => `f-${name}`;

interface Spot {
  readonly id: string;
  readonly words: BoardWords;
  readonly value: string;
  readonly chosen: readonly string[];
  /** The attributes that tie a control to its hint and its problem. */
  readonly ties: Html;
}

/** One field with its label, unit, hint and, beside it, what is wrong with it. */
export function renderField(field: Field, context: FieldContext): Html {
  if (field.kind === 'group') return html`<h2 class="group">${field.label}</h2>`;
  const { words } = context;
  const id = fieldId(field.name);
  const problems = context.problems.filter((problem) => problem.field === field.name);
  const described = [field.hint === undefined ? '' : `${id}-hint`, problems.length > 0 ? `${id}-problem` : '']
    .filter((part) => part !== '')
    .join(' ');
  const spot: Spot = {
    id,
    words,
    ...shownValue(field, context.typed[field.name]),
    ties: html`${described === '' ? '' : html` aria-describedby="${described}"`}${problems.length > 0 ? html` aria-invalid="true"` : ''}`,
  };
  const label = html`${field.label}${field.required ? '' : html` <span class="optional">(${words.optional})</span>`}`;
  const hint = field.hint === undefined ? '' : html`<p class="hint" id="${id}-hint">${field.hint}</p>`;
  const problem =
    problems.length === 0
      ? ''
      : html`<p class="problem" id="${id}-problem">${toneIcons.danger}<span>${problems.map((one) => one.message).join(' ')}</span></p>`;
  if (isTiles(field)) {
    const list = described === '' ? '' : html` aria-describedby="${described}"`;
    return html`<fieldset class="field" id="${id}" tabindex="-1"${list}><legend>${label}</legend>${hint}${problem}${renderInput(field, spot)}</fieldset>`;
  }
  return html`<div class="field"><label for="${id}">${label}</label>${hint}${problem}${renderInput(field, spot)}</div>`;
}

function isTiles(field: Input): boolean {
  return field.kind === 'choices' || (field.kind === 'choice' && field.options.length <= MOST_TILES);
}

/** True when a field holds something or has to be mended: it must not be folded away. */
export function isFilled(field: Field, { typed, problems }: FieldContext): boolean {
  if (field.kind === 'group') return false;
  const { value, chosen } = shownValue(field, typed[field.name]);
  return (
    value !== '' ||
    chosen.some((one) => one !== '') ||
    problems.some(({ field: name }) => name === field.name)
  );
}

/** What to show in the field: what was typed, even when it cannot be taken, before what the form proposes. */
function shownValue(
  field: Input,
  typed: string | readonly string[] | undefined,
): Pick<Spot, 'value' | 'chosen'> {
  if (typed !== undefined) {
    const list = typeof typed === 'string' ? [typed] : typed;
    return { value: list.at(-1) ?? '', chosen: list };
  }
  if (field.kind === 'choices') return { value: '', chosen: field.value };
  return { value: String(field.value ?? ''), chosen: field.value === undefined ? [] : [String(field.value)] };
}

const inputs = {
  number: (field, { id, value, words, ties }) =>
    html`<div class="number"><button type="button" class="button step" data-step="${-field.step}" data-for="${id}" aria-label="${fill(words.lower, { label: field.label })}" hidden>−</button><input id="${id}" name="${field.name}" type="text" inputmode="decimal" autocomplete="off" value="${value}"${required(field)}${ties} /><button type="button" class="button step" data-step="${field.step}" data-for="${id}" aria-label="${fill(words.raise, { label: field.label })}" hidden>+</button><span class="unit" dir="ltr">${field.unit}</span></div>`,
  text: (field, { id, value, ties }) =>
    field.long
      ? html`<textarea id="${id}" name="${field.name}" rows="4"${required(field)}${ties}>${value}</textarea>`
      : html`<input id="${id}" name="${field.name}" type="text" autocomplete="off" value="${value}"${required(field)}${ties} />`,
  time: (field, { id, value, ties }) =>
    html`<input id="${id}" name="${field.name}" type="time" value="${value}"${required(field)}${ties} />`,
  date: (field, { id, value, ties }) =>
    html`<input id="${id}" name="${field.name}" type="date" value="${value}"${required(field)}${ties} />`,
  choice: (field, spot) => (isTiles(field) ? tiles('radio', field, spot) : dropDown(field, spot)),
  choices: (field, spot) => tiles('checkbox', field, spot),
} as const satisfies { readonly [K in Input['kind']]: (field: InputOf<K>, spot: Spot) => Html };

function renderInput<K extends Input['kind']>(field: InputOf<K>, spot: Spot): Html {
  const render = inputs[field.kind as K] as (field: InputOf<K>, spot: Spot) => Html;
  return render(field, spot);
}

const required = (field: Input) => (field.required ? html` required` : '');

function tiles(type: 'radio' | 'checkbox', field: InputOf<'choice' | 'choices'>, { id, chosen }: Spot): Html {
  const tile = (option: Option, at: number) =>
    html`<label class="tile" for="${id}-${at}"><input id="${id}-${at}" type="${type}" name="${field.name}" value="${option.value}"${chosen.includes(option.value) ? html` checked` : ''} /><span>${option.label}</span></label>`;
  return html`<div class="tiles">${field.options.map(tile)}</div>`;
}

function dropDown(field: InputOf<'choice'>, { id, value, words, ties }: Spot): Html {
  const option = ({ value: own, label }: Option) =>
    html`<option value="${own}"${own === value ? html` selected` : ''}>${label}</option>`;
  return html`<select id="${id}" name="${field.name}"${required(field)}${ties}>${option({ value: '', label: words.chooseOne })}${field.options.map(option)}</select>`;
}
