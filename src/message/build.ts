import type { Block, Button, Fact, Line, Message, Tone } from './message.ts';

/** Short ways to write blocks, so that views read like what people will see. */
export const heading = (text: string): Block => ({ kind: 'heading', text });
export const paragraph = (...line: Line): Block => ({ kind: 'paragraph', line });
export const note = (tone: Tone, ...line: Line): Block => ({ kind: 'note', tone, line });
export const list = (items: readonly (string | Line)[], ordered = false): Block => ({
  kind: 'list',
  ordered,
  items: items.map((item) => (typeof item === 'string' ? [item] : item)),
});
export const facts = (...pairs: readonly (readonly [string, string])[]): Block => ({
  kind: 'facts',
  facts: pairs.map(([label, value]): Fact => ({ label, value: [value] })),
});
export const buttons = (...pressed: readonly Button[]): readonly Block[] =>
  pressed.length === 0 ? [] : [{ kind: 'buttons', buttons: pressed }];
export const strong = (text: string) => ({ kind: 'strong', text }) as const;

export function message(summary: string, tone: Tone, ...blocks: readonly Block[]): Message {
  return { summary, tone, blocks };
}
