import type { KnownBlock } from '@slack/types';
import type { RenderOptions, SlackPart } from '../../adapters/slack/render.ts';
import { defaultChatWords } from '../../src/chat/render-words.ts';
import type { Block, Inline, Message } from '../../src/message/message.ts';
import { problemsIn } from '../peers/slack/validate.ts';

/** Pia is linked to the platform, nobody else. */
export const options: RenderOptions = {
  person: (id, name) => (id === 'pia' ? '<@U0PIA>' : name),
  when: (_to, clock) => clock,
  words: defaultChatWords,
  revision: 'briefing:7',
  more: 'inline',
};

/** Written out once more and not taken from the renderer's own table, so that a wrong figure there is found. */
const textMost: Readonly<Record<string, number>> = { header: 150, section: 3000, context: 3000 };

function markupFaults(text: string): readonly string[] {
  const outside = text.replace(/<@[A-Z0-9]+>|<!date\^\d+\^[^<>|]+\|[^<>]*>/g, '@');
  return [
    ...(/[<>]/.test(outside) ? ['a bare < or >'] : []),
    ...(/&(?!(amp|lt|gt);)/.test(outside) ? ['a bare &'] : []),
    ...(/[~`]/.test(outside) ? ['a mark that strikes out or makes code'] : []),
    ...(/(^|\n)\s*&gt;/.test(outside) ? ['a line that would be a quotation'] : []),
    ...text
      .split('\n')
      .flatMap((line) => ((line.split('*').length - 1) % 2 ? [`an odd bold mark in: ${line}`] : [])),
    ...(/\*\s[^*]*\*/.test(text.replace(/\*\S[^*\n]*?\S?\*/g, '')) ? ['bold that is none'] : []),
  ];
}

function blockFaults(block: KnownBlock): readonly string[] {
  const faults: string[] = [];
  const text = (kind: string, value: { type: string; text: string }) => {
    if (value.text.trim() === '' || value.text.length > (textMost[kind] ?? 0))
      faults.push(`${kind}: ${value.text.length} characters`);
    if (value.type === 'mrkdwn') faults.push(...markupFaults(value.text));
  };
  if (
    JSON.stringify(block).match(/"plain_text"/g)?.length !==
    JSON.stringify(block).match(/"emoji":false/g)?.length
  )
    faults.push('typed colons would become pictures');
  if (block.type === 'header') text('header', block.text);
  else if (block.type === 'section' && block.text) {
    text('section', block.text);
    if (block.text.type === 'mrkdwn' && block.text.verbatim !== true) faults.push('not verbatim');
    if (block.expand !== true) faults.push('may hide behind "see more"');
  } else if (block.type === 'context') {
    for (const element of block.elements) if (element.type !== 'image') text('context', element);
  } else if (block.type === 'actions') {
    if (block.elements.length < 1 || block.elements.length > 5)
      faults.push(`${block.elements.length} buttons in a row`);
    for (const element of block.elements) {
      if (element.type !== 'button') faults.push(element.type);
      else if (
        element.text.text.length < 1 ||
        element.text.text.length > 75 ||
        (element.value ?? '').length > 2000
      )
        faults.push(`button ${element.text.text}`);
    }
  } else if (block.type !== 'divider') faults.push(`unexpected ${block.type}`);
  return faults;
}

/** What the loopback platform of the tests would refuse. */
export const platformFaults = (kind: 'message' | 'modal', payload: object): readonly string[] =>
  problemsIn(kind, payload).map((problem) => JSON.stringify(problem));

/** What the platform would refuse or misread in the parts of one message. */
export function partFaults(parts: readonly SlackPart[]): readonly string[] {
  const blocks = parts.flatMap((part) => part.blocks);
  const ids = blocks.map(({ block_id }) => block_id ?? '');
  const actions = blocks
    .flatMap((block) => (block.type === 'actions' ? block.elements : []))
    .map(({ action_id }) => action_id ?? '');
  return [
    ...parts.flatMap((part) => platformFaults('message', { text: part.text, blocks: part.blocks })),
    ...blocks.flatMap(blockFaults),
    ...(new Set(ids).size < ids.length || ids.some((id) => id === '' || id.length > 255)
      ? ['block ids']
      : []),
    ...(new Set(actions).size < actions.length || actions.some((id) => id === '' || id.length > 255)
      ? ['action ids']
      : []),
    ...parts.flatMap(({ text, blocks: own }) => [
      ...(text.length < 1 || text.length > 4000 ? [`text of ${text.length} characters`] : []),
      ...markupFaults(text),
      ...(own.length < 1 || own.length > 50 ? [`${own.length} blocks`] : []),
      ...(JSON.stringify(own).length > 15_000 ? [`blocks of ${JSON.stringify(own).length} characters`] : []),
    ]),
  ];
}

/** What people read in a text of the platform: marks are not seen, escaped characters are. */
export const read = (markup: string): string =>
  markup.replaceAll('*', '').replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&amp;', '&');

/** Texts alike but for white space and for characters that only look alike. */
export function same(text: string): string {
  const alike: Readonly<Record<string, string>> = { '∗': '*', '∼': '~', ˋ: '`', ˍ: '_', '∶': ':', '＞': '>' };
  return text.replace(/[∗∼ˋˍ∶＞]/g, (one) => alike[one] ?? one).replace(/\s/g, '');
}

export function readBlock(block: KnownBlock): string {
  if (block.type === 'header') return block.text.text;
  if (block.type === 'section' && block.text) return read(block.text.text);
  if (block.type === 'actions')
    return block.elements.map((one) => (one.type === 'button' ? one.text.text : '')).join('\n');
  if (block.type === 'context')
    return block.elements.map((one) => (one.type === 'image' ? '' : read(one.text))).join('\n');
  return '';
}

/** Every text of the parts that the platform reads for marks. */
export const markupOf = (parts: readonly SlackPart[]): readonly string[] =>
  parts.flatMap(({ text, blocks }) => [
    text,
    ...blocks.flatMap((block) =>
      block.type === 'section' && block.text?.type === 'mrkdwn' ? [block.text.text] : [],
    ),
  ]);

export const readParts = (parts: readonly SlackPart[]): string =>
  parts.flatMap(({ blocks }) => blocks.map(readBlock)).join('\n');

const inline = (piece: Inline): string =>
  typeof piece === 'string'
    ? piece
    : piece.kind === 'strong'
      ? piece.text
      : piece.id === 'pia'
        ? '<@U0PIA>'
        : piece.name;

/** Every text of a message, but for what stands in a timeline's picture alone. */
export function wordsOf(message: Message): readonly string[] {
  return [message.summary, ...message.blocks.flatMap(wordsOfBlock)];
}

function wordsOfBlock(block: Block): readonly string[] {
  switch (block.kind) {
    case 'heading':
      return [block.text];
    case 'paragraph':
    case 'note':
      return block.line.map(inline);
    case 'list':
      return block.items.flat().map(inline);
    case 'facts':
      return block.facts.flatMap(({ label, value }) => [label, ...value.map(inline)]);
    case 'countdown':
      return [block.label, block.clock];
    case 'checklist':
      return block.items.flatMap(({ line }) => line.map(inline));
    case 'timeline':
      if (block.list === 'beside') return [];
      return [
        block.label,
        block.listLabel,
        ...block.lanes.flatMap(({ label, segments }) => [
          label,
          ...segments.flatMap((one) => [one.clock, one.name, one.label]),
        ]),
      ];
    case 'more':
    case 'below':
      return [block.label, ...block.blocks.flatMap(wordsOfBlock)];
    case 'divider':
      return [];
    case 'buttons':
      return block.buttons.map(({ label }) => label);
  }
}

/** The parts one after the other without the marks "2 of 3", which may stand in the middle of a very long line. */
function unbroken(parts: readonly SlackPart[]): string {
  const own = (block: KnownBlock, at: number) =>
    block.type === 'context' ||
    (at === 0 && block.type === 'section' && /\(\d+ of \d+\)$/.test(readBlock(block)));
  return parts
    .flatMap(({ blocks }) => blocks.filter((block, at) => !own(block, at)).map(readBlock))
    .join('\n');
}

/** Texts of a message that are in none of its parts. */
export function lostWords(message: Message, parts: readonly SlackPart[]): readonly string[] {
  const shown = same(unbroken(parts));
  return wordsOf(message).filter((text) => !shown.includes(same(text)));
}
