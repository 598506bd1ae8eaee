import type { Block, Message } from '../../src/message/message.ts';
import { lineText } from '../../src/message/plain-text.ts';

/** Every piece of text a person must be able to read in a message, in its order. Buttons by their labels. */
export function wordsOf(message: Message): readonly string[] {
  return [message.summary, ...message.blocks.flatMap(blockWords)].filter((text) => text !== '');
}

function blockWords(block: Block): readonly string[] {
  switch (block.kind) {
    case 'heading':
      return [block.text];
    case 'paragraph':
    case 'note':
      return [lineText(block.line)];
    case 'list':
      return block.items.map(lineText);
    case 'facts':
      return block.facts.flatMap(({ label, value }) => [label, lineText(value)]);
    case 'countdown':
      return [block.label, block.clock];
    case 'checklist':
      return block.items.map(({ line }) => lineText(line));
    case 'timeline':
      return [
        block.label,
        ...block.marks.map(({ label }) => label),
        ...block.lanes.flatMap(({ label, segments }) => [
          label,
          ...(block.list === 'beside' ? [] : segments).flatMap((segment) => [
            segment.name,
            segment.clock,
            segment.label,
          ]),
        ]),
      ];
    case 'more':
    case 'below':
      return [block.label, ...block.blocks.flatMap(blockWords)];
    case 'divider':
      return [];
    case 'buttons':
      return block.buttons.map(({ label }) => label);
  }
}
