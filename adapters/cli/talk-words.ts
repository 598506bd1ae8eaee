import { type ChatWords, defaultChatWords } from '../../src/chat/render-words.ts';
import { type TextId, textIds } from '../../src/texts/text-ids.ts';
import type { Texts } from '../../src/texts/texts.ts';

/** The words a chat's renderers add, from the templates. Their places, such as {label}, are filled by the renderers. */
export function talkWords(texts: Texts): ChatWords {
  const say = texts.say as (id: TextId, params: Readonly<Record<string, string>>) => string;
  const words = Object.keys(defaultChatWords).map((key) => {
    const id = `talk.${key}` as TextId;
    return [key, say(id, Object.fromEntries(textIds[id].map((place) => [place, `{${place}}`])))];
  });
  return Object.fromEntries(words) as ChatWords;
}
