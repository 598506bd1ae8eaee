import { expect } from 'vitest';
import { type RenderOptions, renderMessage } from '../../adapters/slack/render.ts';
import type { Block, Button, Message } from '../../src/message/message.ts';
import { lostWords, options, partFaults, readParts } from './render-check.ts';

export const message = (blocks: readonly Block[], more: Partial<Message> = {}): Message => ({
  summary: 'Rig 1: start the flush by 09:46',
  tone: 'danger',
  blocks,
  ...more,
});
export const render = (given: Message, change: Partial<RenderOptions> = {}) => {
  const parts = renderMessage(given, { ...options, ...change });
  expect(partFaults(parts)).toEqual([]);
  expect(lostWords(given, parts)).toEqual([]);
  return parts;
};
export const lines = (given: readonly Block[]) => readParts(render(message(given))).split('\n');
export const button = (label: string, tone: Button['tone'] = 'plain'): Button => ({
  label,
  tone,
  action: { kind: 'do', command: { type: 'start-flush', rig: 'rig-1' } },
});
