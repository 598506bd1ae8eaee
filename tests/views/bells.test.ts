import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { wantedBells } from '../../src/flow/bells.ts';
import { rigClocks } from '../../src/flow/clocks.ts';
import { estimatedC } from '../../src/flow/standing.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { JournalEvent } from '../../src/model/event.ts';
import { announcements } from '../../src/views/announce.ts';
import { bellMessage, rungBell } from '../../src/views/bell.ts';
import { mixed, type Play } from '../flow/harness.ts';
import { t } from '../flow/pack.ts';

const { textsFor } = loadTexts();
const viewOf = (play: Play) => ({ shift: play.state, texts: textsFor('en'), now: play.now });
const languages = ['en', 'es', 'pt', 'pl'] as const;

/** The same shift on a site that speaks another language. */
function speaking(play: Play, language: string): Play {
  const { day } = play.state;
  play.shift = { ...play.state, day: { ...day, site: { ...day.site, language } } };
  return play;
}

/** What an act said, as summaries with whom they were for. */
function said(play: Play, act: () => void) {
  const { state } = play;
  const from = play.journal.length;
  act();
  const events = play.journal.slice(from) as readonly JournalEvent[];
  return announcements(state, play.state, events, textsFor).map(({ audience, message, key }) => ({
    key,
    to: audience.kind === 'crew' ? 'crew' : audience.person,
    summary: message.summary,
    text: plainText(message),
  }));
}

/** What the next ring at a time says to the crew. */
function rungAt(play: Play, time: string) {
  play.ringUntil(t(time) - 1);
  play.at(time);
  return said(play, () => play.ring());
}

describe('which paint a bell is about', () => {
  test.each(languages)('BE9 two batches of one rig are told apart (%s)', (language) => {
    const play = mixed().at('08:30');
    play.mix();
    const texts = textsFor(language);
    const names = (where: string, batch: string) => texts.say('bell.paint', { where, batch });
    const line = rungAt(speaking(play, language), '09:30').find(({ key }) => key.includes('use-by:'));
    expect(line?.summary).toContain(`Rig One, ${names('line', 'rig-1-1')}:`);
    const pot = rungAt(play, '10:00').find(({ key }) => key.startsWith('bell:use-by:rig-1:pot'));
    expect(pot?.summary).toContain(`Rig One, ${names('pot', 'rig-1-2')}:`);
    expect(line?.summary).not.toContain('rig-1-2');
    expect(pot?.summary).not.toContain('rig-1-1');
  });

  test('BE9 one batch in pot and line is named with both places', () => {
    const [bell] = rungAt(mixed(), '09:15').filter(({ key }) => key.includes('use-by-soon'));
    expect(bell?.summary).toMatch(/^Rig One, pot and line, batch rig-1-1: 15 min left\./);
  });

  test('BE9 pot and line in the same minute are one message that says both, by the earlier times', () => {
    const play = mixed().at('08:00');
    // Twenty seconds younger: the same minute at every bell.
    play.at(t('08:00') + 20_000).mix();
    const keys = () => wantedBells(play.state).map(({ key }) => key);
    expect(keys()).toContain('use-by:rig-1:line:rig-1-1');
    expect(keys()).not.toContain('use-by:rig-1:pot:rig-1-2');
    const rang = rungAt(play, '09:30').filter(({ key }) => key.includes('use-by:'));
    expect(rang.map(({ summary }) => summary)).toEqual([
      'Rig One, line, batch rig-1-1 and pot, batch rig-1-2: USE BY 09:30. Stop spraying this paint now. Flush; last start 09:46, dead at 10:00.',
    ]);
  });

  test('BE9 pot and line that run into the same break are said at once', () => {
    const play = mixed({ breaks: [{ from: '09:15', to: '09:45' }] }).at('08:10');
    play.mix();
    const [first, ...more] = play.ringUntil('08:48').filter(({ kind }) => kind === 'before-break');
    expect(more).toEqual([]);
    expect(first && bellMessage(viewOf(play), rungBell(first, first.at)).summary).toBe(
      'Rig One, line, batch rig-1-1 and pot, batch rig-1-2: paint runs out about the break 09:15 to 09:45. Start the flush by 09:01.',
    );
  });

  test('BE9 when their times part, each rings for itself', () => {
    const play = mixed();
    play.at(t('08:00') + 20_000).mix();
    play.ringUntil('09:30');
    play.do({ type: 'hose-temperature', rig: 'rig-1', c: 30 }, 'max');
    const dead = wantedBells(play.state).filter(({ kind }) => kind === 'dead');
    expect(dead.map(({ key, also }) => [key, also])).toEqual([
      ['dead:rig-1:line:rig-1-1', []],
      ['dead:rig-1:pot:rig-1-2', []],
    ]);
  });
});

describe('a hose measured cooler than it was estimated', () => {
  const sunny = { weather: { airC: 25, rhPct: 60, steelC: 20, sun: true } };

  test.each(languages)(
    'PL14 when a time comes earlier all the same, one sentence says why (%s)',
    (language) => {
      const play = speaking(mixed(sunny), language).at('08:10');
      play.do({ type: 'pause', rig: 'rig-1' }, 'pia');
      play.at(t('08:10') + 500_000);
      const line = play.rig().line;
      expect(line && estimatedC(line, play.now)).toBeGreaterThan(39);
      const was = rigClocks(play.state, 'rig-1')[0]?.times.useBy ?? 0;
      const hose = { type: 'hose-temperature', rig: 'rig-1' } as const;
      const [told] = said(play, () => play.do({ ...hose, c: 39 }, 'pia'));
      expect(rigClocks(play.state, 'rig-1')[0]?.times.useBy).toBeLessThan(was);
      expect(told?.summary).toContain(textsFor(language).say('temp.warms-on', { c: 39 }));
    },
  );

  test('PL14 a cooler reading that gives more time needs no reason', () => {
    const play = mixed(sunny).at('08:10');
    play.do({ type: 'pause', rig: 'rig-1' }, 'pia');
    play.at('08:14');
    const [told] = said(play, () => play.do({ type: 'hose-temperature', rig: 'rig-1', c: 20 }, 'pia'));
    expect(told?.summary).not.toContain('that is why');
  });
});
