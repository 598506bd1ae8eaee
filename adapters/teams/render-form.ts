import { cutText } from '../../src/chat/cut.ts';
import { type Section, sectionsOf } from '../../src/chat/form-steps.ts';
import { fill } from '../../src/chat/render-words.ts';
import type { Field, FieldProblem, Form } from '../../src/message/form.ts';
import type { Button, Message } from '../../src/message/message.ts';
import { limits, MOST_ACTIVITY, OWN_ACTIVITY } from './limits.ts';
import { cardOf, countedOptions, summaryPieces } from './render.ts';
import { type ActionOptions, buttonAction, sending } from './render-actions.ts';
import { activitySize, type Card } from './render-card.ts';
import { fieldPieces, noteOf } from './render-field.ts';
import type { Metadata } from './render-metadata.ts';
import { foldPieces, type Piece, type PieceOptions, pieceOf, piecesOf, textPieces } from './render-pieces.ts';
import { problemPieces } from './render-problems.ts';
import { plainLine, type TextOptions } from './render-text.ts';

export interface FormOptions extends TextOptions, ActionOptions {
  /** Where what was typed on earlier steps is kept. */
  readonly draft?: string;
  /** The shift it is opened in; null when there is none. */
  readonly shift?: string | null;
  /** Which step of how many, from 1. */
  readonly step?: { readonly at: number; readonly of: number };
  /** What to mend, shown on top and at the fields. */
  readonly problems?: readonly FieldProblem[];
  /** Why the flow did not take it. */
  readonly refusal?: Message | undefined;
  /** What leads back without sending, where the card does not stand in a dialog that can be closed. */
  readonly back?: Button['action'];
}

/** The verb of the action that sends a form; its data is read by `readForm`. */
export const SEND = 'send';

/**
 * A question sheet as a card. `title` is also on the card. Throws RangeError, saying how to mend it, when the platform
 * cannot take it; `renderFormSteps` makes several of one that is too long.
 */
export function renderForm(
  form: Form,
  options: FormOptions,
): { readonly title: string; readonly card: Card } {
  const made = formCard(form, options);
  const size = formSize(made);
  if (size > MOST_ACTIVITY - OWN_ACTIVITY)
    throw new RangeError(
      `The form "${form.id}" makes a card of ${size} characters; the chat platform takes ` +
        `${MOST_ACTIVITY - OWN_ACTIVITY}. Show it in steps, or answer it on the board.`,
    );
  return made;
}

export const fits = (form: Form, options: FormOptions): boolean =>
  formSize(formCard(form, options)) <= MOST_ACTIVITY - OWN_ACTIVITY;

const formSize = ({ title, card }: { readonly title: string; readonly card: Card }): number =>
  activitySize({ summary: title, card });

function formCard(form: Form, options: FormOptions) {
  const title = cutText(plainLine(form.title), 500) || '–';
  return { title, card: cardOf(formPieces(form, options), title) };
}

/** Everything on the sheet, top to bottom: title, what to mend, intro, fields, buttons. */
function formPieces(form: Form, options: FormOptions): readonly Piece[] {
  const { words, step, problems = [], refusal } = options;
  const counted = countedOptions(options);
  return [
    ...summaryPieces({ summary: form.title, tone: 'plain', blocks: [] }, options),
    ...(step === undefined ? [] : textPieces(fill(words.step, step))),
    ...(refusal === undefined
      ? []
      : [
          ...textPieces(words.formRefused, true),
          ...summaryPieces(refusal, options),
          ...piecesOf(refusal.blocks, counted),
        ]),
    ...problemPieces(problems, form, words),
    ...piecesOf(form.intro, counted),
    ...sectionsOf(form.fields).flatMap((section) => sectionPieces(section, problems, counted)),
    ...sendPieces(form, options),
  ];
}

function sectionPieces(
  { head, fields }: Section,
  problems: readonly FieldProblem[],
  options: PieceOptions,
): readonly Piece[] {
  const messages = (name: string) => problems.flatMap((one) => (one.field === name ? [one.message] : []));
  const pieces = fields.flatMap((field) => fieldPieces(field, messages(field.name), options.words));
  // A required input that is not seen would hold the form back without a word.
  const open = fields.some(
    (field) =>
      field.kind !== 'group' && (field.required || isFilled(field) || messages(field.name).length > 0),
  );
  if (head?.folded === true && !open) return foldPieces(head.label, pieces, options);
  return [...(head === null ? [] : fieldPieces(head, [], options.words)), ...pieces];
}

function isFilled(field: Exclude<Field, { kind: 'group' }>): boolean {
  return field.kind === 'choices' ? field.value.length > 0 : String(field.value ?? '') !== '';
}

function sendPieces(form: Form, options: FormOptions): readonly Piece[] {
  const { words, step, back, dialog = false } = options;
  const label = step === undefined || step.at >= step.of ? form.submit : words.next;
  const most = limits.actionTitle.most;
  const data = { form: JSON.stringify(metadataOf(form, options)) };
  const send = sending(cutText(label, most), form.tone === 'danger' ? 'danger' : 'main', SEND, data, {
    dialog,
  });
  const close = (action: Button['action']) =>
    buttonAction(
      { label: words.close, tone: 'plain', action },
      cutText(words.close, most),
      { dialog },
      'none',
    );
  return [
    ...(label.length > most ? textPieces(label, true) : []),
    pieceOf({ type: 'ActionSet', actions: [send, ...(back === undefined ? [] : [close(back)])] }),
  ];
}

function metadataOf(form: Form, { draft, shift, step }: FormOptions): Metadata {
  return {
    form: form.id,
    about: { ...form.about },
    ...(shift === undefined ? {} : { shift }),
    ...(draft === undefined ? {} : { draft }),
    ...(step === undefined ? {} : { step: { ...step } }),
    fields: form.fields.flatMap((field) => noteOf(field) ?? []),
  };
}
