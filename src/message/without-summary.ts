import type { Block, Message } from './message.ts';
import { lineText } from './plain-text.ts';

/** The blocks without a first one that says the summary once more. One with a mention in it is kept. */
export function withoutSummary({ blocks, summary, tone }: Message): readonly Block[] {
  const [first, ...rest] = blocks;
  if (first?.kind === 'heading') return first.text === summary ? rest : blocks;
  if (first?.kind !== 'paragraph' && first?.kind !== 'note') return blocks;
  const mentions = first.line.some((piece) => typeof piece !== 'string' && piece.kind === 'person');
  const other = first.kind === 'note' && first.tone !== tone;
  return mentions || other || lineText(first.line) !== summary ? blocks : rest;
}
