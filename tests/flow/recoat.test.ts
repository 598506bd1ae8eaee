import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { coatWindow } from '../../src/facts/recoat.ts';
import { waitingCoats } from '../../src/flow/coats.ts';
import { carryOverOf } from '../../src/flow/shift-record.ts';
import { buildForm } from '../../src/forms/forms.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { type SitePack, sitePackSchema } from '../../src/model/site.ts';
import { bellMessage, rungBell } from '../../src/views/bell.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { whyRecoat } from '../../src/views/why/recoat.ts';
import { mixed, Play, ready } from './harness.ts';
import { aDay, aPack, DATE, t } from './pack.ts';

const texts = loadTexts().textsFor('en');
/** Invented: up to 15 °C 6 to 48 h, up to 25 °C 3 to 24 h, up to 40 °C 1 to 6 h. */
const recoat = [
  { toC: 15, minHours: 6, maxHours: 48 },
  { toC: 25, minHours: 3, maxHours: 24 },
  { toC: 40, minHours: 1, maxHours: 6 },
];

function packWithTable(): SitePack {
  const pack = aPack();
  return sitePackSchema.parse({
    ...pack,
    coatings: pack.coatings.map((sheet) => (sheet.id === 'epoxy' ? { ...sheet, recoat } : sheet)),
  });
}

const jobs = aDay().entry.jobs;
const [first] = jobs;
if (!first) throw new Error('the day of the harness has a job');
const primer = { ...first, coating: 'epoxy', coat: 'primer' as const };
const finish = {
  ...first,
  coating: 'finish',
  coat: 'finish' as const,
  area: ` ${first.area.toUpperCase()}  `,
};

/** 08:00: the primer's only batch, two hours of pot life; steel 20 °C at 07:00. */
const primed = (entry: Parameters<typeof mixed>[0] = { jobs: [primer] }) => mixed(entry, packWithTable());
const flushed = (play: Play, at = '09:00') => {
  play.at(at).do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
  play.flushTo();
  return play;
};

function nextDay(before: Play, date: string, entry: Parameters<typeof aDay>[0] = {}): Play {
  const play = new Play(before.pack, date);
  play.before = { carryOver: carryOverOf(before.state, before.now), head: 'h' };
  play.at(t('06:00', date)).do(aDay({ ...entry, date }));
  return play;
}

const onlyCoat = (play: Play) => {
  const coats = waitingCoats(play.state);
  expect(coats).toHaveLength(1);
  const [coat] = coats;
  if (!coat) throw new Error('no coat waits');
  return { coat, window: coatWindow(play.state.day, coat) };
};
const recoatRings = (play: Play, until: string | number) =>
  play
    .ringUntil(until)
    .filter(({ kind }) => kind.startsWith('recoat'))
    .map(({ kind, bell, at, level }) => [kind, bell.split(':').at(-1), at, level]);
const page = (play: Play) =>
  pagePanels('today', { pack: play.pack, shift: play.state, now: play.now, texts, viewer: 'finn' });
const panelText = (play: Play) => {
  const found = page(play).find(({ id }) => id === 'coats');
  return found ? plainText(found.message) : null;
};

