import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { encodeAction } from '../../src/message/action.ts';
import type { Block, Button, Message } from '../../src/message/message.ts';
import { glance } from '../../src/views/glance.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { briefed, mixed, type Play, posted, ready } from '../flow/harness.ts';
import { aJob } from '../flow/pack.ts';

const texts = loadTexts().textsFor('en');
const at = (play: Play, viewer: string | null) => ({
  pack: play.pack,
  shift: play.shift,
  now: play.now,
  texts,
  viewer,
});
const home = (play: Play, viewer: string | null) => glance(at(play, viewer));

const pressesIn = (blocks: readonly Block[]): readonly Button[] =>
  blocks.flatMap((block) => {
    if (block.kind === 'more' || block.kind === 'below') return pressesIn(block.blocks);
    return block.kind === 'buttons' ? block.buttons : [];
  });
const labels = ({ blocks }: Message) => pressesIn(blocks).map(({ label }) => label);
/** The rows of buttons under a heading. */
function under({ blocks }: Message, title: string): readonly string[] {
  const from = blocks.findIndex((block) => block.kind === 'heading' && block.text === title);
  const rest = blocks.slice(from + 1);
  const to = rest.findIndex(({ kind }) => kind === 'heading' || kind === 'divider');
  expect(from).toBeGreaterThanOrEqual(0);
  return pressesIn(rest.slice(0, to < 0 ? undefined : to)).map(({ label }) => label);
}
const twoRigs = {
  jobs: [aJob(), aJob({ rig: 'rig-2', area: 'Gate 2', sprayers: ['lou'], mixers: ['lou'] })],
};

function stopped(): Play {
  const play = mixed();
  play.do({ type: 'stop-work', text: 'Gust' });
  return play;
}
function flushing(): Play {
  const play = mixed(twoRigs);
  play.do({ type: 'start-flush', rig: 'rig-1' });
  return play;
}
function tagged(): Play {
  const play = ready(twoRigs);
  play.do({ type: 'report-defect', rig: 'rig-1', part: 'hose', text: 'bulges' });
  return play;
}
function closed(): Play {
  const play = ready();
  play.at('15:00').do({ type: 'close-shift', reason: 'rain' });
  return play;
}
const states: Readonly<Record<string, () => Play>> = {
  posted,
  briefed,
  ready: () => ready(twoRigs),
  mixed: () => mixed(twoRigs),
  flushing,
  tagged,
  stopped,
  closed,
};

describe.each(Object.entries(states))('%s', (_name, play) => {
  test.each(['finn', 'pia', 'lou'])('stop-work and the emergency card come first for %s', (viewer) => {
    const [first] = home(play(), viewer).blocks;
    expect(first && pressesIn([first]).map(({ label }) => label)).toEqual(['Stop work', 'Emergency']);
  });

  test.each(['finn', 'pia', 'lou'])('nothing that can be pressed today is out of reach for %s', (viewer) => {
    const context = at(play(), viewer);
    const ways = (found: readonly Button[]) => found.map(({ action }) => encodeAction(action));
    const panels = (page: 'today' | 'more' | 'notices') =>
      ways(pagePanels(page, context).flatMap(({ message }) => pressesIn(message.blocks)));
    const onHome = ways(pressesIn(glance(context).blocks));
    const today = panels('today');
    expect(today.length).toBeGreaterThan(2);
    const closing = context.shift?.status === 'closed';
    if (!closing) expect(onHome).toContain(encodeAction({ kind: 'show', page: 'more' }));
    const reached = new Set([...onHome, ...panels('more'), ...panels('notices')]);
    expect(today.filter((way) => !reached.has(way))).toEqual([]);
    expect(onHome.filter((way) => !new Set([...today, ...reached]).has(way))).toEqual([]);
  });

  test.each(['finn', 'pia', 'lou'])('no more than about a dozen buttons for %s', (viewer) => {
    expect(labels(home(play(), viewer)).length).toBeLessThanOrEqual(13);
  });
});

test('the card is called today, and a shift that is over is called closed', () => {
  const { date, day } = ready().state;
  const called = texts.say('talk.today', { site: day.site.name, date });
  expect(home(ready(), 'pia').summary).toBe(called);
  expect(home(ready(), 'pia').summary).not.toContain('riefing');
  expect(home(closed(), 'pia')).toMatchObject({
    summary: texts.say('today.closed', { date }),
    tone: 'attention',
  });
});

describe('what is next for this person', () => {
  test('is to read and sign, until that is done', () => {
    expect(under(home(briefed(), 'pia'), 'Next for you')).toEqual(['Read, answer, sign']);
    expect(home(ready(), 'pia').blocks).not.toContainEqual({ kind: 'heading', text: 'Next for you' });
  });

  test('is for the foreman to give the briefing, and to answer a concern', () => {
    expect(under(home(posted(), 'finn'), 'Next for you')).toEqual(['Give the briefing now']);
    expect(home(posted(), 'pia').blocks).not.toContainEqual({ kind: 'heading', text: 'Next for you' });
    const play = ready();
    play.do({ type: 'raise-concern', text: 'The hose rubs' }, 'pia');
    expect(under(home(play, 'finn'), 'Next for you')).toEqual(['Answer the concern']);
  });
});

test("one's own rig comes first and has more to press; the other has what is likeliest", () => {
  const play = mixed(twoRigs);
  const rigs = (viewer: string) =>
    home(play, viewer).blocks.flatMap((block) =>
      block.kind === 'heading' && block.text.startsWith('Rig ') ? [block.text] : [],
    );
  expect(rigs('pia')).toEqual(['Rig One', 'Rig Two']);
  expect(rigs('lou')).toEqual(['Rig Two', 'Rig One']);
  expect(under(home(play, 'pia'), 'Rig One')).toEqual([
    'Start the flush',
    'Log a batch',
    'Paint temperature',
    'Report a defect',
  ]);
  expect(under(home(play, 'lou'), 'Rig One')).toEqual(['Start the flush']);
});

test('who does not flush sees the next step alone', () => {
  const play = flushing();
  const kinds = (viewer: string) => home(play, viewer).blocks.map(({ kind }) => kind);
  expect(kinds('pia')).toContain('checklist');
  expect(kinds('lou')).not.toContain('checklist');
  for (const viewer of ['pia', 'lou']) {
    expect(labels(home(play, viewer))).toContain(texts.say('press.lock-trigger'));
    expect(labels(home(play, viewer))).not.toContain(texts.say('today.press-abandon'));
  }
});
