/** 0 → a, 25 → z, 26 → aa, 27 → ab: never the same letters for two whole numbers from 0. */
export function lettersOf(count: number): string {
  const last = String.fromCharCode(97 + (count % 26));
  return count < 26 ? last : lettersOf(Math.floor(count / 26) - 1) + last;
}

/**
 * The ref of the notice in this text, null when there is none. The first one counts: it stands before all names, which
 * people choose themselves.
 */
export function refIn(text: string): string | null {
  return /(?<![\w-])\d{4}-[a-z0-9-]*\d[a-z]+(?![\w-])/.exec(text)?.[0] ?? null;
}

/** Four letters from any text (FNV-1a, 32 bits): to tell apart, not to keep secret. */
export function shortHash(text: string): string {
  let hash = 0x811c9dc5;
  for (const character of text) hash = Math.imul(hash ^ (character.codePointAt(0) ?? 0), 0x01000193) >>> 0;
  const letters = Array.from({ length: 4 }, (_, place) => 97 + (Math.floor(hash / 26 ** place) % 26));
  return String.fromCharCode(...letters);
}
