/** Colours, type and the parts every page has. Sizes in rem: the whole page grows with the screen it hangs on. */
export const baseStyle = `
:root {
  color-scheme: light dark;
  --paper: #ece8dd; --sheet: #fffdf7; --ink: #14191b; --soft: #41484a; --line: #857f70;
  --bar: #0c3a40; --bar-ink: #ffffff;
  --main: #0b4b53; --main-ink: #ffffff;
  --danger: #86190f; --danger-ink: #ffffff; --danger-sheet: #fceae5;
  --attention: #5f3f00; --attention-ink: #ffffff; --attention-sheet: #fcf0d0;
  --good: #1b4d2d; --good-ink: #ffffff; --good-sheet: #e9f2e6;
  font-size: clamp(1.125rem, 0.95rem + 0.45vw, 1.75rem);
  scroll-padding-block: 5.5rem 2rem;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #0d1315; --sheet: #171f22; --ink: #f5f2e9; --soft: #c9cac3; --line: #7d8785;
    --bar: #07292d; --bar-ink: #ffffff;
    --main: #93dedb; --main-ink: #06262a;
    --danger: #ffb7aa; --danger-ink: #2b0803; --danger-sheet: #341310;
    --attention: #ffd780; --attention-ink: #241800; --attention-sheet: #2c2208;
    --good: #a9e3b7; --good-ink: #06210f; --good-sheet: #12291a;
  }
}
*, *::before, *::after { box-sizing: border-box; }
[hidden] { display: none !important; }
body {
  margin: 0; background: var(--paper); color: var(--ink);
  font-family: ui-sans-serif, system-ui, sans-serif; line-height: 1.4;
  font-variant-numeric: tabular-nums; overflow-wrap: break-word;
  display: flex; flex-direction: column; min-block-size: 100vh;
}
h1, h2, h3, p, ul, ol, dl, dd, figure, fieldset { margin: 0; padding: 0; }
h1 { font-size: 1.7rem; line-height: 1.1; font-weight: 800; }
h2 { font-size: 1.3rem; line-height: 1.2; font-weight: 800; }
h3 { font-size: 1.08rem; line-height: 1.25; font-weight: 800; }
ul, ol { padding-inline-start: 1.4em; }
li + li { margin-block-start: 0.3rem; }
hr { border: 0; border-block-start: 2px solid var(--line); margin: 0; inline-size: 100%; }
a { color: inherit; text-underline-offset: 0.18em; text-decoration-thickness: 2px; }
main { flex: 1; padding: 0 1rem 1.5rem; outline: none; }
main > * + *, .panels + * { margin-block-start: 1rem; }
footer { padding: 0.8rem 1rem 1.2rem; color: var(--soft); border-block-start: 2px solid var(--line); }
:focus-visible { outline: 4px solid var(--ink); outline-offset: 3px; border-radius: 2px; }
.bar :focus-visible { outline-color: var(--bar-ink); }
.skip { position: fixed; inset-block-start: 0.4rem; inset-inline-start: 0.4rem; z-index: 60; padding: 0.7rem 1rem; background: var(--sheet); color: var(--ink); border: 3px solid var(--ink); transform: translateY(-300%); }
.skip:focus { transform: none; }
.for-ears { position: absolute; inline-size: 1px; block-size: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.icon { inline-size: 1.15em; block-size: 1.15em; flex: none; fill: currentColor; vertical-align: -0.2em; }
.icon .line, .pot .line { fill: none; stroke: currentColor; stroke-width: 2.6; stroke-linecap: square; }
.icon .cut { fill: none; stroke: var(--hole, var(--sheet)); stroke-width: 3; stroke-linecap: square; }
.lead { font-weight: 700; }
.hint { color: var(--soft); }

.button {
  display: inline-flex; align-items: center; justify-content: center; text-align: center;
  min-block-size: max(48px, 2.8rem); min-inline-size: max(48px, 2.8rem); padding: 0.3rem 1rem;
  font: inherit; font-weight: 700; line-height: 1.15; text-decoration: none; cursor: pointer;
  color: var(--ink); background: var(--sheet); border: 3px solid var(--ink); border-radius: 3px;
  touch-action: manipulation;
}
.button:hover { text-decoration: underline; text-decoration-thickness: 3px; }
.button:active { transform: translateY(2px); }
.button[data-tone="main"] { background: var(--main); border-color: var(--main); color: var(--main-ink); }
.button[data-tone="danger"] { background: var(--danger-sheet); border: 5px double var(--danger); color: var(--danger); }
.button[data-tone="attention"] { background: var(--attention-sheet); border: 3px dashed var(--attention); color: var(--attention); gap: 0.5em; --hole: var(--attention-sheet); }
.button[data-tone="stop"] { background: #9b1a0e; border: 3px solid #ffffff; color: #ffffff; }
.buttons { display: flex; flex-wrap: wrap; gap: 0.7rem; }
html[data-settling] :is(main, #bells) .button { pointer-events: none; border-style: dotted; opacity: 0.6; }

@media (forced-colors: active) { .icon .cut { stroke: Canvas; } .button { border-color: ButtonText; } }
@media (prefers-reduced-motion: reduce) { * { animation: none !important; transition: none !important; } }
`;
