/** The bell on this screen: two falling tones of our own, a pulsing frame and a strip with what it is about. */
export const bellScript = `
const BURST = 4;
const NAG_MS = 20000;
const LEAST_MS = 6000;
const rung = new Set();
let audio = null;
let tones = 0;
let ringingSince = -1e9;

const remember = (on) => {
  try {
    if (on) sessionStorage.setItem('quiet', '1');
    else sessionStorage.removeItem('quiet');
  } catch { /* storage may be shut off: the bell then comes back on the next page, which is the better fault */ }
};
const keptQuiet = () => {
  try { return sessionStorage.getItem('quiet') === '1'; } catch { return false; }
};

function strip(text) {
  byId('sound-state').textContent = text;
  byId('sound-state').hidden = text === '';
}

function soundState() {
  const state = !audio ? 'none' : audio.state === 'running' ? 'on' : 'blocked';
  if (root.dataset.sound === state) return;
  root.dataset.sound = state;
  byId('bell-test').hidden = state !== 'on';
  byId('bell-enable').hidden = state !== 'blocked';
  byId('ringing-silent').hidden = state !== 'blocked';
  strip(state === 'none' ? words.bellCannot : '');
}

function tone(at, hz) {
  const loud = audio.createGain();
  loud.connect(audio.destination);
  loud.gain.setValueAtTime(0.0001, at);
  loud.gain.exponentialRampToValueAtTime(0.5, at + 0.02);
  loud.gain.exponentialRampToValueAtTime(0.0001, at + 0.42);
  for (const [kind, times] of [['triangle', 1], ['sine', 2.01]]) {
    const wave = audio.createOscillator();
    wave.type = kind;
    wave.frequency.value = hz * times;
    wave.connect(loud);
    wave.start(at);
    wave.stop(at + 0.45);
  }
  tones += 1;
  root.dataset.tones = String(tones);
}

function play(times) {
  if (audio?.state !== 'running') return false;
  for (let one = 0; one < times; one += 1) {
    const at = audio.currentTime + 0.05 + one * 1.2;
    tone(at, 988);
    tone(at + 0.36, 659);
  }
  return true;
}

async function wakeSound() {
  if (!audio || audio.state === 'running') return soundState();
  await Promise.race([audio.resume().catch(() => {}), new Promise((go) => setTimeout(go, 800))]);
  soundState();
  if (audio.state === 'running' && root.dataset.ringing) play(BURST);
}

function showRinging(what) {
  root.dataset.ringing = 'true';
  byId('ringing-what').textContent = what;
  byId('ringing').hidden = false;
}
function stopRinging() {
  delete root.dataset.ringing;
  byId('ringing').hidden = true;
}
function ring(id, what, crew) {
  if (rung.has(id)) {
    // The crew's wording is in the site's language; one person's may not be.
    if (crew && root.dataset.ringing) showRinging(what);
    return;
  }
  rung.add(id);
  remember(false);
  ringingSince = performance.now();
  showRinging(what);
  if (!play(BURST)) wakeSound();
}

const openBells = () => Number(byId('bells').dataset.count);
const firstBell = () => byId('bells').firstElementChild?.getAttribute('aria-label') ?? '';
const bellIds = () => [...byId('bells').children].map((bell) => bell.id);
let known = new Set(bellIds());
function bellsChanged() {
  const fresh = bellIds().filter((id) => !known.has(id));
  known = new Set(bellIds());
  // The ring itself may have been missed while the connection was down: the open bell then rings by being new here.
  if (fresh.length > 0 && performance.now() - ringingSince > LEAST_MS) {
    ring(fresh.join(' ') + now(), byId(fresh[0]).getAttribute('aria-label') ?? '', true);
  }
  if (openBells() > 0) return;
  const rest = ringingSince + LEAST_MS - performance.now();
  if (root.dataset.ringing && rest > 0) {
    setTimeout(bellsChanged, rest);
    return;
  }
  remember(false);
  stopRinging();
}

if (window.AudioContext) {
  audio = new AudioContext();
  audio.addEventListener('statechange', soundState);
}
soundState();
// On click, not on touch: changing the button moves the page, and must not do so under a finger.
addEventListener('click', wakeSound, true);
addEventListener('keydown', wakeSound, true);
setInterval(() => { if (root.dataset.ringing && openBells() > 0) play(1); }, NAG_MS);

async function test() {
  await wakeSound();
  if (!play(1)) return;
  strip(words.bellTested);
  setTimeout(() => { if (root.dataset.sound === 'on') strip(''); }, 9000);
}
byId('bell-test').addEventListener('click', test);
byId('bell-enable').addEventListener('click', test);
byId('bell-quiet').addEventListener('click', () => {
  remember(true);
  stopRinging();
});
if (openBells() > 0 && !keptQuiet()) {
  showRinging(firstBell());
}
`;
