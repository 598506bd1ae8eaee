import { expect } from 'vitest';
import { renderMessage } from '../../adapters/teams/render.ts';
import type { Block, Button, Message } from '../../src/message/message.ts';
import { lostWords, options, partFaults } from './render-check.ts';

export const message = (blocks: readonly Block[], more: Partial<Message> = {}): Message => ({
  summary: 'Rig 1: start the flush by 09:46',
  tone: 'danger',
  blocks,
  ...more,
});
export function render(given: Message) {
  const parts = renderMessage(given, options);
  expect(partFaults(parts)).toEqual([]);
  expect(lostWords(given, parts)).toEqual([]);
  return parts;
}
export const button = (label: string, tone: Button['tone'] = 'plain'): Button => ({
  label,
  tone,
  action: { kind: 'do', command: { type: 'start-flush', rig: 'rig-1' } },
});
export const paragraph = (...line: readonly string[]): Block => ({ kind: 'paragraph', line });