describe('a coat of today', () => {
  test('RW1 closes by its first batch and opens by the end of the paint, from the flush on by the flush', () => {
    const play = primed();
    // Two hours at 20 °C: the paint is dead at 10:00.
    expect(onlyCoat(play)).toMatchObject({
      coat: { firstAt: t('08:00'), at: t('10:00') },
      window: { opensAt: t('13:00'), closes: { at: t('08:00') + 24 * 3_600_000 } },
    });
    expect(onlyCoat(flushed(play)).window?.opensAt).toBe(t('12:00'));
  });

  test('RW1 outlives a change of the day that takes its job out', () => {
    const play = flushed(primed());
    play.do({ ...aDay({ jobs: [finish] }), base: play.state.briefing.revision });
    expect(onlyCoat(play).coat).toMatchObject({ coat: 'primer', area: first.area });
    play.do({ ...aDay({ jobs: [primer, finish] }), base: play.state.briefing.revision });
    expect(onlyCoat(play).coat.coat).toBe('primer');
  });

  test('RW2 waits until a later coat is mixed for its area, however its name is written', () => {
    const play = flushed(primed({ jobs: [primer, finish] }));
    expect(onlyCoat(play).coat.coat).toBe('primer');
    play.at('13:00').do(
      {
        type: 'mix-batch',
        rig: 'rig-1',
        coating: 'finish',
        litres: 7,
        aL: 6,
        bL: 1,
        paintC: 20,
        pot: 'fresh',
      },
      'max',
    );
    expect(waitingCoats(play.state).map(({ coat }) => coat)).toEqual(['finish']);
    // On a finish nothing waits.
    expect(panelText(play)).toBeNull();
  });

  test('RW4 a warm hour brings the end forward, and the panel says by what', () => {
    const play = flushed(primed());
    play.at('11:00').reading(30, 40, 30);
    const text = panelText(play) ?? '';
    expect(text).toContain(`${first.area}, primer (Test epoxy): closes 14:00, in this shift.`);
    expect(text).toContain('14:00 (6 h by 30 °C, the warmest held an hour)');
    expect(text).toContain('12:00 (3 h by 20 °C, the coldest until then)');
  });

  test('RW4 the way back to the rows can be followed', () => {
    const play = flushed(primed());
    const [why] = whyRecoat({ shift: play.state, texts, now: play.now });
    expect(why?.formula).toBe('Not before: 09:00 + 3 h = 12:00. Not after: 08:00 + 24 h = Wed 13 May 08:00.');
    expect(why?.inputs.at(-1)?.[1]).toBe(
      'up to 15 °C: 6 to 48 h; up to 25 °C: 3 to 24 h; up to 40 °C: 1 to 6 h',
    );
  });
});

describe('what the sheet cannot answer', () => {
  test('RW4 hotter than the table: the bell and the panel say that it is not known', () => {
    const play = flushed(primed());
    play.at('11:00').reading(30, 40, 55);
    const [ring] = play.ring().filter(({ kind }) => kind === 'recoat-closing');
    if (!ring) throw new Error('it does not ring');
    const words = plainText(
      bellMessage({ shift: play.state, texts, now: play.now }, rungBell(ring, play.now)),
    );
    expect(words).toContain('steel of 55 °C is hotter than the sheet');
    expect(words).not.toContain('closed');
    expect(panelText(play)).toContain('window not known');
  });

  test('RW4 a cold morning after a hot noon: it would open after it has closed, so it is not known', () => {
    const play = flushed(primed());
    play.at('09:30').reading(10, 60, 10);
    play.at('11:00').reading(30, 40, 30);
    const { opensAt, closes } = onlyCoat(play).window ?? {};
    expect([opensAt, closes?.at]).toEqual([t('15:00'), t('14:00')]);
    expect(panelText(play)).toContain('It closes before it opens');
    expect(recoatRings(play, '16:00').map(([kind]) => kind)).not.toContain('recoat-open');
  });
});

