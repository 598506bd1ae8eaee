/**
 * What the platform would refuse in a message, a modal or a Home view, without asking it.
 * Sources: comments of @slack/types 3.2.0; docs.slack.dev/reference/block-kit; docs.slack.dev/reference/views.
 * Answer shape: docs.slack.dev/reference/methods/blocks.validate.
 */
import { dict, isDict, list } from './json.ts';
import { BLOCKS, standsOn } from './validate/blocks.ts';
import { plain } from './validate/parts.ts';
import {
  bool,
  many,
  type Problem,
  type Rule,
  report,
  type Surface,
  shape,
  str,
  typed,
  type Walk,
} from './validate/rules.ts';

export type { Problem, Surface } from './validate/rules.ts';

/** Blocks in one message, and in one modal or Home view (docs.slack.dev/reference/block-kit/blocks). */
export const MOST_BLOCKS = { message: 50, modal: 100, home: 100 } as const;
/** A view's JSON, in bytes: 250 KB, read as the smaller of the two meanings (docs.slack.dev/reference/methods/views.open). */
export const MOST_VIEW_BYTES = 250_000;
/** A message's `text` is cut above this (docs.slack.dev, message_truncated). */
export const MOST_TEXT = 40_000;

const anyBlock = typed(BLOCKS, 'block');

const block: Rule = (value, at, walk) => {
  anyBlock(value, at, walk);
  const { type, block_id: id, element } = dict(value);
  if (typeof type === 'string' && type in BLOCKS && !standsOn(type, walk.surface)) {
    report(walk, `${at}/type`, 'surface', 'message', `a ${type} block cannot stand in a ${walk.surface}`);
  }
  if (dict(element).type === 'file_input' && walk.surface !== 'modal') {
    report(walk, `${at}/element/type`, 'surface', 'modal', 'a file_input can stand in a modal only');
  }
  if (typeof id !== 'string') return;
  const before = walk.blockIds.get(id);
  if (before !== undefined) {
    report(walk, `${at}/block_id`, 'unique', before, `block_id "${id}" already exists at ${before}`);
  } else walk.blockIds.set(id, at);
};

const blocksOf = (surface: Surface): Rule => many(block, 0, MOST_BLOCKS[surface]);

const VIEW = { callback_id: str({ min: 0, max: 255 }), external_id: str({ min: 0, max: 255 }) };
const NOTES = { ...VIEW, private_metadata: str({ min: 0, max: 3000 }) };
const MODAL = shape(
  { type: str({ oneOf: ['modal'] }), title: plain(24), blocks: blocksOf('modal') },
  { ...NOTES, submit: plain(24), close: plain(24), clear_on_close: bool, notify_on_close: bool },
  (value, at, walk) => {
    const asks = list(value.blocks).some((one) => dict(one).type === 'input');
    if (asks && value.submit === undefined) {
      report(walk, `${at}/submit`, 'required', 'submit', 'a modal with an input block needs a submit button');
    }
  },
);
const HOME = shape({ type: str({ oneOf: ['home'] }), blocks: blocksOf('home') }, NOTES);

const oneTable = (blocks: unknown, at: string, walk: Walk): void => {
  const tables = list(blocks).filter((one) => dict(one).type === 'table').length;
  // From memory, not confirmed: one table in a message.
  if (tables > 1) report(walk, at, 'max_tables', 1, 'a message holds one table');
};

/**
 * Every fault of a payload; none for a good one.
 * A message is its block list, or an object with `text` and `blocks`; a modal or Home is the view object.
 */
export function problemsIn(kind: Surface, given: unknown): Problem[] {
  // As it goes over the wire: what is undefined is not there.
  const payload: unknown = JSON.parse(JSON.stringify(given) ?? 'null');
  const walk: Walk = { surface: kind, problems: [], blockIds: new Map(), focus: null };
  if (kind === 'message') {
    const blocks = isDict(payload) ? (payload.blocks ?? []) : payload;
    if (isDict(payload) && payload.text !== undefined) {
      str({ min: 0, max: MOST_TEXT })(payload.text, '/text', walk);
    }
    blocksOf('message')(blocks, '', walk);
    oneTable(blocks, '', walk);
    return walk.problems;
  }
  const rule = kind === 'modal' ? MODAL : HOME;
  rule(payload, '', walk);
  const bytes = Buffer.byteLength(JSON.stringify(payload));
  if (bytes > MOST_VIEW_BYTES) {
    report(
      walk,
      '',
      'max_bytes',
      MOST_VIEW_BYTES,
      `the view has ${bytes} bytes, ${MOST_VIEW_BYTES} are allowed`,
    );
  }
  return walk.problems;
}

/** The refusal of the platform for these problems. */
export function refusal(kind: Surface, problems: readonly Problem[]) {
  const messages = problems.map((one) => `[ERROR] ${one.message} [json-pointer:${one.pointer}]`);
  const tooLarge = problems.some((one) => one.constraint.type === 'max_bytes');
  const error = kind === 'message' ? 'invalid_blocks' : tooLarge ? 'view_too_large' : 'invalid_arguments';
  return { ok: false as const, error, errors: [...problems], response_metadata: { messages } };
}
