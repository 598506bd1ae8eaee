/** Cutting and splitting that never breaks a mention, an escaped character or a surrogate pair. */

/** A mention or date, an escaped character, white space, a word; the rest one by one. */
const TOKENS = /<[^<>]*>|&(?:amp|lt|gt);|\s+|[^\s<&]+|./gsu;

/** The text in pieces of at most `most` characters, broken between words; only a longer word is broken inside. */
export function splitText(text: string, most: number): readonly string[] {
  if (text.length <= most) return [text];
  const pieces: string[] = [];
  let now = '';
  for (const token of (text.match(TOKENS) ?? []).flatMap((one) => chop(one, most))) {
    if (now.length + token.length > most) {
      pieces.push(now.trimEnd());
      now = token.trimStart();
    } else now += token;
  }
  return [...pieces, now.trimEnd()].filter((piece) => piece !== '');
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

/** At most `most` characters; a text that was cut ends with "…", after a whole word where that loses little. */
export function cutText(text: string, most: number): string {
  if (text.length <= most) return text;
  const room = most - 1;
  let kept = '';
  for (const token of text.match(TOKENS) ?? []) {
    if (kept.length + token.length > room) {
      const word = !/^[<&\s]/.test(token);
      if (word && kept.length <= most / 2) kept += chop(token, room - kept.length)[0] ?? '';
      break;
    }
    kept += token;
  }
  return `${kept.trimEnd()}…`;
}

/** Labels that fit, and for those that had to be cut the whole label under the same number. */
export interface Shortened {
  readonly short: readonly string[];
  readonly whole: readonly string[];
}

/** Two labels that begin alike are told apart by their number. */
export function shortened(labels: readonly string[], most: number): Shortened {
  const whole: string[] = [];
  const short = labels.map((label, at) => {
    if (label.length <= most) return label.trim() === '' ? '–' : label;
    const numbered = `${at + 1}. ${label}`;
    whole.push(numbered);
    return cutText(numbered, most);
  });
  return { short, whole };
}

/** Texts joined line by line into as few as hold them, each at most `most` characters. No text is longer than that. */
export function packLines<T extends { readonly text: string }>(
  lines: readonly T[],
  most: number,
): readonly (readonly T[])[] {
  const packs: T[][] = [];
  let size = 0;
  for (const line of lines) {
    const last = packs.at(-1);
    if (last && size + 1 + line.text.length <= most) {
      last.push(line);
      size += 1 + line.text.length;
    } else {
      packs.push([line]);
      size = line.text.length;
    }
  }
  return packs;
}
