/** Packs the panels, and takes fresh parts into the open page. Unchanged panels, typed values, opened details and focus stay as they are. */
export const swapScript = `
// Panels keep their order of importance; this only lets short ones close up the gaps that tall ones leave.
const ROW = 4;
const packed = byId('panels');
const sizes = new ResizeObserver((changed) => changed.forEach(({ target }) => span(target)));
function span(panel) {
  const gap = parseFloat(getComputedStyle(packed).columnGap);
  panel.style.gridRowEnd = 'span ' + Math.ceil((panel.offsetHeight + gap) / ROW);
}
function pack() {
  if (!packed) return;
  packed.classList.add('packed');
  for (const panel of packed.children) {
    span(panel);
    sizes.observe(panel);
  }
}
pack();

const typedIn = (node) =>
  [...node.querySelectorAll('input:not([type=hidden]), textarea')].some((field) =>
    field.type === 'checkbox' || field.type === 'radio'
      ? field.checked !== field.defaultChecked
      : field.value !== field.defaultValue || field === document.activeElement);

/** True when anything in the box was put in, taken out, replaced or moved. */
function syncPanels(box, fresh) {
  let moved = false;
  const before = new Map([...box.children].map((node) => [node.id, node]));
  let at = box.firstElementChild;
  for (const next of [...fresh.children]) {
    const old = before.get(next.id);
    let node = old;
    if (!old || (old.dataset.v !== next.dataset.v && !typedIn(old))) {
      node = document.importNode(next, true);
      for (const more of old ? old.querySelectorAll('details[open][id]') : []) {
        const same = [...node.querySelectorAll('details')].find((one) => one.id === more.id);
        if (same) same.open = true;
      }
    }
    if (node === at) at = at.nextElementSibling;
    else {
      box.insertBefore(node, at);
      moved = true;
    }
  }
  while (at) {
    const gone = at;
    at = at.nextElementSibling;
    sizes.unobserve(gone);
    gone.remove();
    moved = true;
  }
  if (box === packed) pack();
  return moved;
}

// After a change another button may lie where somebody was about to press: for a moment none can be pressed. A press
// in that moment is dropped, not kept for later. The urgent buttons in the bar never move and are not held back.
const SETTLE_MS = 1500;
let settled = 0;
function settle() {
  root.dataset.settling = 'true';
  clearTimeout(settled);
  settled = setTimeout(() => { delete root.dataset.settling; }, SETTLE_MS);
}
addEventListener('click', (event) => {
  if (!root.dataset.settling || !event.target.closest?.('main .button, #bells .button')) return;
  event.preventDefault();
  event.stopImmediatePropagation();
}, true);

// Where somebody points, types or has pressed a moment ago stays where it is, as far as the page can be scrolled.
const HAND_MS = 5000;
let handAt = -1e9;
let pointer = null;
const hand = (event) => {
  handAt = performance.now();
  pointer = 'clientX' in event ? event : null;
};
for (const kind of ['pointermove', 'pointerdown', 'keydown']) addEventListener(kind, hand, { capture: true, passive: true });
function underHand() {
  if (performance.now() - handAt > HAND_MS) return null;
  const at = pointer ? document.elementFromPoint(pointer.clientX, pointer.clientY) : document.activeElement;
  return at?.closest('#panels > [id], #bells > [id], main > *') ?? null;
}
function keepingPlace(change) {
  const held = underHand();
  const before = held?.getBoundingClientRect().top;
  // The browser would set the page right in its own way as well, and twice is wrong.
  root.style.overflowAnchor = 'none';
  change();
  const after = held && (held.isConnected ? held : byId(held.id));
  const moved = after ? after.getBoundingClientRect().top - before : 0;
  if (moved !== 0) scrollBy({ top: moved, behavior: 'instant' });
  requestAnimationFrame(() => requestAnimationFrame(() => { root.style.overflowAnchor = ''; }));
}

function takeFresh(fragment) {
  keepingPlace(() => swap(fragment));
}

function swap(fragment) {
  let moved = false;
  const focused = document.activeElement?.id;
  const bells = fragment.querySelector('#bells');
  const who = fragment.querySelector('#who');
  const panels = fragment.querySelector('#panels');
  if (bells) {
    moved = syncPanels(byId('bells'), bells);
    byId('bells').hidden = bells.hidden;
    byId('bells').dataset.count = bells.dataset.count;
  }
  if (who && who.textContent !== byId('who').textContent) byId('who').replaceWith(document.importNode(who, true));
  if (panels && byId('panels')) moved = syncPanels(byId('panels'), panels) || moved;
  if (moved) settle();
  if (focused && document.activeElement?.id !== focused) byId(focused)?.focus({ preventScroll: true });
  setNow(Number(fragment.dataset.now));
}

// Nothing may move under a finger that is already down.
let finger = false;
let afterFinger = null;
const fingerUp = () => setTimeout(() => {
  finger = false;
  afterFinger?.();
  afterFinger = null;
}, 300);
addEventListener('pointerdown', () => { finger = true; });
addEventListener('pointerup', fingerUp);
addEventListener('pointercancel', fingerUp);
const noFinger = () => (finger ? new Promise((go) => { afterFinger = go; }) : Promise.resolve());
`;
