import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { rigClocks } from '../../src/flow/clocks.ts';
import { decodeAction, encodeAction } from '../../src/message/action.ts';
import type { Block, Message } from '../../src/message/message.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { JournalEvent } from '../../src/model/event.ts';
import { announcements } from '../../src/views/announce.ts';
import { batchMessage } from '../../src/views/batch.ts';
import { glance } from '../../src/views/glance.ts';
import { holdsMessage } from '../../src/views/holds.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { refusalMessage } from '../../src/views/refusal.ts';
import { whyClock } from '../../src/views/why/clock.ts';
import { briefed, mixed, type Play, posted, ready } from '../flow/harness.ts';
import { aPack, t } from '../flow/pack.ts';

const { textsFor } = loadTexts();
const texts = textsFor('en');
const viewOf = (play: Play) => ({ shift: play.state, texts, now: play.now });
const pages = ['today', 'briefing', 'emergency', 'record', 'sign-off', 'notices'] as const;

/** What the last command said. */
function said(play: Play, act: () => void) {
  const before = play.shift;
  const from = play.journal.length;
  act();
  return announcements(before, play.state, play.journal.slice(from) as readonly JournalEvent[], textsFor);
}

function buttonsOf(message: Message) {
  const inside = (blocks: readonly Block[]): readonly Block[] =>
    blocks.flatMap((block) =>
      block.kind === 'more' || block.kind === 'below' ? [block, ...inside(block.blocks)] : [block],
    );
  return inside(message.blocks).flatMap((block) => (block.kind === 'buttons' ? block.buttons : []));
}

describe('messages', () => {
  test('PL1 a batch is told with its wall-clock times, on the clock of the site', () => {
    const play = mixed();
    const batch = play.rig().batches[0];
    if (!batch) throw new Error('no batch');
    expect(plainText(batchMessage(viewOf(play), batch)).split('\n')[0]).toBe(
      'Rig One, batch rig-1-1: use by 09:30. Start the flush by 09:46. Dead at 10:00.',
    );
    const lisbon = mixed({}, aPack({ zone: 'Europe/Lisbon' }));
    lisbon.now = t('08:00');
    const there = lisbon.rig().batches[0];
    expect(there && batchMessage(viewOf(lisbon), there).summary).toContain('use by 10:30');
  });

  test('HO4 paint whose pot life nobody knows is told to be flushed now, with the reason', () => {
    const pack = aPack();
    const coatings = pack.coatings.map(({ potLife, ...sheet }) => ({
      ...sheet,
      ...(sheet.id !== 'epoxy' && { potLife }),
    }));
    const play = ready({}, { ...pack, coatings }).at('08:00');
    play.mix();
    const batch = play.rig().batches[0];
    if (!batch) throw new Error('no batch');
    const said = plainText(batchMessage(viewOf(play), batch));
    expect(said).toContain('Start the flush by 08:00.');
    expect(said).toContain(
      'The pot life of Test epoxy is not known. It counts as none: spray none of it, flush now.',
    );
    expect(said).toContain('Mixed while a hold stood: pot life unknown.');
    expect(plainText(holdsMessage(viewOf(play)))).toContain(
      'Test epoxy: pot life not known. Mix none of it.',
    );
    const why = whyClock(viewOf(play)).map(({ result, formula }) => `${result} ${formula}`);
    expect(why).toEqual([expect.stringMatching(/is not known.*all the time of mixing, 08:00\.$/)]);
  });

  test('PL6 a break the paint runs out in is said when the batch is logged', () => {
    const play = ready({ breaks: [{ from: '09:15', to: '09:45' }] }).at('08:00');
    const [message] = said(play, () => play.mix());
    expect(message && plainText(message.message)).toContain(
      'Runs out about the break 09:15 to 09:45. Flush before it, start by 09:01',
    );
  });

  test('PL7 what moved is said with the time before and the time now', () => {
    const play = mixed().at('09:00');
    const [message] = said(play, () => play.do({ type: 'pot-temperature', rig: 'rig-1', c: 30 }, 'max'));
    expect(message?.message.summary).toMatch(/^Rig One: paint 30 °C\. Use by .*09:15.*09:30/);
  });

  test('BE2 a ring for the foreman still reaches the crew, with its level in words', () => {
    const play = briefed();
    play.ringUntil('06:43');
    play.at('06:44');
    const rings = said(play, () => play.ring()).filter(({ key }) => key.startsWith('bell:unsigned:1:'));
    expect(rings.map(({ audience }) => audience)).toEqual([
      { kind: 'crew' },
      { kind: 'person', person: 'finn' },
    ]);
    expect(
      rings.every(
        ({ urgency, message }) => urgency === 'bell' && plainText(message).includes('For: foreman'),
      ),
    ).toBe(true);
  });

  test('BE3 a late ring says how late and how many were missed', () => {
    const play = briefed().at('06:55');
    const [ring] = said(play, () => play.ring());
    const words = ring ? plainText(ring.message) : '';
    expect(words).toContain('This bell is 15 min late. It should have rung at 06:40.');
    expect(words).toContain('3 rings missed meanwhile.');
  });

  test('HO2 a margin just too small does not read as enough', () => {
    const play = ready();
    // Dew point of 20 °C and 80 % by Magnus is 16.45 °C: the margin is 2.98 °C.
    play.reading(20, 80, 19.42);
    const words = plainText(holdsMessage(viewOf(play)));
    expect(words).toContain('steel is 2.9 °C over the dew point. At least 3 °C is needed');
  });

  test('HO1 no hold is worded as no permission', () => {
    expect(plainText(holdsMessage(viewOf(ready())))).toContain('That is no permission');
  });

  test('ST1 a stop reaches everybody as a bell, with what to do', () => {
    const play = mixed();
    const [stop] = said(play, () => play.do({ type: 'stop-work', text: 'Crane' }, 'hal'));
    expect(stop).toMatchObject({ audience: { kind: 'crew' }, urgency: 'bell', message: { tone: 'danger' } });
    expect(stop && plainText(stop.message)).toContain('1. Stop spraying. Lock the trigger.');
  });

  test.each(['en', 'es', 'pt', 'pl'])(
    'ST2 only who may clear a stop has its button; others read who does (%s)',
    (language) => {
      const play = mixed();
      const spoken = {
        ...play.state,
        day: { ...play.state.day, site: { ...play.state.day.site, language } },
      };
      play.shift = spoken;
      const told = said(play, () => play.do({ type: 'stop-work', text: 'Crane' }, 'hal'));
      const clears = (message: Message) => JSON.stringify(buttonsOf(message)).includes('clear-stop-work');
      // Beside it stands the channel's briefing with what holds now.
      const toCrew = told.filter(
        ({ audience, key }) => audience.kind === 'crew' && !key.startsWith('briefing:'),
      );
      expect(toCrew.map(({ message }) => clears(message))).toEqual([false]);
      const whose = textsFor(language).say('stop.clears', { people: 'Finn' });
      expect(toCrew.map(({ message }) => plainText(message).includes(whose))).toEqual([true]);
      const withButton = told.filter(({ message }) => clears(message));
      expect(withButton.map(({ audience, urgency }) => ({ audience, urgency }))).toEqual([
        { audience: { kind: 'person', person: 'finn' }, urgency: 'bell' },
      ]);
      for (const [viewer, may] of [
        ['finn', true],
        ['pia', false],
        [null, false],
      ] as const) {
        const context = { ...viewOf(play), pack: play.pack, viewer };
        const stop = pagePanels('today', context).find(({ id }) => id === 'stop-work');
        expect(stop && clears(stop.message)).toBe(may);
        expect(clears(glance(context))).toBe(may);
      }
    },
  );

  test('EN1 a refusal names what is wrong in words of ours, not in ids', () => {
    const play = mixed();
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    const refusal = play.refused(
      { type: 'confirm-step', rig: 'rig-1', flush: 'rig-1-flush-1', step: 'tip-off' },
      'pia',
    );
    expect(plainText(refusalMessage(refusal, texts))).toContain('First comes: Lock the trigger.');
  });
});

