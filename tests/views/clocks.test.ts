import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import type { Block, Message } from '../../src/message/message.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { announcements } from '../../src/views/announce.ts';
import { bellWords } from '../../src/views/bell-words.ts';
import { rigMessage } from '../../src/views/rig.ts';
import { whyClock } from '../../src/views/why/clock.ts';
import { mixed, type Play, ready } from '../flow/harness.ts';
import { t } from '../flow/pack.ts';

const RIG = 'rig-1';
const { textsFor } = loadTexts();
const texts = textsFor('en');
const sunny = { weather: { airC: 25, rhPct: 60, steelC: 20, sun: true } };
const viewOf = (play: Play) => ({ shift: play.state, texts, now: play.now });
const panel = (play: Play) => rigMessage(viewOf(play), RIG);
const panelText = (play: Play) => plainText(panel(play));
const buttonsAfter = (blocks: readonly Block[], words: string) => {
  const at = blocks.findIndex((block) => block.kind === 'note' && block.line.join('').includes(words));
  const next = blocks[at + 1];
  return at >= 0 && next?.kind === 'buttons' ? next.buttons : [];
};
const openings = (message: Message) =>
  message.blocks
    .flatMap((block) => (block.kind === 'buttons' ? block.buttons : []))
    .flatMap(({ action }) => (action.kind === 'open' ? [action.form.id] : []));
const said = (play: Play, act: () => void) => {
  const before = play.shift;
  const from = play.journal.length;
  act();
  return announcements(before, play.state, play.journal.slice(from), textsFor).map(({ message }) => message);
};

describe('the rig panel', () => {
  test('PL16 one line says what 5 °C more would cost', () => {
    expect(panelText(mixed())).toContain('5 °C warmer from now: flush from 09:10 instead of 09:46.');
    // At 09:44 the flush would be due at once; past its start nothing is asked any more.
    const late = mixed().at('09:44');
    expect(panelText(late)).toContain('5 °C warmer from now: flush at once, not at 09:46.');
    expect(panelText(mixed().at('09:50'))).not.toContain('warmer from now');
  });

  test('PL12 a hose that stands in the sun: estimated, with the press for a measurement beside it, once', () => {
    const play = mixed(sunny).at('08:05');
    play.do({ type: 'pause', rig: RIG }, 'pia');
    play.at('08:12');
    const text = 'Estimated, sun on a standing hose; measure it.';
    expect(panelText(play)).toMatch(/Hose counted as 3\d °C and warming\. Estimated/);
    expect(buttonsAfter(panel(play).blocks, text).map(({ action }) => action)).toEqual([
      { kind: 'open', form: { id: 'hose-temperature', about: { rig: RIG } } },
    ]);
    expect(openings(panel(play)).filter((id) => id === 'hose-temperature')).toHaveLength(1);
    play.do({ type: 'resume', rig: RIG }, 'pia');
    expect(panelText(play)).toMatch(/Hose counted as 3\d °C because it stood in the sun\. Estimated/);
    play.do({ type: 'hose-temperature', rig: RIG, c: 22 }, 'pia');
    expect(panelText(play)).not.toContain('Estimated');
    expect(openings(panel(play)).filter((id) => id === 'hose-temperature')).toHaveLength(1);
  });

  test('PL15 one pot-life line only: both bounds, and that a second one is worth asking for', () => {
    const play = ready().at('08:00');
    play.mix({ coating: 'finish', litres: 7, aL: 6, bL: 1, paintC: 30 });
    const words =
      'The sheet has one pot-life line only. At 30 °C that can mean 69 to 105 min; these times take 69. Ask the maker for a second line.';
    expect(panelText(play)).toContain(words);
    // At the temperature of that line there is nothing to bound.
    const cool = ready().at('08:00');
    cool.mix({ coating: 'finish', litres: 7, aL: 6, bL: 1, paintC: 20 });
    expect(panelText(cool)).not.toContain('one pot-life line');
  });

  test('PL15 warmer or colder than the sheet is said where the times are', () => {
    const warm = ready().at('08:00');
    warm.mix({ paintC: 36 });
    expect(panelText(warm)).toContain('Warmer than the warmest line on the sheet (30 °C): estimated');
    const cold = ready().at('08:00');
    cold.mix({ paintC: 10 });
    expect(panelText(cold)).toContain('Colder than the coldest line on the sheet');
    expect(panelText(mixed())).not.toMatch(/Warmer than the warmest|Colder than the coldest/);
  });
});

