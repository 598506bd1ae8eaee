import { html } from 'hono/html';
import type { Block, Lane, Segment, SegmentKind, TimeMark } from '../../src/message/message.ts';
import { rowOf, segmentText } from '../../src/message/timeline-text.ts';
import type { Html } from './render-html.ts';

type Timeline = Extract<Block, { kind: 'timeline' }>;

// Pixels of height; across, all is in per cent, so that the picture is as wide as its place and the type stays as it is.
const RULER = 22;
const ROW = 26;
const GAP = 4;
/** Narrower than this there is no room for a mark inside, per cent of the width. */
const MARK_WIDTH = 3.5;

/**
 * Lane by lane a picture, kinds told apart by their pattern; a legend; and the same as a list, unless words beside it say it. No style is written here:
 * the page's own rules forbid it, and the sheet of the board does it for screen and paper.
 */
export function renderTimeline(block: Timeline, id: string): Html {
  const named = new Map(
    block.lanes.flatMap(({ segments }) => segments.map(({ kind, name }) => [kind, name] as const)),
  );
  return html`<div class="timeline" role="group" aria-label="${block.label}">
    ${block.lanes.map((lane, i) => html`<p class="lane">${lane.label}</p>${picture(block, lane, `${id}-${i}`)}`)}
    <ul class="legend">${[...named].map(([kind, name]) => html`<li>${swatch(kind, `${id}-l-${kind}`)}<span>${name}</span></li>`)}</ul>
    ${block.list === 'beside' ? '' : asList(block, id)}
  </div>`;
}

function asList(block: Timeline, id: string): Html {
  return html`<details id="${id}"><summary>${block.listLabel}</summary><div class="more">${block.lanes.map(
    (lane) =>
      html`<p class="lane">${lane.label}</p><ul>${lane.segments.map((segment) => html`<li>${segmentText(segment)}</li>`)}</ul>`,
  )}</div></details>`;
}

function picture(block: Timeline, lane: Lane, id: string): Html {
  const rows = (['pot', 'gun'] as const).filter((row) =>
    lane.segments.some(({ kind }) => rowOf[kind] === row),
  );
  const height = RULER + rows.length * (ROW + GAP);
  const kinds = [...new Set(lane.segments.map(({ kind }) => kind))];
  const x = (at: number) => percent((at - block.from) / (block.to - block.from));
  const told = `${lane.label}: ${lane.segments.map(segmentText).join('; ')}`;
  return html`<svg class="times" width="100%" height="${height}" role="img" aria-label="${told}"><defs>${kinds.map((kind) => pattern(kind, `${id}-${kind}`))}</defs>${block.marks.map((mark, i) => hour(mark, x(mark.at), i, height))}${lane.segments.map(
    (segment) => {
      const y = RULER + rows.indexOf(rowOf[segment.kind]) * (ROW + GAP);
      return bar(segment, x(segment.from), x(segment.to) - x(segment.from), y, id);
    },
  )}</svg>`;
}

const percent = (share: number): number => Math.round(Math.min(1, Math.max(0, share)) * 100_000) / 1000;

function hour({ label }: TimeMark, x: number, index: number, height: number): Html {
  return html`<g class="${index % 2 === 0 ? 'hour' : 'hour odd'}"><line x1="${x}%" x2="${x}%" y1="${RULER - 6}" y2="${height}" /><text x="${x}%" y="${RULER - 9}" text-anchor="${x > 97 ? 'end' : x < 3 ? 'start' : 'middle'}">${label}</text></g>`;
}

function bar({ kind, mark }: Segment, x: number, width: number, y: number, id: string): Html {
  const middle = percent((x + width / 2) / 100);
  const inside =
    mark !== '' && width >= MARK_WIDTH
      ? html`<text x="${middle}%" y="${y + 18}" text-anchor="middle">${mark}</text>`
      : '';
  return html`<g class="seg seg-${kind}"><rect x="${x}%" y="${y}" width="${Math.max(0.4, percent(width / 100))}%" height="${ROW}" fill="url(#${id}-${kind})" />${inside}</g>`;
}

function swatch(kind: SegmentKind, id: string): Html {
  return html`<svg class="swatch" width="34" height="18" aria-hidden="true" focusable="false"><defs>${pattern(kind, id)}</defs><g class="seg seg-${kind}"><rect x="1" y="1" width="32" height="16" fill="url(#${id})" /></g></svg>`;
}

/** What a kind is filled with. Shapes, so that it is told apart without colour and on a black and white print. */
const fills = {
  mix: html`<rect class="ground" width="8" height="8" /><path class="stroke" d="M-2 2 2-2M0 8 8 0M6 10 10 6" />`,
  stand: html`<rect class="ground" width="8" height="8" /><circle class="dot" cx="4" cy="4" r="1.6" />`,
  spray: html`<rect class="solid" width="8" height="8" />`,
  break: html`<rect class="ground" width="8" height="8" />`,
  flush: html`<rect class="ground" width="8" height="8" /><path class="thick" d="M2 0V8" />`,
  hold: html`<rect class="ground" width="8" height="8" /><path class="stroke" d="M0 0 8 8M0 8 8 0" />`,
} as const satisfies Record<SegmentKind, unknown>;

function pattern(kind: SegmentKind, id: string): Html {
  return html`<pattern class="fill fill-${kind}" id="${id}" width="8" height="8" patternUnits="userSpaceOnUse">${fills[kind]}</pattern>`;
}
