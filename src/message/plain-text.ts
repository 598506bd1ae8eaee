import type { Block, CheckItem, Line, Message, Tone } from './message.ts';
import { timelineLines } from './timeline-text.ts';

export const toneMarks: Readonly<Record<Tone, string>> = {
  plain: '',
  good: '',
  attention: '! ',
  danger: '!! ',
};
export const stateMarks: Readonly<Record<CheckItem['state'], string>> = {
  done: '[x]',
  open: '[ ]',
  next: '[>]',
  skipped: '[-]',
  defect: '[!]',
};

/** A message as plain text: for the terminal, logs, and wherever nothing richer is to be had. Nothing is left out. */
export function plainText(message: Message): string {
  const [first, ...rest] = message.blocks;
  // A message that opens with its own summary does not say it twice.
  const blocks =
    first && blockLines(first).join('').replace(/^!+ /, '').toLowerCase() === message.summary.toLowerCase()
      ? rest
      : message.blocks;
  const body = blocks.flatMap(blockLines);
  return [`${toneMarks[message.tone]}${message.summary}`, ...body.map((text) => `  ${text}`)].join('\n');
}

export function lineText(line: Line): string {
  return line
    .map((piece) => (typeof piece === 'string' ? piece : piece.kind === 'person' ? piece.name : piece.text))
    .join('');
}

function blockLines(block: Block): readonly string[] {
  switch (block.kind) {
    case 'heading':
      return [block.text.toUpperCase()];
    case 'paragraph':
      return [lineText(block.line)];
    case 'list':
      return block.items.map((item, index) => `${block.ordered ? `${index + 1}.` : '-'} ${lineText(item)}`);
    case 'facts':
      return block.facts.map(({ label, value }) => `${label}: ${lineText(value)}`);
    case 'note':
      return [`${toneMarks[block.tone]}${lineText(block.line)}`];
    case 'countdown':
      return [`${toneMarks[block.tone]}${block.label}: ${block.clock}`];
    case 'checklist':
      return block.items.map(({ state, line }) => `${stateMarks[state]} ${lineText(line)}`);
    case 'timeline':
      return timelineLines(block);
    case 'more':
    case 'below':
      return [`${block.label}:`, ...block.blocks.flatMap(blockLines).map((text) => `  ${text}`)];
    case 'divider':
      return ['----'];
    case 'buttons':
      return [block.buttons.map(({ label }) => `[${label}]`).join(' ')];
  }
}
