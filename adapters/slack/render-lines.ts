import { stateMark, toneMark } from '../../src/chat/render-marks.ts';
import type { ChatWords } from '../../src/chat/render-words.ts';
import type { Block, CheckItem, Line, Tone } from '../../src/message/message.ts';
import { segmentText } from '../../src/message/timeline-text.ts';
import {
  bold,
  escapeText,
  linesOf,
  type Rank,
  type TextLine,
  type TextOptions,
  textLines,
  whenText,
} from './render-text.ts';

/** Blocks that are lines of text; the others have a shape of their own. */
export type TextBlock = Exclude<Block, { kind: 'heading' | 'more' | 'below' | 'divider' | 'buttons' }>;

const CLOCK = /\d{1,2}:\d{2}/;

/** "!! Danger", escaped; nothing for plain. */
export const toneText = (tone: Tone, words: ChatWords): string => escapeText(toneMark(tone, words));

/** The same in front of a line: "!! Danger: ". */
export function tonePrefix(tone: Tone, words: ChatWords): string {
  const text = toneText(tone, words);
  return text === '' ? '' : `${text}: `;
}

const statePrefix = (state: CheckItem['state'], words: ChatWords): string =>
  `${escapeText(stateMark(state, words))}: `;

/** Every word of a block, line by line. */
export function blockLines(block: TextBlock, options: TextOptions): readonly TextLine[] {
  const { words } = options;
  const timed = (line: Line, rank: Rank, prefix = '') =>
    linesOf(line, options, rank, prefix).map((one) =>
      rank === 'rest' && CLOCK.test(one.plain) ? { ...one, rank: 'next' as const } : one,
    );
  switch (block.kind) {
    case 'paragraph':
      return timed(block.line, 'rest');
    case 'list':
      return block.items.flatMap((item, at) =>
        timed(item, block.ordered ? 'next' : 'rest', block.ordered ? `${at + 1}. ` : '• '),
      );
    case 'facts':
      return block.facts.flatMap(({ label, value }) =>
        timed([{ kind: 'strong', text: `${label}:` }, ' ', ...value], 'rest'),
      );
    case 'note':
      return timed(
        block.line,
        block.tone === 'attention' || block.tone === 'danger' ? 'first' : 'rest',
        tonePrefix(block.tone, words),
      );
    case 'countdown': {
      const label = `${tonePrefix(block.tone, words)}${escapeText(block.label)}: `;
      const clock = whenText(block.to, block.clock, options);
      return textLines(label + bold(clock), label + clock, 'first');
    }
    case 'checklist':
      return block.items.flatMap(({ state, line }) =>
        timed(line, state === 'done' || state === 'skipped' ? 'rest' : 'first', statePrefix(state, words)),
      );
    case 'timeline':
      if (block.list === 'beside') return [];
      return [
        ...timed([{ kind: 'strong', text: block.label }], 'rest'),
        ...timed([block.listLabel], 'rest'),
        ...block.lanes.flatMap((lane) => [
          ...timed([{ kind: 'strong', text: lane.label }], 'rest'),
          ...lane.segments.flatMap((segment) => timed([segmentText(segment)], 'rest', '• ')),
        ]),
      ];
  }
}
