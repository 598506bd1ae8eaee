import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { openQuestion, questionId } from '../../src/flow/sign-off.ts';
import type { Command } from '../../src/model/command.ts';
import { shownFor } from '../../src/views/shown.ts';
import { Play, person } from '../flow/harness.ts';
import { aDay } from '../flow/pack.ts';

const texts = loadTexts().textsFor('en');

function briefedPlay(): Play {
  const play = new Play();
  play.at('06:45').do(aDay());
  return play;
}
const viewOf = (play: Play) => ({ shift: play.state, texts, now: play.now });

describe('SO9 the words that were read', () => {
  test('SO9 of an answer: the question and every choice, the pressed one marked', () => {
    const play = briefedPlay();
    const open = openQuestion(play.state, 'pia');
    if (!open) throw new Error('no question');
    const command: Command = { type: 'answer', revision: 1, question: questionId(open), choice: 1 };
    const words = texts.caution(open.caution).question(open.question);
    const [first = 0, second = 0, third = 0] = open.order;
    expect(shownFor(viewOf(play), command, person('pia'))).toEqual({
      language: 'en',
      text: [
        words.ask,
        `[ ] ${words.choices[first]}`,
        `[x] ${words.choices[second]}`,
        `[ ] ${words.choices[third]}`,
      ].join('\n'),
    });
  });

  test('SO9 of a sign-off: the page with its cautions; nothing as long as it cannot be signed', () => {
    const play = briefedPlay();
    const sign: Command = { type: 'sign', revision: 1 };
    expect(shownFor(viewOf(play), sign, person('pia'))).toBeNull();
    play.answerRight('pia');
    const shown = shownFor(viewOf(play), sign, person('pia'));
    for (const { id } of play.state.briefing.cautions)
      expect(shown?.text.toLowerCase()).toContain(texts.caution(id).title.toLowerCase());
  });

  test('SO9 with a witness: the names of what was read aloud', () => {
    const play = briefedPlay();
    play.answerRight('hal', 'finn');
    const sign: Command = { type: 'sign', revision: 1, witnessFor: 'hal' };
    const shown = shownFor(viewOf(play), sign, person('finn'));
    expect(shown?.text).toContain(texts.caution('injection').title);
    expect(shown?.text).not.toContain(texts.caution('injection').steps({ call: '1' })[0]);
  });

  test('SO9 what signs for nothing shows nothing, and nobody unknown signs', () => {
    const play = briefedPlay();
    expect(shownFor(viewOf(play), { type: 'pause', rig: 'rig-1', why: '' }, person('pia'))).toBeNull();
    expect(
      shownFor(viewOf(play), { type: 'sign', revision: 1 }, { kind: 'unknown', surface: 'x' }),
    ).toBeNull();
  });
});
