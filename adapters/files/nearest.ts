/** The option somebody probably meant: the same letters in another case, or at most two slips away; else null. */
export function nearest(word: string, options: readonly string[]): string | null {
  const plain = (text: string) => text.toLowerCase().replace(/[^a-z0-9]/g, '');
  const same = options.find((option) => plain(option) === plain(word));
  if (same !== undefined) return same;
  const allowed = word.length < 4 ? 1 : 2;
  const ranked = options
    .map((option) => ({ option, slips: slips(plain(word), plain(option)) }))
    .filter((one) => one.slips <= allowed && one.slips < one.option.length)
    .sort((a, b) => a.slips - b.slips);
  return ranked[0]?.option ?? null;
}

/** Letters to add, drop or change (Levenshtein). */
function slips(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1)
      next.push(
        Math.min(
          (next[j - 1] ?? 0) + 1,
          (row[j] ?? 0) + 1,
          (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1),
        ),
      );
    row = next;
  }
  return row[b.length] ?? 0;
}
