/** Question sheets and the log-in, for gloves: everything to hit is at least 48 px. */
export const formStyle = `
.sheet, .intro { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 18rem), 1fr)); align-items: end; gap: 1.2rem; max-inline-size: 66rem; }
.intro:empty { display: none; }
.sheet { padding: 1rem; background: var(--sheet); border: 2px solid var(--line); border-radius: 4px; }
.sheet > .group, .sheet > .folded, .sheet > fieldset, .sheet > .buttons, .sheet > .field:has(textarea), .intro > *, .pin-sheet > * { grid-column: 1 / -1; }
.folded > .fields { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 18rem), 1fr)); align-items: end; gap: 1.2rem; padding-block-start: 0.8rem; }
.group { margin-block-start: 0.6rem; padding-block-start: 0.6rem; border-block-start: 5px solid var(--main); }
.sheet > input + .group { margin-block-start: 0; padding-block-start: 0; border: 0; }
.field { display: grid; grid-template-columns: minmax(0, 1fr); gap: 0.35rem; border: 0; min-inline-size: 0; scroll-margin-block-start: 6rem; }
.field > label, legend { font-weight: 700; font-size: 1.05rem; padding: 0; }
legend { margin-block-end: 0.35rem; }
.optional { font-weight: 400; color: var(--soft); }
input, textarea, select { font: inherit; color: var(--ink); background: var(--sheet); border: 3px solid var(--ink); border-radius: 3px; padding: 0.4rem 0.7rem; min-block-size: max(52px, 2.9rem); inline-size: 100%; max-inline-size: 100%; }
input[type=time], input[type=date], .number input { font-size: 1.35rem; font-weight: 700; inline-size: auto; }
.number { display: flex; flex-wrap: wrap; align-items: center; gap: 0.5rem; }
.number input { inline-size: 5.2em; text-align: center; flex: 0 1 auto; }
.number .step { font-size: 1.6rem; inline-size: 3.2rem; padding: 0; }
.unit { font-weight: 700; }
[aria-invalid="true"] { border: 5px double var(--danger); }
.tiles { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 12rem), 1fr)); gap: 0.6rem; }
.tile { display: flex; align-items: center; gap: 0.7rem; min-block-size: max(52px, 2.9rem); padding: 0.4rem 0.8rem; border: 3px solid var(--line); border-radius: 3px; cursor: pointer; }
.tile input { inline-size: 1.5rem; block-size: 1.5rem; min-block-size: 0; margin: 0; flex: none; padding: 0; accent-color: var(--main); }
.tile:has(:checked) { border-color: var(--main); outline: 3px solid var(--main); outline-offset: -6px; font-weight: 700; }
.tile:has(:focus-visible) { outline: 4px solid var(--ink); outline-offset: 3px; }
.problem { display: flex; gap: 0.5rem; align-items: flex-start; color: var(--danger); font-weight: 700; }
.problems, #refusal { max-inline-size: 46rem; padding: 0.8rem 1rem; background: var(--danger-sheet); border: 6px double var(--danger); color: var(--ink); display: grid; gap: 0.5rem; }
.problems a { display: inline-block; padding-block: 0.3rem; font-weight: 700; }

.names { list-style: none; padding: 0; display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 13rem), 1fr)); gap: 0.7rem; }
.names li { margin: 0; }
.name { inline-size: 100%; min-block-size: max(64px, 3.4rem); justify-content: start; text-align: start; font-size: 1.15rem; }
.pin-sheet { max-inline-size: 24rem; gap: 0.9rem; }
#pin { font-size: 1.8rem; letter-spacing: 0.35em; text-align: center; }
.keypad { display: grid; grid-template-columns: repeat(3, minmax(0, 1fr)); gap: 0.5rem; }
.keypad .button { min-block-size: max(56px, 3.2rem); font-size: 1.35rem; padding: 0; }
.keypad .button[data-tone="main"] { font-size: 1.1rem; }
`;
