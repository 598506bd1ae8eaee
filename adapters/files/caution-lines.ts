/** A text put together from lines of a file, which knows where each part of it came from. */
export interface PlacedText {
  readonly text: string;
  readonly parts: readonly { readonly line: number; readonly column: number; readonly text: string }[];
}

export function placed(line: number, column: number, text: string): PlacedText {
  return { text, parts: [{ line, column, text }] };
}

export function joinedTo(before: PlacedText | null, next: PlacedText): PlacedText {
  return before ? { text: `${before.text} ${next.text}`, parts: [...before.parts, ...next.parts] } : next;
}

/** Line and column of the character at `offset`. */
export function placeOf(
  text: PlacedText,
  offset: number,
): { readonly line: number; readonly column: number } {
  let left = offset;
  for (const part of text.parts) {
    if (left <= part.text.length) return { line: part.line, column: part.column + left };
    left -= part.text.length + 1;
  }
  const last = text.parts.at(-1);
  return { line: last?.line ?? 1, column: last?.column ?? 1 };
}

export type CautionLine = {
  readonly kind:
    | 'title'
    | 'section'
    | 'question'
    | 'right'
    | 'wrong'
    | 'bullet'
    | 'because'
    | 'text'
    | 'blank'
    | 'bad';
  readonly at: PlacedText;
};

const shapes: readonly (readonly [CautionLine['kind'], RegExp])[] = [
  ['title', /^# +(.+)$/d],
  ['section', /^## +(.+)$/d],
  ['question', /^### +(.+)$/d],
  ['right', /^- +\[[xX]\] +(.+)$/d],
  ['wrong', /^- +\[ ?\] +(.+)$/d],
  ['bad', /^(- *\[.*|#+\S*|-\S.*|>)$/d],
  ['bullet', /^- +(.+)$/d],
  ['because', /^> +(.+)$/d],
];

/** The lines of a caution file and what each is. Comments <!-- … --> count as blank. */
export function cautionLines(text: string): readonly CautionLine[] {
  const bare = text.replace(/<!--[\s\S]*?-->/g, (comment) => comment.replace(/[^\n]/g, ' '));
  return bare.split('\n').map((raw, i): CautionLine => {
    const whole = raw.trimEnd();
    for (const [kind, shape] of shapes) {
      const match = shape.exec(whole);
      const from = match?.indices?.[1]?.[0] ?? 0;
      if (match) return { kind, at: placed(i + 1, from + 1, match[1] ?? whole) };
    }
    const start = whole.length - whole.trimStart().length;
    return { kind: whole === '' ? 'blank' : 'text', at: placed(i + 1, start + 1, whole.trimStart()) };
  });
}
