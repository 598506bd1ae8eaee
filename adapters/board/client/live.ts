/** Keeps the page live: server-sent events say that something changed, the page then fetches its fresh parts. */
export const liveScript = `
const SILENT_MS = 45000;
const SWEEP_MS = 60000;
// Asked for afresh: reload() would offer to send a form again.
const reload = () => location.replace(location.pathname + location.search);
let source = null;
let wait = 2000;
let again = 0;
let heard = now();
let heardAt = performance.now();
let lost = false;

function hear(event) {
  const data = JSON.parse(event.data);
  setNow(data.now);
  heard = data.now;
  heardAt = performance.now();
  return data;
}

function lose() {
  if (lost) return;
  lost = true;
  root.dataset.live = 'lost';
  const strip = byId('live-state');
  strip.textContent = put(words.liveLost, { time: wall.format(heard) });
  strip.hidden = false;
}

function found() {
  root.dataset.live = 'on';
  if (!lost) return;
  lost = false;
  byId('live-state').hidden = true;
  announce(words.liveBack);
}

let fetching = false;
let stale = false;
async function refresh() {
  if (fetching) {
    stale = true;
    return;
  }
  fetching = true;
  try {
    const answer = await fetch(body.dataset.fragment, { cache: 'no-store', redirect: 'error' });
    if (!answer.ok) throw new Error('fragment ' + answer.status);
    const page = new DOMParser().parseFromString(await answer.text(), 'text/html');
    await noFinger();
    takeFresh(page.getElementById('fragment'));
    bellsChanged();
    found();
  } catch {
    lose();
  } finally {
    fetching = false;
    if (stale) {
      stale = false;
      refresh();
    }
  }
}

function connect() {
  clearTimeout(again);
  source?.close();
  source = new EventSource('/live');
  source.addEventListener('hello', (event) => {
    wait = 2000;
    // A newer board: take its page, unless somebody is typing into this one.
    if (hear(event).build !== body.dataset.build && byId('panels')) reload();
    else refresh();
  });
  source.addEventListener('beat', hear);
  source.addEventListener('change', (event) => { hear(event); refresh(); });
  source.addEventListener('bell', (event) => { const { id, summary, crew } = hear(event); ring(id, summary, crew); });
  source.onerror = () => {
    lose();
    source.close();
    clearTimeout(again);
    again = setTimeout(connect, wait);
    wait = Math.min(wait * 2, 30000);
  };
}

setInterval(() => {
  if (performance.now() - heardAt < SILENT_MS) return;
  lose();
  heardAt = performance.now();
  connect();
}, 5000);
setInterval(refresh, SWEEP_MS);
addEventListener('online', connect);
document.addEventListener('visibilitychange', () => {
  if (!document.hidden && (lost || performance.now() - heardAt > 20000)) connect();
});
addEventListener('pagehide', () => source?.close());
// A page the browser kept and brings back has spent buttons and old times.
addEventListener('pageshow', (event) => { if (event.persisted) reload(); });
connect();
`;
