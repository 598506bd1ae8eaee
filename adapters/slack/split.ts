import { cutting } from '../../src/chat/cut.ts';

/** Never breaks a mention or date, an escaped character or a surrogate pair. */
export const { splitText, cutText, shortened } = cutting({
  // A mention or date, an escaped character, white space, a word; the rest one by one.
  tokens: /<[^<>]*>|&(?:amp|lt|gt);|\s+|[^\s<&]+|./gsu,
  whole: /^[<&\s]/,
});
