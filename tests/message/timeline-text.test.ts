import { expect, test } from 'vitest';
import { plainText } from '../../src/message/plain-text.ts';
import { timelineLines } from '../../src/message/timeline-text.ts';
import { timelineOf } from '../board/rich-page.ts';

const block = timelineOf(1_000_000_000_000);

test('a bar of characters for each lane, mixing over the gun, with what the characters mean', () => {
  expect(timelineLines(block).slice(0, 10)).toEqual([
    'Plan 07:30 to 16:30:',
    'Rig 1, yellow hose',
    '      08:00 09:00 10:00 11:00 12:00 13:00 14:00 15:00 16:00',
    '  |   m.. m...                                           |',
    '  |///  ========f bb             bbbbb                   |',
    'Rig 2',
    '      08:00 09:00 10:00 11:00 12:00 13:00 14:00 15:00 16:00',
    '  |                                  mm                  |',
    '  |               bb             bbbbb========ff         |',
    '  / weather   m mix   . stand   = spray   f flush   b break',
  ]);
});

test('the same as a list, nothing left out', () => {
  const lines = timelineLines(block);
  for (const { segments } of block.lanes)
    for (const { clock, name, label } of segments)
      expect(lines).toContain(`- ${clock} ${name}${label && `: ${label}`}`);
});

test('a day and a night are still no wider than a terminal', () => {
  const long = { ...block, to: block.from + 26 * 60 * 60_000 };
  for (const line of timelineLines(long)) if (line.includes('|')) expect(line.length).toBeLessThanOrEqual(66);
});

test('a message with it is said whole in plain text', () => {
  const text = plainText({ summary: 'Plan', tone: 'plain', blocks: [block] });
  expect(text).toContain('  Plan 07:30 to 16:30:\n  Rig 1, yellow hose\n');
  expect(text).toContain('- 14:40–14:52 flush');
});
