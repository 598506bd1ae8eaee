import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { wantedBells } from '../../src/flow/bells.ts';
import { rigClocks } from '../../src/flow/clocks.ts';
import { nextRingAt } from '../../src/flow/ringing.ts';
import { estimatedC } from '../../src/flow/standing.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { JournalEvent } from '../../src/model/event.ts';
import { announcements } from '../../src/views/announce.ts';
import { bellMessage, rungBell } from '../../src/views/bell.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { briefed, mixed, type Play, ready } from '../flow/harness.ts';
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

  test.each(languages)(
    'BE5 a bell for a break that rings on after its time says that it is past (%s)',
    (language) => {
      const past = textsFor(language).say('bell.flush-past');
      const play = speaking(mixed({ breaks: [{ from: '09:15', to: '09:45' }] }), language);
      const saysSo = (until: string) => {
        const last = play.ringUntil(until).findLast(({ kind }) => kind === 'before-break');
        if (!last) throw new Error(`no bell for the break by ${until}`);
        const view = { ...viewOf(play), texts: textsFor(language), now: last.at };
        return plainText(bellMessage(view, rungBell(last, last.at))).includes(past);
      };
      // The flush has to start by 09:01.
      expect(saysSo('09:00')).toBe(false);
      expect(saysSo('09:10')).toBe(true);
    },
  );

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

describe('who has not signed', () => {
  test.each(languages)(
    'BE10 one bell to the crew names them all, and is shorter once somebody signs (%s)',
    (language) => {
      const play = speaking(briefed(), language);
      const texts = textsFor(language);
      const toCrew = (time: string) => rungAt(play, time).filter(({ to }) => to === 'crew');
      const all = texts.say('bell.unsigned-all', { people: 'Finn, Pia, Max, Saga, Hal' });
      expect(toCrew('06:40').map(({ summary }) => summary)).toEqual([all]);
      play.at('06:41').sign('pia');
      play.sign('hal');
      const fewer = texts.say('bell.unsigned-all', { people: 'Finn, Max, Saga' });
      const again = texts.say('bell.again', { count: 2, time: '06:40' });
      expect(toCrew('06:44').map(({ summary }) => summary)).toEqual([`${again} ${fewer}`]);
      play.at('06:45');
      for (const id of ['finn', 'max', 'saga']) play.sign(id);
      expect(toCrew('06:48')).toEqual([]);
    },
  );

  test('BE10 the bell to one person reaches nobody else, in the chat and on a page', () => {
    const play = briefed();
    for (const time of ['06:40', '06:44', '06:48', '06:53']) {
      const alone = rungAt(play, time).filter(({ key }) => key.includes('unsigned:pia'));
      expect(alone.map(({ to }) => to)).toEqual(['pia']);
    }
    const shown = (viewer: string | null) =>
      pagePanels('notices', { ...viewOf(play), pack: play.pack, viewer }).map(({ id }) => id);
    expect(shown(null)).toEqual(['bell-unsigned-1']);
    expect(shown('pia')).toEqual(['bell-unsigned-1', 'bell-unsigned-pia-1']);
  });

  test("BE10 a foreman whom the crew's bell did not tell of somebody hears it once from theirs", () => {
    const play = briefed().at('06:33');
    play.do({ type: 'arrive', person: 'lou' }, 'lou');
    play.ringUntil('06:40');
    play.do({ type: 'answer-bell', bell: 'unsigned:1' }, 'max');
    const lous = ['06:43', '06:47', '06:51'].map((time) =>
      rungAt(play, time).flatMap(({ key, to }) => (key.includes('unsigned:lou') ? [to] : [])),
    );
    expect(lous).toEqual([['lou'], ['lou', 'finn'], ['lou']]);
  });
});

