/** Texts joined line by line into as few as hold them, each at most `most` characters. No text is longer than that. */
export function packLines<T extends { readonly text: string }>(
  lines: readonly T[],
  most: number,
): readonly (readonly T[])[] {
  return packs(lines, Number.POSITIVE_INFINITY, most + 1, ({ text }) => text.length + 1);
}

/** Items in their order in as few lists as hold them: at most `count` items and `size` characters of JSON, at least one item. */
export function packed<T>(items: readonly T[], count: number, size: number): readonly (readonly T[])[] {
  return packs(items, count, size, (item) => JSON.stringify(item).length + 1);
}

/** Items in their order in as few lists as hold them: at most `count` items and `most` of what `sizeOf` measures, at least one item. */
export function packs<T>(
  items: readonly T[],
  count: number,
  most: number,
  sizeOf: (item: T) => number,
): readonly (readonly T[])[] {
  const done: T[][] = [];
  let used = 0;
  for (const item of items) {
    const own = sizeOf(item);
    const last = done.at(-1);
    if (last && last.length < count && used + own <= most) {
      last.push(item);
      used += own;
    } else {
      done.push([item]);
      used = own;
    }
  }
  return done;
}

/** What one message holds at most, and how its pieces are measured and kept together. */
export interface Room<P> {
  readonly count: number;
  readonly size: number;
  sizeOf(piece: P): number;
  /** These two stay in one message, where that leaves anything before. */
  together(before: P | undefined, piece: P | undefined): boolean;
}

/** Pieces in few messages, in their order. Each has at least one. */
export function cutIntoParts<P>(pieces: readonly P[], room: Room<P>): readonly (readonly P[])[] {
  const sizes = pieces.map((piece) => room.sizeOf(piece));
  const parts: (readonly P[])[] = [];
  let from = 0;
  while (from < pieces.length) {
    let to = from + 1;
    let size = sizes[from] ?? 0;
    for (; to < pieces.length && to - from < room.count; to += 1) {
      size += sizes[to] ?? 0;
      if (size > room.size) break;
    }
    const end = to < pieces.length ? goodBreak(pieces, from, to, room) : to;
    parts.push(pieces.slice(from, end));
    from = end;
  }
  return parts;
}

function goodBreak<P>(pieces: readonly P[], from: number, to: number, { together }: Room<P>): number {
  const bad = (at: number) => together(pieces[at - 1], pieces[at]);
  let at = to;
  while (at > from + 1 && bad(at)) at -= 1;
  return bad(at) ? to : at;
}
