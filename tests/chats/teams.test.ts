import { expect } from 'vitest';
import { inTeams } from './teams-hands.ts';
import { wholeDay } from './whole-day.ts';

wholeDay(inTeams, {
  record: /2026-06-08.*\.html$/,
  atOnce: true,
  // In the channel itself, not in the thread of the day; a channel cannot be called as a whole.
  bell({ root, text }) {
    expect(root).toBeNull();
    expect(text).toContain('<at>Ines</at>');
  },
});
