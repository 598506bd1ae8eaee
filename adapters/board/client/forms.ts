/** Comforts for forms; every form works without them. */
export const formScript = `
for (const button of document.querySelectorAll('[data-step]')) {
  button.hidden = false;
  button.addEventListener('click', () => {
    const field = byId(button.dataset.for);
    const step = Number(button.dataset.step);
    const from = Number(field.value.trim().replace(',', '.').replace('\\u2212', '-'));
    const places = (String(Math.abs(step)).split('.')[1] ?? '').length;
    const kept = (field.value.split(/[.,]/)[1] ?? '').length;
    field.value = ((Number.isFinite(from) ? from : 0) + step).toFixed(Math.max(places, kept));
    field.dispatchEvent(new Event('input', { bubbles: true }));
    announce(field.value);
  });
}

const keypad = byId('keypad');
if (keypad) {
  keypad.hidden = false;
  byId('pin-send').hidden = true;
  keypad.addEventListener('click', (event) => {
    const digit = event.target.closest('[data-digit]')?.dataset.digit;
    const pin = byId('pin');
    if (digit === 'erase') pin.value = pin.value.slice(0, -1);
    else if (digit && pin.value.length < pin.maxLength) pin.value += digit;
  });
}

// The server takes a double press for one; this only spares people the wait. A stop is never held back.
document.addEventListener('submit', (event) => {
  const form = event.target;
  if (form.querySelector('#stop-work')) return;
  if (form.dataset.sent) {
    event.preventDefault();
    return;
  }
  form.dataset.sent = '1';
  setTimeout(() => { delete form.dataset.sent; }, 8000);
});

addEventListener('beforeprint', () => {
  for (const more of document.querySelectorAll('details')) more.open = true;
});

const said = document.querySelector('.said');
if (said) announce(said.textContent.trim().replace(/\\s+/g, ' '));
`;
