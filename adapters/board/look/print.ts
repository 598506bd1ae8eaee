/** On paper: black on white, nothing to press, no panel cut in two. */
export const printStyle = `
@media print {
  :root { --paper: #fff; --sheet: #fff; --ink: #000; --soft: #333; --line: #666; --danger: #000; --danger-sheet: #fff; --attention: #000; --attention-sheet: #fff; --good: #000; --good-sheet: #fff; --danger-ink: #fff; --attention-ink: #fff; --good-ink: #fff; font-size: 10.5pt; }
  .bar, nav, .tools, .skip, .buttons, .said, #ringing, form { display: none !important; }
  html[data-ringing] body { padding: 0; }
  html[data-ringing] body::after { content: none; }
  main, #bells, footer { padding-inline: 0; }
  .panels, .panels.packed { display: block; }
  .panel { break-inside: avoid; margin-block-end: 0.8rem; print-color-adjust: exact; }
  .countdown-clock { font-size: 20pt; }
  .countdown-left { display: none; }
  a { text-decoration: none; }
}
`;