describe('bells', () => {
  test('RW5 the wait over once; a window that ends in the night two hours before the shift does', () => {
    const play = flushed(primed());
    expect(recoatRings(play, '16:00')).toEqual([
      ['recoat-open', '30', t('12:00'), 'crew'],
      ['recoat-closing', 'soon', t('14:00'), 'foreman'],
    ]);
  });

  test('RW5 a window that closes today: two hours before and when it does, again for another row', () => {
    const play = flushed(primed());
    play.at('11:00').reading(30, 40, 30);
    // 6 h by 30 °C: closes 14:00, so the bell of 12:00 is as early as it can be.
    expect(recoatRings(play, '16:00')).toEqual([
      ['recoat-open', '30', t('12:00'), 'crew'],
      ['recoat-closing', 'soon', t('12:00'), 'foreman'],
      ['recoat-closing', 'end', t('14:00'), 'foreman'],
    ]);
  });

  test('RW5 what a reading moves into the past rings at once and is not late', () => {
    const play = flushed(primed());
    play.at('13:00').ringUntil('13:00');
    play.reading(30, 40, 30);
    const [soon] = play.ring().filter(({ kind }) => kind === 'recoat-closing');
    expect(soon).toMatchObject({ late: false, level: 'foreman' });
  });

  test('RW5 a coat that has been covered rings no more', () => {
    const play = flushed(primed({ jobs: [primer, finish] }));
    play.at('11:00').ringUntil('11:00');
    play.do(
      {
        type: 'mix-batch',
        rig: 'rig-1',
        coating: 'finish',
        litres: 7,
        aL: 6,
        bL: 1,
        paintC: 20,
        pot: 'fresh',
      },
      'max',
    );
    expect(recoatRings(play, '15:30')).toEqual([]);
  });

  test('RW5 without a table on the sheet there is no bell, and the panel says that it is not known', () => {
    const play = mixed({ jobs: [primer] });
    expect(panelText(play)).toContain('window not known');
    expect(recoatRings(play.at('08:00'), '16:00')).toEqual([]);
  });
});

describe('across days', () => {
  test('RW3 still known on the third day, with every reading since', () => {
    const one = flushed(primed());
    const two = nextDay(one, '2026-05-13', { jobs: [{ ...primer, area: 'Elsewhere' }] });
    two.at(t('08:00', '2026-05-13')).reading(10, 60, 10);
    const three = nextDay(two, '2026-05-14', { jobs: [finish] });
    const { coat, window } = onlyCoat(three);
    expect(coat).toMatchObject({ area: first.area, firstAt: t('08:00'), at: t('09:00') });
    expect(coat.steel).toEqual([
      { at: t('07:00'), c: 20 },
      { at: t('08:00', '2026-05-13'), c: 10 },
    ]);
    // The night counts as the colder of its neighbours: 6 h, to 15:00. The end stays at 24 h by 20 °C.
    expect(window).toMatchObject({ opensAt: t('15:00'), closes: { at: t('08:00', '2026-05-13') } });
    expect(panelText(three)).toContain('closed since Wed 13 May 08:00');
    // From the coat at 08:00 to the reading of the next day.
    expect(panelText(three)).toContain('For 24 h nobody read the steel.');
  });

  test('RW3 more of the same coat is one coat: it closes by its first batch and opens by its last', () => {
    const one = flushed(primed());
    const two = nextDay(one, '2026-05-13', { jobs: [primer] });
    two.at(t('08:30', '2026-05-13')).mix();
    const { coat } = onlyCoat(two);
    expect(coat.firstAt).toBe(t('08:00'));
    expect(coat.at).toBeGreaterThan(t('08:30', '2026-05-13'));
  });

  test('RW3 two weeks after it closed it is no longer carried', () => {
    const one = flushed(primed());
    const closed = t('08:00') + 24 * 3_600_000;
    const twoWeeks = 14 * 24 * 3_600_000;
    expect(carryOverOf(one.state, closed + twoWeeks - 1).coats).toHaveLength(1);
    expect(carryOverOf(one.state, closed + twoWeeks).coats).toEqual([]);
  });

  test('RW6 who closes the shift is told what goes on, with the day', () => {
    const play = flushed(primed()).at('15:00');
    const built = buildForm(
      { id: 'close-shift', about: {} },
      { pack: play.pack, shift: play.state, previous: null, now: play.now, texts, viewer: 'finn' },
    );
    if (!built.ok) throw new Error('the form is there');
    const intro = plainText({ summary: '', tone: 'plain', blocks: built.form.intro });
    expect(intro).toContain('These times go on while nobody is here');
    expect(intro).toContain('Wed 13 May 08:00 (24 h by 20 °C, the warmest held an hour)');
  });

  test('DE7 a day without coats has no panel of them', () => {
    expect(DATE).toBe(ready().state.date);
    expect(panelText(ready())).toBeNull();
  });
});
