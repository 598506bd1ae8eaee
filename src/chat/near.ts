/** Longer than this is no word with a slip in it. */
const LONGEST = 30;

/** The known words that are fewest slips of a thumb away, in the order given; none when more than a third is wrong. */
export function nearWords(word: string, known: readonly string[]): readonly string[] {
  if (word.length > LONGEST) return [];
  const far = known.map((one) => ({ one, slips: slips(word, one) }));
  const least = Math.min(...far.map((each) => each.slips));
  if (least > Math.max(1, Math.floor(word.length / 3))) return [];
  return far.flatMap((each) => (each.slips === least && least < each.one.length ? [each.one] : []));
}

/** Letters to add, drop or change; two changed about count as one slip (Damerau 1964, neighbours only). */
export function slips(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i += 1) {
    const before = rows[i - 1] ?? [];
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const change = (before[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const crossed = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const swap = crossed ? (rows[i - 2]?.[j - 2] ?? 0) + 1 : change;
      row.push(Math.min((before[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, change, swap));
    }
    rows.push(row);
  }
  return rows[a.length]?.[b.length] ?? 0;
}