describe('a bell that rings again', () => {
  const START = 'bell:start-flush:rig-1:line:rig-1-1';
  /** The next ring of this bell as the crew hears it, with every bell before it rung. */
  const crewHears = (play: Play, key = START) => {
    for (let round = 0; round < 200; round += 1) {
      play.at(Math.max(play.now, nextRingAt(play.state, play.now) ?? Number.NaN));
      const found = said(play, () => play.ring()).find((one) => one.to === 'crew' && one.key.startsWith(key));
      if (found) return found;
    }
    throw new Error(`${key} does not ring`);
  };

  test.each(languages)(
    'BE11 says which call it is, since when, and whom nobody answered for (%s)',
    (language) => {
      const texts = textsFor(language);
      const play = speaking(mixed(), language);
      const first = crewHears(play);
      const { summary } = first;
      expect(summary).toMatch(/^Rig One, /);
      expect(first.text).not.toContain(texts.say('bell.before', { who: '' }).slice(0, 8));
      const second = crewHears(play);
      expect(second.summary).toBe(`${texts.say('bell.again', { count: 2, time: '09:46' })} ${summary}`);
      const third = crewHears(play);
      const who = `${texts.say('word.level.crew')} 09:46; ${texts.say('word.level.foreman')} 09:50`;
      expect(third.summary).toBe(`${texts.say('bell.again', { count: 3, time: '09:46' })} ${summary}`);
      expect(third.text).toContain(texts.say('bell.before', { who }));
      expect(third.text).toContain(texts.say('bell.start-flush-do'));
    },
  );

  test('BE11 one that somebody took and that came back says who took it, not that nobody answered', () => {
    const play = mixed();
    play.ringUntil('09:47');
    play.do({ type: 'answer-bell', bell: START.slice('bell:'.length) }, 'pia');
    const back = crewHears(play);
    expect(back.summary).toMatch(/^Call 2 since 09:46\. Rig One/);
    expect(back.text).toContain('Pia took it at 09:47; it is still not done.');
    expect(back.text).not.toContain('Nobody has answered');
  });

  test('BE11 the board shows a waiting bell as the call it is', () => {
    const play = mixed();
    play.ringUntil('09:55');
    const panels = pagePanels('notices', { ...viewOf(play), pack: play.pack, viewer: null });
    const summaries = panels.map(({ message }) => message.summary);
    expect(summaries).toContainEqual(expect.stringMatching(/^Call 3 since 09:46\. Rig One, pot and line/));
  });

  test('BE11 one that is due earlier than when it rang first is the same message still, and so is its answer', () => {
    const play = mixed();
    const bell = START.slice('bell:'.length);
    const dueAt = () => wantedBells(play.state).find(({ key }) => key === bell)?.dueAt ?? 0;
    const first = crewHears(play);
    const before = dueAt();
    play.do({ type: 'pot-temperature', rig: 'rig-1', c: 35 }, 'max');
    expect(dueAt()).toBeLessThan(before);
    const second = crewHears(play);
    expect(second.summary).toMatch(/^Call 2 since 09:46/);
    expect(second.key).toBe(first.key);
    const answers = said(play, () => play.do({ type: 'answer-bell', bell }, 'pia'));
    expect(answers.map(({ key }) => key)).toContain(first.key);
  });

  test('BE11 a bell that only moved later is a new one', () => {
    const play = mixed().at('08:30');
    play.do({ type: 'pot-temperature', rig: 'rig-1', c: 30 }, 'max');
    play.ringUntil('09:02');
    play.do({ type: 'pot-temperature', rig: 'rig-1', c: 20 }, 'max');
    expect(crewHears(play).summary).toMatch(/^Rig One, /);
  });
});

test('CN2 the bell of a concern leads a foreman to its answer', () => {
  const play = ready();
  play.do({ type: 'raise-concern', text: 'The hose rubs' }, 'pia');
  const id = play.state.concerns[0]?.id ?? '';
  const bell = wantedBells(play.state).find(({ kind }) => kind === 'concern');
  const { state } = play;
  play.at(bell?.dueAt ?? 0);
  const events = play.ring();
  expect(events.length).toBeGreaterThan(0);
  const rang = announcements(state, play.state, play.journal.slice(-events.length), textsFor).filter(
    ({ key }) => key.startsWith('bell:concern'),
  );
  const resolve = { kind: 'open', form: { id: 'resolve-concern', about: { concern: id } } };
  const answer = { kind: 'do', command: { type: 'answer-bell' } };
  const pressed = rang.map(({ audience, message }) => {
    const last = message.blocks.at(-1);
    return [
      audience.kind === 'crew' ? 'crew' : audience.person,
      last?.kind === 'buttons' ? last.buttons.map(({ action }) => action) : [],
    ];
  });
  expect(Object.fromEntries(pressed)).toMatchObject({ crew: [answer], finn: [resolve, answer] });
});
