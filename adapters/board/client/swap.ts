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

function syncPanels(box, fresh) {
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
    else box.insertBefore(node, at);
  }
  while (at) {
    const gone = at;
    at = at.nextElementSibling;
    sizes.unobserve(gone);
    gone.remove();
  }
  if (box === packed) pack();
}

function takeFresh(fragment) {
  const focused = document.activeElement?.id;
  const bells = fragment.querySelector('#bells');
  const who = fragment.querySelector('#who');
  const panels = fragment.querySelector('#panels');
  if (bells) {
    syncPanels(byId('bells'), bells);
    byId('bells').hidden = bells.hidden;
    byId('bells').dataset.count = bells.dataset.count;
  }
  if (who && who.textContent !== byId('who').textContent) byId('who').replaceWith(document.importNode(who, true));
  if (panels && byId('panels')) syncPanels(byId('panels'), panels);
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
