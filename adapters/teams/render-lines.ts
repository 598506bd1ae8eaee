import { stateMark, toneMark } from '../../src/chat/render-marks.ts';
import type { ChatWords } from '../../src/chat/render-words.ts';
import type { Block, CheckItem, Line, Tone } from '../../src/message/message.ts';
import { segmentText } from '../../src/message/timeline-text.ts';
import type { Color, Style } from './render-card.ts';
import { brokenLines, type Mentions, runsOf, type TextLine, type TextOptions } from './render-text.ts';

/** Blocks that are lines of text; the others have a shape of their own. */
export type TextBlock = Exclude<Block, { kind: 'heading' | 'more' | 'below' | 'divider' | 'buttons' }>;

export interface LineOptions extends TextOptions {
  readonly mentions: Mentions;
}

export const toneColors = {
  plain: 'Default',
  good: 'Good',
  attention: 'Warning',
  danger: 'Attention',
} as const satisfies Record<Tone, Color>;

export const toneStyles = {
  plain: 'default',
  good: 'good',
  attention: 'warning',
  danger: 'attention',
} as const satisfies Record<Tone, Style>;

/** In front of a line: "!! Danger: "; nothing for plain. */
export function tonePrefix(tone: Tone, words: ChatWords): string {
  const mark = toneMark(tone, words);
  return mark === '' ? '' : `${mark}: `;
}

const statePrefix = (state: CheckItem['state'], words: ChatWords): string => `${stateMark(state, words)}: `;

/** Every word of a block, line by line. */
export function blockLines(block: TextBlock, options: LineOptions): readonly TextLine[] {
  const { words, mentions } = options;
  const said = (line: Line, prefix = '', color?: Color) =>
    brokenLines({
      runs: runsOf(line, options, mentions, line.length === 0 ? '' : prefix),
      ...(color === undefined || color === 'Default' ? {} : { color }),
    });
  const strong = (text: string): Line => [{ kind: 'strong', text }];
  switch (block.kind) {
    case 'paragraph':
      return said(block.line);
    case 'list':
      return block.items.flatMap((item, at) => said(item, block.ordered ? `${at + 1}. ` : '• '));
    case 'facts':
      return block.facts.flatMap(({ label, value }) => said([...strong(`${label}:`), ' ', ...value]));
    case 'note':
      return said(block.line, tonePrefix(block.tone, words));
    case 'countdown':
      // Only the wall clock: the platform ticks nothing, and the pot ages on the site's clock.
      return said(
        [`${block.label}: `, ...strong(block.clock)],
        tonePrefix(block.tone, words),
        toneColors[block.tone],
      );
    case 'checklist':
      return block.items.flatMap(({ state, line }) => said(line, statePrefix(state, words)));
    case 'timeline':
      if (block.list === 'beside') return [];
      return [
        ...said(strong(block.label)),
        ...said([block.listLabel]),
        ...block.lanes.flatMap((lane) => [
          ...said(strong(lane.label)),
          ...lane.segments.flatMap((segment) => said([segmentText(segment)], '• ')),
        ]),
      ];
  }
}
