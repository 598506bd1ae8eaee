/** For paper first: no size is set, so that A4 and Letter both fit; black on white, meaning never by colour alone. */
export const style = `
:root { color-scheme: light; --ink: #111; --soft: #555; --rule: #999; }
* { box-sizing: border-box; }
html { font: 10pt/1.35 system-ui, "Segoe UI", "Liberation Sans", Arial, sans-serif; color: var(--ink); background: #fff; }
body { max-width: 190mm; margin: 0 auto; padding: 8mm 4mm; }
h1 { font-size: 17pt; line-height: 1.2; margin: 0 0 1mm; }
h2 { font-size: 12.5pt; margin: 7mm 0 2mm; padding-bottom: 0.8mm; border-bottom: 0.5mm solid var(--ink); break-after: avoid; }
h3 { font-size: 10.5pt; margin: 4mm 0 1.5mm; break-after: avoid; }
p { margin: 0 0 1.5mm; }
header p { color: var(--soft); }
header .site { color: var(--ink); font-size: 12pt; font-weight: 600; }
ul { margin: 0 0 1.5mm; padding-inline-start: 5mm; }
li { break-inside: avoid; }
table { width: calc(100% + 2.4mm); border-collapse: separate; border-spacing: 0; margin-block: 0 3mm; margin-inline-start: -2.4mm; font-variant-numeric: tabular-nums; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th { text-align: start; vertical-align: bottom; font-size: 8.5pt; font-weight: 600; color: var(--soft); border-bottom: 0.4mm solid var(--ink); padding: 0.8mm 1.6mm 0.8mm 0; }
td { vertical-align: top; border-bottom: 0.2mm solid var(--rule); padding: 0.8mm 2mm 0.8mm 0; overflow-wrap: anywhere; }
td:last-child { padding-inline-end: 0; }
td.tight { white-space: nowrap; }
td.name { min-width: 18mm; }
td.wide { min-width: 44mm; }
.lead { break-after: avoid; }
th:first-child, td:first-child { padding-inline-start: 2.4mm; }
tr.alarm td:first-child { border-inline-start: 1.2mm solid var(--ink); padding-inline-start: 1.2mm; }
td ul { margin: 0; }
dl { display: grid; grid-template-columns: repeat(auto-fill, minmax(42mm, 1fr)); gap: 2mm 4mm; margin: 0 0 3mm; }
dl div { break-inside: avoid; }
dt { font-size: 8.5pt; color: var(--soft); }
dd { margin: 0; }
.under { display: block; font-size: 8.5pt; color: var(--soft); }
strong.alarm { font-weight: 700; color: var(--ink); }
.ring { display: inline-block; margin-inline-end: 3mm; }
.notice { border: 0.5mm solid var(--ink); padding: 1.5mm 2.5mm; margin: 2mm 0; break-inside: avoid; }
.empty { color: var(--soft); }
.journal td { font-size: 8.5pt; padding-block: 0.5mm; }
.hash { font-family: ui-monospace, "Liberation Mono", Menlo, Consolas, monospace; font-size: 9pt; overflow-wrap: anywhere; }
.sign { border-spacing: 5mm 0; margin-inline-start: -5mm; width: calc(100% + 5mm); }
.sign th { border-bottom: 0; }
.sign td { height: 15mm; width: 38%; vertical-align: bottom; border-bottom: 0.3mm solid var(--ink); }
.sign td:first-child { width: 24%; border-bottom: 0; }
.sign th:first-child, .sign td:first-child { border-inline-start: 0; padding-inline-start: 0; }
.keep { break-inside: avoid; }
footer { margin-top: 5mm; border-top: 0.5mm solid var(--ink); padding-top: 2mm; font-weight: 600; break-inside: avoid; }
@media screen {
  section { overflow-x: auto; padding-inline-start: 2.4mm; }
}
@media print {
  html { font-size: 9.5pt; }
  /* The marks of loud rows stand beside the text; what lies outside the page box would be cut off. */
  body { max-width: none; padding: 0 2.4mm; }
}
`;

/**
 * The line at the head of each printed page and the page numbers below. Browsers that do not know margin boxes print
 * the title of the page there themselves.
 */
export function pageStyle(head: string, page: string): string {
  return `
@page {
  margin: 18mm 11.6mm 16mm;
  @top-left { content: ${cssText(head)}; font: 8.5pt system-ui, Arial, sans-serif; color: #555; padding: 0 2.4mm; }
  @bottom-right { content: ${cssText(`${page} `)} counter(page) " / " counter(pages); font: 8.5pt system-ui, Arial, sans-serif; color: #555; padding: 0 2.4mm; }
}
`;
}

/** Text as a CSS string in which nothing but letters, digits and spaces stands for itself: it cannot end the string. The space ends an escape. */
function cssText(text: string): string {
  const safe = Array.from(text, (char) =>
    /[A-Za-z0-9 ]/.test(char) ? char : `\\${(char.codePointAt(0) ?? 0).toString(16)} `,
  );
  return `"${safe.join('')}"`;
}
