import { html } from 'hono/html';
import type { CheckItem, Tone } from '../../src/message/message.ts';

/** Shapes that tell tones and states apart without colour. Hidden from screen readers: a word always stands beside. */

const icon = (shape: ReturnType<typeof html>) =>
  html`<svg class="icon" viewBox="0 0 24 24" aria-hidden="true" focusable="false">${shape}</svg>`;

export const toneIcons = {
  plain: icon(html`<circle cx="12" cy="12" r="4" />`),
  good: icon(
    html`<circle class="line" cx="12" cy="12" r="9.5" /><path class="line" d="M7 12.5l3.6 3.6L17 8.8" />`,
  ),
  attention: icon(
    html`<path class="line" d="M12 2.8 22 20.5H2Z" /><path class="line" d="M12 9.5v5m0 2.2v.6" />`,
  ),
  danger: icon(
    html`<path d="M8 1.5h8L22.5 8v8L16 22.5H8L1.5 16V8Z" /><path class="cut" d="M12 6v7.5m0 3v1.4" />`,
  ),
} as const satisfies Record<Tone, unknown>;

export const stateIcons = {
  done: icon(
    html`<rect class="line" x="3" y="3" width="18" height="18" rx="2" /><path class="line" d="M7.5 12.5l3 3 6-7" />`,
  ),
  open: icon(html`<rect class="line" x="3" y="3" width="18" height="18" rx="2" />`),
  next: icon(html`<path d="M4 3l16 9-16 9Z" />`),
  skipped: icon(
    html`<rect class="line" x="3" y="3" width="18" height="18" rx="2" /><path class="line" d="M7 12h10" />`,
  ),
  defect: icon(
    html`<rect x="2" y="2" width="20" height="20" rx="2" /><path class="cut" d="M7.5 7.5l9 9m0-9l-9 9" />`,
  ),
} as const satisfies Record<CheckItem['state'], unknown>;

/** A pot with its lid lifted like a bell. */
export const potIcon = html`<svg class="pot" viewBox="0 0 40 40" aria-hidden="true" focusable="false"><path d="M6 19h28v12a5 5 0 0 1-5 5H11a5 5 0 0 1-5-5Z" /><path class="line" d="M8 14C9 7 14 4 20 4s11 3 12 10Z" /><circle cx="20" cy="14.5" r="2.4" /></svg>`;
