/**
 * Whether a JSON text says what a reader of the text takes it to say: nothing twice under one name (programs keep the
 * last, people read the first), nothing spelled in a way of its own. Spaces and line ends between values do not count.
 */
export function hasOneMeaning(text: string): boolean {
  const bare = text
    .replace(/^\uFEFF/, '')
    .replace(/("[^"\\]*(?:\\.[^"\\]*)*")|\s+/g, (_, string?: string) => string ?? '');
  return bare === JSON.stringify(JSON.parse(bare));
}