describe('pages', () => {
  const states = {
    'no day': null,
    posted: posted(),
    briefed: briefed(),
    mixed: mixed(),
    rung: rungOut(),
    flushing: flushing(),
  };

  function rungOut(): Play {
    const play = mixed();
    play.ringUntil('10:10');
    return play;
  }

  function flushing(): Play {
    const play = mixed();
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    play.flushTo('tip-off');
    return play;
  }

  test.each(
    Object.entries(states).flatMap(([name, play]) => pages.map((page) => [page, name, play] as const)),
  )('EN1 page %s with %s is whole for everybody who may look', (page, _name, play) => {
    for (const viewer of [null, 'finn', 'pia', 'lou']) {
      const panels = pagePanels(page, {
        pack: aPack(),
        shift: play?.shift ?? null,
        now: play?.now ?? t('06:00'),
        texts,
        viewer,
      });
      expect(new Set(panels.map(({ id }) => id)).size).toBe(panels.length);
      for (const { message, title } of panels) {
        expect(title).not.toBe('');
        expect(plainText(message)).not.toMatch(/undefined|NaN|\bnull\b|[{}]|\[object/);
        for (const { action } of buttonsOf(message)) {
          expect(decodeAction(encodeAction(action))).toEqual(action);
          // Slack's limit for a button's value, the tightest there is.
          expect(encodeAction(action).length).toBeLessThan(2000);
        }
      }
    }
  });

  test('the emergency page works without a day and says surgical', () => {
    const [panel] = pagePanels('emergency', { pack: aPack(), shift: null, now: 0, texts, viewer: null });
    const words = panel ? plainText(panel.message) : '';
    expect(words).toContain('Surgical emergency, however small the hole');
    expect(words).toContain('County Hospital');
  });

  test('BE7 bells that wait for an answer lead the page, loudest first by time', () => {
    const play = rungOut();
    const panels = pagePanels('today', {
      pack: aPack(),
      shift: play.state,
      now: play.now,
      texts,
      viewer: 'pia',
    });
    expect(panels[0]?.id).toBe('bell-dead-rig-1-line-rig-1-1');
    expect(rigClocks(play.state, 'rig-1')).toHaveLength(1);
  });
});
