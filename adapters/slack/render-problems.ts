import type { ChatWords } from '../../src/chat/render-words.ts';
import type { FieldProblem, Form } from '../../src/message/form.ts';
import { blockIdOf } from './render-field.ts';
import { tonePrefix } from './render-lines.ts';
import { bold, escapeText, type TextLine, textLines } from './render-text.ts';

/** The names of the fields that have an input in this modal. */
function inputsOf(form: Form): ReadonlySet<string> {
  return new Set(
    form.fields.flatMap((field) => {
      if (field.kind === 'group') return [];
      const empty = (field.kind === 'choice' || field.kind === 'choices') && field.options.length === 0;
      return empty ? [] : [field.name];
    }),
  );
}

/** For `response_action: errors`: what to mend, by the block it is shown at. The platform refuses any other block. */
export function renderProblems(problems: readonly FieldProblem[], form: Form): Record<string, string> {
  const inputs = inputsOf(form);
  const byField = new Map<string, readonly string[]>();
  for (const { field, message } of problems)
    if (inputs.has(field)) byField.set(field, [...(byField.get(field) ?? []), message]);
  return Object.fromEntries([...byField].map(([field, messages]) => [blockIdOf(field), messages.join(' ')]));
}

/**
 * Problems with no input in this modal. When there are any, errors at the inputs are not enough: show the modal again
 * with all problems on top (`renderForm` with `problems`), or they would be seen nowhere.
 */
export function problemsElsewhere(problems: readonly FieldProblem[], form: Form): readonly FieldProblem[] {
  const inputs = inputsOf(form);
  return problems.filter(({ field }) => !inputs.has(field));
}

/** All problems as lines, each with the label of its field where this form has it. */
export function problemLines(
  problems: readonly FieldProblem[],
  form: Form,
  words: ChatWords,
): readonly TextLine[] {
  const labels = new Map(form.fields.map((field) => [field.name, field.label]));
  const lead = `${tonePrefix('attention', words)}${escapeText(words.formProblems)}`;
  return [
    ...textLines(bold(lead), lead, 'first'),
    ...problems.flatMap(({ field, message }) => {
      const label = labels.get(field);
      const text = `• ${label === undefined ? '' : `${escapeText(label)}: `}${escapeText(message)}`;
      return textLines(text, text, 'first');
    }),
  ];
}
