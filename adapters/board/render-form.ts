import { html } from 'hono/html';
import type { Field, FieldProblem, Form, FormValues } from '../../src/message/form.ts';
import type { Message } from '../../src/message/message.ts';
import { type FieldContext, fieldId, isFilled, renderField } from './render-field.ts';
import { boardFields, formPath, type Html, type RenderContext, renderBlockList } from './render-html.ts';
import { renderMessage } from './render-message.ts';

export interface FormState {
  readonly typed: FormValues;
  readonly problems: readonly FieldProblem[];
  /** Why the flow did not take it, when it did not. */
  readonly refusal: Message | null;
}

export const freshForm: FormState = { typed: {}, problems: [], refusal: null };

/** A question sheet. Its intro stands outside the form element: buttons in it are forms of their own. */
export function renderForm(form: Form, state: FormState, context: RenderContext): Html {
  const { words, back } = context;
  return html`
${state.refusal === null ? '' : html`<div role="alert" id="refusal" tabindex="-1" autofocus><p class="lead">${words.formRefused}</p>${renderMessage(state.refusal, 'refused', context)}</div>`}
${state.problems.length === 0 ? '' : problemList(form, state.problems, words.formProblems)}
<div class="intro">${renderBlockList(form.intro, 'intro', context)}</div>
<form class="sheet" method="post" action="${formPath(form, back)}" novalidate>
${boardFields(context)}
${renderFields(form.fields, { words, typed: state.typed, problems: state.problems })}
<div class="buttons"><button class="button" id="submit" data-tone="${form.tone}">${form.submit}</button><a class="button" href="${back}">${words.formBack}</a></div>
</form>`;
}

/** Fields in their order; a folded group keeps what follows it, up to the next heading, behind its label. */
function renderFields(fields: readonly Field[], context: FieldContext): readonly Html[] {
  const parts: { readonly head: Field | null; readonly fields: Field[] }[] = [{ head: null, fields: [] }];
  for (const field of fields) {
    if (field.kind === 'group') parts.push({ head: field, fields: [] });
    else parts.at(-1)?.fields.push(field);
  }
  return parts.map(({ head, fields: inside }) => {
    const shown = inside.map((field) => renderField(field, context));
    if (head?.kind !== 'group') return html`${shown}`;
    if (head.folded !== true) return html`${renderField(head, context)}${shown}`;
    const open = inside.some((field) => isFilled(field, context));
    return html`<details class="folded"${open ? html` open` : ''}><summary>${head.label}</summary><div class="fields">${shown}</div></details>`;
  });
}

/** What to mend, at the top, each leading to its field; focus starts here so that it is read out. */
function problemList(form: Form, problems: readonly FieldProblem[], lead: string): Html {
  const fields = new Map(form.fields.map((field) => [field.name, field.label]));
  const item = (problem: FieldProblem) => {
    const label = fields.get(problem.field);
    return label === undefined
      ? html`<li>${problem.message}</li>`
      : html`<li><a href="#${fieldId(problem.field)}">${label}: ${problem.message}</a></li>`;
  };
  return html`<div class="problems" role="alert" id="problems" tabindex="-1" autofocus><p class="lead">${lead}</p><ul>${problems.map(item)}</ul></div>`;
}
