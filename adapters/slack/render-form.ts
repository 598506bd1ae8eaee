import type { KnownBlock, ModalView } from '@slack/types';
import { fill } from '../../src/chat/render-words.ts';
import type { FieldProblem, Form } from '../../src/message/form.ts';
import type { Message } from '../../src/message/message.ts';
import { limits } from './limits.ts';
import { fieldBlocks } from './render-field.ts';
import { tonePrefix } from './render-lines.ts';
import { writeMetadata } from './render-metadata.ts';
import { optionSet } from './render-options.ts';
import { joined } from './render-parts.ts';
import { boldLines, headingPieces, type Piece, piecesOf, plainText, sections } from './render-pieces.ts';
import { problemLines } from './render-problems.ts';
import { bold, escapeText, type TextOptions, textLines } from './render-text.ts';
import { cutText } from './split.ts';

export interface FormOptions extends TextOptions {
  /** Where what was typed on earlier steps is kept. */
  readonly draft?: string;
  /** The shift it is opened in; null when there is none. */
  readonly shift?: string | null;
  /** Which step of how many, from 1. */
  readonly step?: { readonly at: number; readonly of: number };
  /** What to mend, shown on top. Beside their fields they are shown by `renderProblems`. */
  readonly problems?: readonly FieldProblem[];
  /** Why the flow did not take it. */
  readonly refusal?: Message | undefined;
}

/**
 * A question sheet as a modal. Throws RangeError, saying what and how to mend it, when the platform cannot take it;
 * `formSteps` makes several of one that is too long.
 */
export function renderForm(form: Form, options: FormOptions): { readonly view: ModalView } {
  const blocks = formBlocks(form, options);
  const { words, draft, step } = options;
  const values = fieldValues(form);
  const view: ModalView = {
    type: 'modal',
    callback_id: `form:${form.id}`,
    title: plainText(shortTitle(form.title)),
    submit: plainText(cutText(submitLabel(form, options), limits.modalSubmit.most)),
    close: plainText(cutText(words.close, limits.modalClose.most)),
    private_metadata: writeMetadata(
      {
        form: form.id,
        about: { ...form.about },
        ...(options.shift === undefined ? {} : { shift: options.shift }),
        ...(draft === undefined ? {} : { draft }),
        ...(step === undefined ? {} : { step: { ...step } }),
        ...(Object.keys(values).length === 0 ? {} : { values }),
      },
      form,
    ),
    blocks: [...blocks],
  };
  const bytes = viewBytes(view);
  if (blocks.length > limits.blocksInModal.most || bytes > limits.viewBytes.most)
    throw new RangeError(
      `The form "${form.id}" makes ${blocks.length} blocks of ${bytes} bytes; the chat platform takes ` +
        `${limits.blocksInModal.most} of ${limits.viewBytes.most}. Show it in steps.`,
    );
  return { view };
}

/** What a title is about, without what it is about in particular: the whole stands right below it. */
function shortTitle(title: string): string {
  const [about = ''] = title.split(/[:,] /);
  const fits = about !== '' && about.length <= limits.modalTitle.most;
  return title.length > limits.modalTitle.most && fits ? about : cutText(title, limits.modalTitle.most);
}

export const viewBytes = (view: unknown): number => new TextEncoder().encode(JSON.stringify(view)).length;

const isLast = ({ step }: FormOptions): boolean => step === undefined || step.at >= step.of;

const submitLabel = (form: Form, options: FormOptions): string =>
  isLast(options) ? form.submit : options.words.next;

/** Option values that travel in the metadata, by field. */
function fieldValues(form: Form): Record<string, Record<string, string>> {
  return Object.fromEntries(
    form.fields.flatMap((field) => {
      if (field.kind !== 'choice' && field.kind !== 'choices') return [];
      const { values } = optionSet(field);
      return Object.keys(values).length === 0 ? [] : [[field.name, { ...values }]];
    }),
  );
}

/** Everything on the sheet, top to bottom: what was cut in its title and button, what to mend, intro, fields. */
export function formBlocks(form: Form, options: FormOptions): readonly KnownBlock[] {
  const { words, step, problems = [], refusal } = options;
  const submit = submitLabel(form, options);
  let action = -1;
  const counted = {
    ...options,
    nextAction: () => {
      action += 1;
      return action;
    },
  };
  const plain = (text: string) => sections(textLines(escapeText(text), escapeText(text), 'rest'));
  const pieces: readonly Piece[] = [
    ...(form.title.length > limits.modalTitle.most ? headingPieces(form.title) : []),
    ...(step === undefined ? [] : plain(fill(words.step, step))),
    ...(refusal === undefined ? [] : refusalPieces(refusal, counted)),
    ...(problems.length === 0 ? [] : sections(problemLines(problems, form, words))),
    ...piecesOf(form.intro, counted),
  ];
  const top = pieces.length + form.fields.length > limits.blocksInModal.most ? joined(pieces) : pieces;
  return [
    ...top.map(({ block }) => block),
    ...form.fields.flatMap((field) => fieldBlocks(field, words)),
    ...(submit.length > limits.modalSubmit.most
      ? plain(fill(words.submits, { label: submit })).map(({ block }) => block)
      : []),
  ];
}

function refusalPieces(refusal: Message, counted: Parameters<typeof piecesOf>[1]): readonly Piece[] {
  const { words } = counted;
  const summary = `${tonePrefix(refusal.tone, words)}${escapeText(refusal.summary)}`;
  return [
    ...sections([...boldLines(words.formRefused, 'first'), ...textLines(bold(summary), summary, 'first')]),
    ...piecesOf(refusal.blocks, counted),
  ];
}
