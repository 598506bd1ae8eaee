/** A day as a picture. Kinds differ by pattern and outline; colour only helps. Time always runs to the right. */
export const timelineStyle = `
.panels > .panel:has(> .timeline), .part:has(> .timeline) { grid-column: 1 / -1; }
.panel:has(> .timeline) > :is(ul, .facts, .note, details) { max-inline-size: 60rem; }
.timeline { container-type: inline-size; display: grid; grid-template-columns: minmax(0, 1fr); gap: 0.5rem; }
.timeline .lane { font-weight: 700; }
.timeline svg { display: block; direction: ltr; overflow: visible; }
.times text { font-size: 0.72rem; font-weight: 700; fill: var(--ink); }
.times .hour line { stroke: var(--line); stroke-width: 1; }
.seg rect { stroke: var(--ink); stroke-width: 1.5; }
.seg-break rect { stroke-dasharray: 4 3; stroke: var(--soft); }
.seg-hold rect { stroke: var(--attention); stroke-width: 2; }
.seg-spray text { fill: var(--main-ink); font-size: 0.85rem; }
.fill .ground { fill: var(--sheet); stroke: none; }
.fill-break .ground { fill: var(--paper); }
.fill-hold .ground { fill: var(--attention-sheet); }
.fill .stroke { fill: none; stroke: var(--ink); stroke-width: 1.4; }
.fill-hold .stroke { stroke: var(--attention); }
.fill .thick { fill: none; stroke: var(--ink); stroke-width: 4; }
.fill .dot { fill: var(--ink); }
.fill .solid { fill: var(--main); }
.legend { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: 0.3rem 1rem; }
.legend li { display: inline-flex; align-items: center; gap: 0.4rem; margin: 0; }
@container (max-width: 32rem) { .times .odd text { display: none; } }
@media print {
  .fill .solid { fill: #555; }
  .seg-spray text { fill: #fff; }
  .timeline svg { print-color-adjust: exact; }
}
`;
