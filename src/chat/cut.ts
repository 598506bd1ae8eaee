/** How a text falls into what is not broken: all of it in `tokens`, of which those that match `whole` are never cut inside. */
export interface Reading {
  readonly tokens: RegExp;
  readonly whole: RegExp;
}

/** Labels that fit, and for those that had to be cut the whole label under the same number. */
export interface Shortened {
  readonly short: readonly string[];
  readonly whole: readonly string[];
}

/** Cutting and splitting that breaks between words, and no surrogate pair where a word is longer than the room. */
export function cutting({ tokens, whole }: Reading) {
  /** Each at most `most` characters. */
  function tokensOf(text: string, most: number): readonly string[] {
    return (text.match(tokens) ?? []).flatMap((token) => chop(token, most));
  }

  /** The text in pieces of at most `most` characters, broken between words; only a longer word is broken inside. */
  function splitText(text: string, most: number): readonly string[] {
    if (text.length <= most) return [text];
    const pieces: string[] = [];
    let now = '';
    for (const token of tokensOf(text, most)) {
      if (now.length + token.length > most) {
        pieces.push(now.trimEnd());
        now = token.trimStart();
      } else now += token;
    }
    return [...pieces, now.trimEnd()].filter((piece) => piece !== '');
  }

  /** At most `most` characters; a text that was cut ends with "…", after a whole word where that loses little. */
  function cutText(text: string, most: number): string {
    if (text.length <= most) return text;
    const room = most - 1;
    let kept = '';
    for (const token of text.match(tokens) ?? []) {
      if (kept.length + token.length > room) {
        if (!whole.test(token) && kept.length <= most / 2) kept += chop(token, room - kept.length)[0] ?? '';
        break;
      }
      kept += token;
    }
    return `${kept.trimEnd()}…`;
  }

  /** Two labels that begin alike are told apart by their number. */
  function shortened(labels: readonly string[], most: number): Shortened {
    const long: string[] = [];
    const short = labels.map((label, at) => {
      if (label.length <= most) return label.trim() === '' ? '–' : label;
      const numbered = `${at + 1}. ${label}`;
      long.push(numbered);
      return cutText(numbered, most);
    });
    return { short, whole: long };
  }

  return { tokensOf, splitText, cutText, shortened };
}

/** A word longer than the room there is, by whole characters. Markup is never that long. */
function chop(token: string, most: number): readonly string[] {
  if (token.length <= most) return [token];
  const pieces: string[] = [];
  let now = '';
  for (const character of token) {
    if (now.length + character.length > most) {
      pieces.push(now);
      now = '';
    }
    now += character;
  }
  return [...pieces, now];
}

/** For text without markup. */
export const { tokensOf, cutText, shortened } = cutting({ tokens: /\s+|\S+/gu, whole: /^\s/ });
