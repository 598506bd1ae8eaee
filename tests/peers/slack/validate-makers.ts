/** Makers of blocks for the validator's tests. */
import type { Dict } from './json.ts';
import type { Surface } from './validate.ts';

export const of = (length: number): string => 'x'.repeat(length);
export const plain = (length: number): Dict => ({ type: 'plain_text', text: of(length) });
export const mrkdwn = (length: number): Dict => ({ type: 'mrkdwn', text: of(length) });
export const times = <T>(count: number, make: (index: number) => T): T[] =>
  Array.from({ length: count }, (_, i) => make(i));
export const option = (i: number): Dict => ({ text: { type: 'plain_text', text: `o${i}` }, value: `v${i}` });
export const options = (count: number): Dict[] => times(count, option);
export const divider = (): Dict => ({ type: 'divider' });
export const button = (more: Dict = {}): Dict => ({ type: 'button', text: plain(3), ...more });
export const actions = (...elements: Dict[]): Dict => ({ type: 'actions', elements });
export const input = (element: Dict, more: Dict = {}): Dict => ({
  type: 'input',
  label: plain(3),
  element,
  ...more,
});
export const message = (...blocks: Dict[]): [Surface, unknown] => ['message', blocks];
export const modal = (blocks: Dict[], more: Dict = {}): [Surface, unknown] => [
  'modal',
  { type: 'modal', title: plain(3), submit: plain(3), blocks, ...more },
];
export const home = (blocks: Dict[], more: Dict = {}): [Surface, unknown] => [
  'home',
  { type: 'home', blocks, ...more },
];
export const table = (rows: number, cells: number): Dict => ({
  type: 'table',
  rows: times(rows, () => times(cells, () => ({ type: 'raw_text', text: 'c' }))),
});
