import type { ChatWords } from '../../src/chat/render-words.ts';
import type { FieldProblem, Form } from '../../src/message/form.ts';
import { tonePrefix } from './render-lines.ts';
import { type Piece, textPieces } from './render-pieces.ts';

/** All problems on top of the sheet, each with the label of its field where this form has it. */
export function problemPieces(
  problems: readonly FieldProblem[],
  form: Form,
  words: ChatWords,
): readonly Piece[] {
  if (problems.length === 0) return [];
  const labels = new Map(form.fields.map((field) => [field.name, field.label]));
  const lines = problems.flatMap(({ field, message }) => {
    const label = labels.get(field);
    return textPieces(`• ${label === undefined ? '' : `${label}: `}${message}`);
  });
  const lead = textPieces(`${tonePrefix('attention', words)}${words.formProblems}`, true);
  return [...lead, ...lines].map(({ elements, mentions }) => ({
    elements: [{ type: 'Container', style: 'warning', spacing: 'Small', items: elements }],
    mentions,
  }));
}
