import type { BoardWords } from './words.ts';

/** The strings a countdown is made from. */
export type RemainingWords = Pick<
  BoardWords,
  | 'leftDays'
  | 'leftHours'
  | 'leftMinutes'
  | 'leftSoon'
  | 'past'
  | 'pastNow'
  | 'spanDays'
  | 'spanHours'
  | 'spanMinutes'
>;

/**
 * What a countdown says, `leftMs` before its time (negative: after it). Rounds down: it never
 * says more time than there is. Sent to the browser as source text as well: it must not use anything outside itself.
 */
export function remainingText(leftMs: number, words: RemainingWords): string {
  const put = (text: string, values: Record<string, string | number>) =>
    text.replace(/\{(\w+)\}/g, (place, name) => String(values[name] ?? place));
  const span = (minutes: number, texts: readonly [string, string, string]) => {
    const h = Math.floor(minutes / 60);
    if (h >= 48) return put(texts[0], { d: Math.floor(h / 24), h: h % 24 });
    return h >= 1 ? put(texts[1], { h, min: minutes % 60 }) : put(texts[2], { min: minutes });
  };
  if (leftMs <= -60_000) {
    const passed = Math.floor(-leftMs / 60_000);
    return put(words.past, { span: span(passed, [words.spanDays, words.spanHours, words.spanMinutes]) });
  }
  if (leftMs <= 0) return words.pastNow;
  if (leftMs < 60_000) return words.leftSoon;
  return span(Math.floor(leftMs / 60_000), [words.leftDays, words.leftHours, words.leftMinutes]);
}
