/** The page's own clock: the server's time, carried on by the browser's steady counter, never by its wall clock. */
export const baseScript = `
const root = document.documentElement;
const body = document.body;
const words = JSON.parse(body.dataset.words);
const byId = (id) => document.getElementById(id);
const put = (text, values) => text.replace(/\\{(\\w+)\\}/g, (place, name) => values[name] ?? place);

let serverNow = Number(body.dataset.now);
let readAt = performance.now();
const now = () => serverNow + performance.now() - readAt;
const setNow = (at) => {
  if (!Number.isFinite(at)) return;
  serverNow = at;
  readAt = performance.now();
  tick();
};
const wall = new Intl.DateTimeFormat('en-GB', {
  hour: '2-digit', minute: '2-digit', hourCycle: 'h23', timeZone: body.dataset.zone,
});

const setText = (node, text) => {
  if (node.textContent !== text) node.textContent = text;
};
function tick() {
  setText(byId('clock'), wall.format(now()));
  for (const timer of document.querySelectorAll('[data-to]')) {
    const left = Number(timer.dataset.to) - now();
    setText(timer.querySelector('.countdown-left'), remainingText(left, words));
    timer.toggleAttribute('data-past', left <= 0);
  }
}
setInterval(tick, 1000);

let announced = 0;
function announce(text) {
  const place = byId('announce');
  place.textContent = '';
  clearTimeout(announced);
  announced = setTimeout(() => { place.textContent = text; }, 150);
}
`;
