import { type TextId, textIds } from '../../src/texts/text-ids.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { type BoardWords, defaultBoardWords } from '../board/words.ts';

/** The board's own words from the templates. Its places, such as {name}, are filled later, in the browser or by `fill`. */
export function boardWords(texts: Texts): BoardWords {
  const say = texts.say as (id: TextId, params: Readonly<Record<string, string>>) => string;
  const words = Object.keys(defaultBoardWords).map((key) => {
    const id = `board.${key}` as TextId;
    const places = Object.fromEntries(textIds[id].map((place) => [place, `{${place}}`]));
    return [key, say(id, places)];
  });
  return Object.fromEntries(words) as BoardWords;
}
