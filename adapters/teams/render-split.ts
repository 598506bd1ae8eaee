/** Words and the white space between them, each at most `most` characters; only a longer word is broken inside. */
export function tokensOf(text: string, most: number): readonly string[] {
  return (text.match(/\s+|\S+/gu) ?? []).flatMap((token) =>
    token.length <= most ? [token] : chop(token, most),
  );
}

/** By whole characters, so that no surrogate pair is broken. */
function chop(token: string, most: number): readonly string[] {
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
  for (const token of tokensOf(text, room)) {
    if (kept.length + token.length > room) {
      if (kept.length <= most / 2) kept += chop(token, room - kept.length)[0] ?? '';
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

/** Items in their order in as few lists as hold them: at most `count` items and `size` characters of JSON, at least one item. */
export function packed<T>(items: readonly T[], count: number, size: number): readonly (readonly T[])[] {
  const packs: T[][] = [];
  let used = 0;
  for (const item of items) {
    const own = JSON.stringify(item).length + 1;
    const last = packs.at(-1);
    if (last && last.length < count && used + own <= size) {
      last.push(item);
      used += own;
    } else {
      packs.push([item]);
      used = own;
    }
  }
  return packs;
}