describe('what is told', () => {
  test('PL12 a pause in the sun says how warm it will count and how to put that right', () => {
    const play = mixed(sunny).at('08:05');
    const [paused] = said(play, () => play.do({ type: 'pause', rig: RIG }, 'pia'));
    expect(paused && plainText(paused)).toContain(
      'Sun on a standing hose: about 46 °C in 15 min, estimated.',
    );
    expect(paused && openings(paused)).toEqual(['hose-temperature']);
    const shade = mixed().at('08:05');
    const [plain] = said(shade, () => shade.do({ type: 'pause', rig: RIG }, 'pia'));
    expect(plain && plainText(plain)).not.toContain('Sun');
  });

  test('PL12 a pause whose stand would outrun the flush says so, and does not call the use-by past', () => {
    const play = mixed(sunny).at('09:25');
    const [paused] = said(play, () => play.do({ type: 'pause', rig: RIG }, 'pia'));
    expect(paused?.summary).toMatch(
      /^Rig One paused in the sun\. If the hose warms as estimated.* dead at 09:3\d, sooner than a flush takes\. Start the flush now, or measure the hose now\.$/,
    );
    const late = mixed(sunny).at('09:40');
    const [past] = said(late, () => late.do({ type: 'pause', rig: RIG }, 'pia'));
    expect(past?.summary).toContain('is past. Do not spray this batch.');
  });

  test('PL13 going on says that the hose is still counted warm', () => {
    const play = mixed(sunny).at('08:05');
    play.do({ type: 'pause', rig: RIG }, 'pia');
    play.at('08:10');
    const [on] = said(play, () => play.do({ type: 'resume', rig: RIG }, 'pia'));
    expect(on?.summary).toMatch(/goes on\. Use by .* Hose counted as 3\d °C because it stood in the sun/);
  });

  test('PL12 a use-by bell that an estimate brings forward says so, and the flush bell only says flush', () => {
    const play = mixed(sunny).at('08:05');
    play.do({ type: 'pause', rig: RIG }, 'pia');
    const rung = (kind: 'use-by' | 'start-flush') =>
      bellWords(viewOf(play), {
        bell: `${kind}:${RIG}:line:rig-1-1`,
        kind,
        rig: RIG,
        person: null,
        level: 'crew',
        scheduledFor: t('08:10'),
        rangAt: t('08:10'),
        calledAt: t('08:10'),
        late: false,
        missedRings: 0,
      }).todo;
    play.at('08:10');
    expect(rung('use-by')).toContain('estimated (sun on a standing hose). Measure it.');
    expect(rung('start-flush')).not.toContain('estimated');
    play.do({ type: 'resume', rig: RIG }, 'pia');
    play.do({ type: 'hose-temperature', rig: RIG, c: 22 }, 'pia');
    expect(rung('use-by')).not.toContain('estimated');
  });
});

describe('why', () => {
  const topics = (play: Play) => whyClock(viewOf(play));
  const item = (play: Play, topic: string) => {
    const found = topics(play).find((one) => one.topic === topic);
    if (!found) throw new Error(`no ${topic}`);
    return found;
  };

  test('PL16 used share as a sum that comes out', () => {
    const play = mixed().at('08:40');
    play.do({ type: 'pot-temperature', rig: RIG, c: 30 }, 'max');
    play.at('09:00');
    const { formula, result, inputs } = item(play, 'pot-life');
    expect(formula).toContain('40 min ÷ 120 min at 20 °C (0.333) + 20 min ÷ 60 min at 30 °C (0.333) = 0.667');
    expect(result).toContain('67 % of the pot life is used.');
    expect(inputs).toContainEqual(['Pot life, sheet', '120 min at 20 °C, 60 min at 30 °C']);
    expect(inputs).toContainEqual(['Mixed', '08:00 at 20 °C']);
  });

  test('PL12 a warming hose: older stretches are one figure, and the shown shares add up to the whole', () => {
    const play = mixed(sunny).at('08:05');
    play.do({ type: 'pause', rig: RIG }, 'pia');
    play.at('08:21');
    const { formula } = item(play, 'pot-life');
    const sum = formula.split(' = ')[0] ?? '';
    const shares = [...sum.matchAll(/\((0\.\d+)\)/g)].map(([, share]) => Number(share));
    const before = Number(/^(0\.\d+) before that/.exec(sum)?.[1]);
    const whole = Number(/ = (0\.\d+) of/.exec(formula)?.[1]);
    expect(shares).toHaveLength(4);
    expect(before + shares.reduce((x, y) => x + y, 0)).toBeCloseTo(whole, 2);
    const sun = item(play, 'hose-in-sun');
    expect(sun.formula).toContain('25 + 0.9 × 1000 W/m² × 2/π ÷ 17 = 58.7 °C');
    // 20 + 38.7 × (1 − e^(−16 ÷ 14.7)) = 45.7
    expect(sun.formula).toContain('(1 − e^(−16 ÷ 14.7)) = 45.7 °C');
    expect(sun.source).toContain('ASHRAE');
  });

  test.each([
    [20, 'The sheet says it: 120 min at 20 °C.'],
    [25, '= 0.508. 120 × (60 ÷ 120)^s = 84.4 min.'],
    [
      40,
      '60 ÷ 2^((40 − 30) ÷ 10) = 30 min. The line through the two warmest figures of the sheet: 31.4 min.',
    ],
    [8, 'Colder than the coldest line of the sheet: its 120 min at 20 °C, and no more.'],
  ])('PL15 the pot life at %d °C with its formula', (paintC, words) => {
    const play = ready().at('08:00');
    play.mix({ paintC });
    expect(item(play, 'pot-life-at').formula).toContain(words);
  });

  test('PL15 one line only: both bounds in the formula', () => {
    const play = ready().at('08:00');
    play.mix({ coating: 'finish', litres: 7, aL: 6, bL: 1, paintC: 30 });
    expect(item(play, 'pot-life-at').formula).toContain('69.2 min for a fast paint');
    expect(item(play, 'pot-life-at').formula).toContain('105.9 min for a slow one');
  });

  test('PL1 nothing to explain without mixed paint', () => {
    expect(topics(ready())).toEqual([]);
  });
});
