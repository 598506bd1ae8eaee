/** The bar with the two urgent buttons, the page links, this screen's own tools and the ringing strip. */
export const frameStyle = `
.bar { position: sticky; inset-block-start: 0; z-index: 40; display: flex; flex-wrap: wrap; align-items: center; gap: 0.4rem 0.8rem; padding: 0.5rem 1rem; background: var(--bar); color: var(--bar-ink); border-block-end: 6px solid #c9b37a; }
.brand { display: inline-flex; align-items: center; gap: 0.5rem; min-block-size: 48px; min-inline-size: 48px; justify-content: center; font-weight: 800; text-decoration: none; font-size: 1.15rem; }
.pot { inline-size: 1.9rem; block-size: 1.9rem; fill: currentColor; }
#clock { white-space: nowrap; font-size: 2rem; line-height: 1; font-weight: 800; letter-spacing: 0.01em; }
.urgent { margin-inline-start: auto; display: flex; flex-wrap: wrap; justify-content: end; gap: 0.4rem 0.6rem; }
.bar .button[data-tone="danger"] { background: #ffffff; color: #86190f; border: 3px solid #ffffff; }
.bar .button[aria-current] { text-decoration: underline; text-decoration-thickness: 4px; }

nav { display: flex; flex-wrap: wrap; background: var(--sheet); border-block-end: 2px solid var(--line); padding-inline: 0.5rem; }
nav a { display: flex; align-items: center; justify-content: center; min-block-size: max(48px, 2.6rem); padding: 0.3rem 1rem; text-align: center; text-decoration: none; font-weight: 700; border-block-end: 6px solid transparent; border-block-start: 6px solid transparent; }
nav a:hover { text-decoration: underline; }
nav a[aria-current] { border-block-end-color: var(--main); font-weight: 800; }

.tools { padding: 0.7rem 1rem 0; display: grid; gap: 0.7rem; }
.tool-row, #who { display: flex; flex-wrap: wrap; align-items: center; justify-content: end; gap: 0.5rem 0.7rem; }
.tool-row { justify-content: space-between; }
.tool-row .button { padding-inline: 0.75rem; }
.tool-row form { display: contents; }
#who { margin-inline-start: auto; flex-wrap: nowrap; }
.who-name { font-weight: 700; }
.strip { display: flex; flex-wrap: wrap; align-items: center; gap: 0.4rem 1rem; padding: 0.5rem 0.8rem; background: var(--sheet); border: 3px solid var(--line); font-weight: 700; }
.strip[data-tone="attention"] { background: var(--attention-sheet); color: var(--attention); border: 3px dashed var(--attention); }

.title { display: flex; flex-wrap: wrap; align-items: baseline; gap: 0.1rem 1rem; padding-block-start: 0.9rem; }
.title p { color: var(--soft); font-weight: 600; }
#bells { padding: 0.9rem 1rem 0; display: grid; gap: 0.7rem; }
#bells .panel { font-size: 1.1rem; }
#bells strong { font-size: 1.45rem; line-height: 1.2; }

#ringing { position: fixed; inset-inline: 0; inset-block-end: 0; z-index: 50; padding: 0.7rem 1.2rem 0.8rem; background: #86190f; color: #ffffff; border-block-start: 9px double #ffffff; display: flex; flex-wrap: wrap; align-items: center; gap: 0.4rem 1.2rem; }
.ringing-text { flex: 1 1 18rem; font-size: 1.4rem; line-height: 1.2; font-weight: 700; }
.ringing-text strong { border: 3px solid #ffffff; padding: 0 0.35em; margin-inline-end: 0.3em; }
#ringing .hint { color: #ffffff; }
#ringing-silent { font-weight: 700; }
#ringing::after { content: ""; order: 1; flex-basis: 100%; }
#ringing .hint, #ringing-silent { order: 2; }
#ringing .button { background: transparent; border-color: #ffffff; color: #ffffff; }
#ringing #bell-show { background: #ffffff; color: #86190f; }
#ringing :focus-visible { outline-color: #ffffff; }
html[data-ringing] body { padding-block-end: 12rem; }
html[data-ringing] body::after { content: ""; position: fixed; inset: 0; z-index: 45; pointer-events: none; border: 10px solid #d2301d; animation: pulse 1.2s ease-in-out infinite; }
@keyframes pulse { 50% { opacity: 0.15; } }

@media (max-width: 42rem) {
  .bar { gap: 0.45rem; padding: 0.4rem 0.6rem; }
  .brand-name { position: absolute; inline-size: 1px; block-size: 1px; overflow: hidden; clip-path: inset(50%); }
  .brand { min-inline-size: 34px; }
  .pot { inline-size: 1.6rem; block-size: 1.6rem; }
  #clock { font-size: 1.1rem; }
  .urgent { gap: 0.45rem; }
  .urgent .button { padding-inline: 0.35rem; font-size: 0.88rem; }
  nav { padding-inline: 0; justify-content: space-between; }
  nav a { flex: 1 0 auto; padding: 0.2rem 0.25rem; font-size: 0.84rem; }
  .who-name { font-size: 0.94rem; text-align: end; line-height: 1.15; }
  .tool-row .button { font-size: 0.9rem; padding-inline: 0.5rem; }
  main, .tools, #bells, footer { padding-inline: 0.7rem; }
  #ringing { padding: 0.4rem 0.7rem 0.5rem; gap: 0.4rem; }
  #ringing::after, #ringing .hint { display: none; }
  /* Still read out; to the eye the button that turns the sound on says it. */
  #ringing-silent { position: absolute; inline-size: 1px; block-size: 1px; overflow: hidden; clip-path: inset(50%); }
  .ringing-text { display: flex; flex-basis: 100%; min-inline-size: 0; font-size: 1.1rem; }
  #ringing-what { flex: 1; min-inline-size: 0; overflow: hidden; text-overflow: ellipsis; white-space: nowrap; }
  #ringing .buttons { flex: 1; flex-wrap: nowrap; }
  #ringing .buttons .button { flex: 1; }
  html[data-ringing] body { padding-block-end: 8rem; }
  html[data-ringing] body::after { border-width: 7px; }
}
@media (max-width: 25rem) { .brand { position: absolute; inline-size: 1px; block-size: 1px; overflow: hidden; clip-path: inset(50%); } }
`;
