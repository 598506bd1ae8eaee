/** Panels, after the label on a tin: a spine whose pattern tells the tone, a word with a shape, big figures. */
export const panelStyle = `
.panels { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 23rem), 1fr)); gap: 1rem; align-items: start; }
.panels.packed { grid-auto-rows: 4px; row-gap: 0; }
.panels > .panel:only-child { grid-column: 1 / -1; max-inline-size: 54rem; }
.panels > .panel.long { grid-column: 1 / -1; max-inline-size: none; }
.parts { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 24rem), 1fr)); gap: 1.2rem 2rem; }
.part { display: grid; grid-template-columns: minmax(0, 1fr); align-content: start; gap: 0.6rem; padding-block-start: 0.6rem; border-block-start: 5px solid var(--ink); }
.long[data-tone="danger"] .part { font-size: 1.08rem; }
@media (min-width: 64rem) { .long[data-tone="danger"] .part:first-child { grid-row: span 4; } }
.panel { position: relative; display: grid; grid-template-columns: minmax(0, 1fr); gap: 0.75rem; padding: 0.9rem 1rem 1rem 1.7rem; padding-inline: 1.7rem 1rem; background: var(--sheet); border: 2px solid var(--line); border-radius: 4px; }
.panel::before { content: ""; position: absolute; inset-block: 0; inset-inline-start: 0; inline-size: 0.65rem; background: var(--line); }
.panel[data-tone="good"]::before { background: var(--good); }
.panel[data-tone="attention"] { border: 3px dashed var(--attention); }
.panel[data-tone="attention"]::before { background: repeating-linear-gradient(135deg, var(--attention) 0 9px, var(--attention-sheet) 9px 18px); }
.panel[data-tone="danger"] { border: 6px double var(--danger); }
.panel[data-tone="danger"]::before { background: repeating-linear-gradient(0deg, var(--danger) 0 16px, var(--danger-sheet) 16px 22px); }
#bells .panel, .said { background: var(--danger-sheet); }
.panel.said, .panel.said[data-tone] { background: var(--sheet); border-width: 4px; }
.panel.said { border-color: var(--main); }
.panel.said[data-tone="danger"] { border-color: var(--danger); }
.panel.said[data-tone="attention"] { border-color: var(--attention); }

.tone { display: inline-flex; align-items: baseline; gap: 0.4em; padding: 0.05em 0.5em; font-weight: 800; border-radius: 2px; background: var(--soft); color: var(--sheet); }
.tone .icon { position: relative; inset-block-start: 0.2em; }
.tone-row { margin-block-end: -0.35rem; }
[data-tone="good"] > .tone, [data-tone="good"] > .tone-row .tone { background: var(--good); color: var(--good-ink); --hole: var(--good); }
[data-tone="attention"] > .tone, [data-tone="attention"] > .tone-row .tone { background: var(--attention); color: var(--attention-ink); --hole: var(--attention); }
[data-tone="danger"] > .tone, [data-tone="danger"] > .tone-row .tone { background: var(--danger); color: var(--danger-ink); --hole: var(--danger); }

.facts { display: grid; gap: 0.1rem; }
.facts > div { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 0 1rem; padding-block: 0.25rem; border-block-end: 2px dotted var(--line); }
.facts dt { color: var(--soft); }
.facts dd { font-weight: 700; text-align: end; margin-inline-start: auto; }

.note { padding: 0.5rem 0.7rem; border-inline-start: 0.5rem solid var(--line); background: var(--paper); }
.note .tone { margin-inline-end: 0.3rem; }
.note[data-tone="good"] { background: var(--good-sheet); border-inline-start-color: var(--good); }
.note[data-tone="attention"] { background: var(--attention-sheet); border-inline-start: 0.5rem dashed var(--attention); }
.note[data-tone="danger"] { background: var(--danger-sheet); border-inline-start: 0.6rem double var(--danger); font-weight: 700; }

.countdown { display: flex; flex-wrap: wrap; align-items: baseline; gap: 0 0.9rem; padding: 0.4rem 0.7rem 0.5rem; border-block-start: 5px solid var(--ink); background: var(--paper); }
.summary { font-weight: 700; }
.countdown-label { flex-basis: 100%; font-weight: 700; }
.countdown-clock { font-size: clamp(2.9rem, 9vw, 3.6rem); line-height: 1; font-weight: 800; letter-spacing: -0.02em; }
.countdown-clock[data-long] { font-size: 1.7rem; line-height: 1.25; letter-spacing: 0; }
.countdown-left { font-size: 1.3rem; font-weight: 700; }
.countdown > .tone { margin-inline-start: auto; align-self: center; }
.countdown[data-tone="good"] { background: var(--good-sheet); border-color: var(--good); }
.countdown[data-tone="attention"] { background: var(--attention-sheet); border-block-start: 6px dashed var(--attention); }
.countdown[data-tone="danger"] { background: var(--danger-sheet); border-block-start: 9px double var(--danger); }
.countdown[data-past] { outline: 4px solid var(--danger); outline-offset: -4px; background: var(--danger-sheet); }
.countdown[data-past] .countdown-left { text-decoration: underline; text-decoration-thickness: 4px; }

.checklist { list-style: none; padding: 0; display: grid; gap: 0; }
.checklist li { display: flex; align-items: flex-start; gap: 0.55rem; margin: 0; padding-block: 0.4rem; border-block-end: 2px dotted var(--line); }
.checklist .icon { inline-size: 1.3em; block-size: 1.3em; margin-block-start: 0.08em; }
.checklist .state { flex: none; min-inline-size: 5em; font-weight: 700; }
.checklist .item { flex: 1; min-inline-size: 0; }
.checklist li[data-state="done"] { color: var(--soft); }
.checklist li[data-state="next"] { font-weight: 700; background: var(--paper); border: 3px solid var(--main); padding-inline: 0.5rem; }
.checklist li[data-state="defect"] { font-weight: 700; color: var(--danger); }
.checklist li[data-state="skipped"] .state { text-decoration: underline wavy; }

[dir="rtl"] li[data-state="next"] > .icon { transform: scaleX(-1); }

details { border: 2px solid var(--line); border-radius: 3px; }
summary { display: flex; align-items: center; min-block-size: 48px; padding: 0.3rem 0.8rem; font-weight: 700; cursor: pointer; }
summary .named { font-weight: 400; }
summary::before { content: "+"; inline-size: 1.2em; flex: none; font-weight: 800; font-size: 1.3em; }
details[open] > summary::before { content: "−"; }
summary::-webkit-details-marker { display: none; }
.more { display: grid; gap: 0.6rem; padding: 0.2rem 0.9rem 0.9rem; }
.files { list-style: none; padding: 0; display: grid; gap: 0.6rem; }
.files li { display: flex; flex-wrap: wrap; gap: 0.5rem 1rem; align-items: center; justify-content: space-between; }
bdi.person { font-weight: 700; }
.panel > h3 { margin-block-start: 0.5rem; padding-block-start: 0.6rem; border-block-start: 4px solid var(--line); }
@media (max-width: 42rem) {
  .panel .buttons > *, .sheet > .buttons > * { flex: 1 1 auto; }
  .buttons form .button { inline-size: 100%; }
  .checklist .state { min-inline-size: 0; }
}
`;
