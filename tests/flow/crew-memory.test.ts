import { describe, expect, test } from 'vitest';
import { carryOverOf } from '../../src/flow/shift-record.ts';
import { openQuestion, questionId } from '../../src/flow/sign-off.ts';
import type { CarryOver } from '../../src/model/day.ts';
import { briefed, mixed, Play } from './harness.ts';
import { aDay } from './pack.ts';

const memory = (play: Play): CarryOver => carryOverOf(play.state, play.now);

/** The day after, posted with what the day before left. */
function dayAfter(before: CarryOver, date = '2026-05-13'): Play {
  const play = new Play(undefined, date);
  play.before = { carryOver: before, head: 'abc' };
  play.at('06:45').do(aDay({ date }));
  return play;
}

/** Answers the open question wrong; its id. */
function answerWrong(play: Play, person: string): string {
  const open = openQuestion(play.state, person);
  if (!open) throw new Error(`${person} has no open question`);
  const question = questionId(open);
  const choice = open.order.findIndex((one) => one !== 0);
  play.do({ type: 'answer', revision: play.state.briefing.revision, question, choice }, person);
  return question;
}

describe('SR6 what a crew takes along', () => {
  test('SR6 cautions of the last briefing are known, those that were not in it are new', () => {
    const first = briefed();
    expect(first.state.briefing.fresh).toEqual([]);
    const second = dayAfter(memory(first));
    // Nobody has signed or mixed yet, so everybody is new; nothing else is.
    expect(second.state.briefing.fresh).toEqual(['new-today']);
    const cold = new Play(undefined, '2026-05-13');
    cold.before = { carryOver: memory(first), head: 'abc' };
    cold.at('06:45').do(aDay({ date: '2026-05-13', weather: { airC: 4, rhPct: 60, steelC: 9 } }));
    expect(cold.state.briefing.fresh).toContain('cold');
    expect(cold.state.briefing.fresh).not.toContain('injection');
  });

  test('SR6 of a briefing that never went out nobody was told: what came before it counts', () => {
    const waiting = new Play();
    waiting.at('05:00').do(aDay());
    expect(waiting.state.issuedAt).toBeNull();
    expect(memory(waiting).told).toEqual({});
  });

  test('SR6 who signed has been on a shift; who was on a job whose paint was mixed has worked with it', () => {
    const { experience } = memory(mixed());
    expect(experience).toMatchObject({
      pia: { coatings: ['epoxy'], rigs: ['rig-1'] },
      max: { coatings: ['epoxy'], rigs: ['rig-1'] },
      hal: { coatings: [], rigs: [] },
    });
    expect(experience).not.toHaveProperty('lou');
    const unmixed = memory(briefed().signAll()).experience;
    expect(unmixed?.pia).toEqual({ coatings: [], rigs: [] });
  });

  test('SR6 nobody is forgotten on a day off; what ran in a rig is, when it had a job and no batch was logged', () => {
    const quiet = dayAfter(memory(mixed()));
    const later = memory(quiet);
    expect(later.experience?.pia).toEqual({ coatings: ['epoxy'], rigs: ['rig-1'] });
    expect(later.rigs).toEqual({});
  });
});

describe('SO8 what a crew gets wrong comes back', () => {
  test('SO8 to every second person, without the name of whoever was wrong', () => {
    const first = new Play();
    first.at('06:45').do(aDay());
    const question = answerWrong(first, 'pia');
    const left = memory(first);
    expect(left.misread).toEqual([question]);
    expect(JSON.stringify(left.misread)).not.toContain('pia');
    const second = dayAfter(left);
    const asked = second.state.day.crew.map((person) => {
      const open = openQuestion(second.state, person);
      return open && questionId(open);
    });
    const again = asked.filter((one) => one === question).length;
    expect(again).toBeGreaterThanOrEqual(Math.floor(asked.length / 2));
    expect(again).toBeLessThan(asked.length);
  });

  test('SO8 until a whole shift got it right; one that was not asked stays', () => {
    const first = new Play();
    first.at('06:45').do(aDay());
    const question = answerWrong(first, 'pia');
    const second = dayAfter({ ...memory(first), misread: [question, 'cold/warm-a-tin'] });
    second.signAll();
    expect(memory(second).misread).toEqual(['cold/warm-a-tin']);
  });

  test('SO8 a second try is about something else', () => {
    const first = new Play();
    first.at('06:45').do(aDay());
    const question = answerWrong(first, 'pia');
    const second = dayAfter(memory(first));
    const person = second.state.day.crew.find((id) => {
      const open = openQuestion(second.state, id);
      return open && questionId(open) === question;
    });
    if (person === undefined) throw new Error('the question came back to nobody');
    answerWrong(second, person);
    const open = openQuestion(second.state, person);
    expect(open && questionId(open)).not.toBe(question);
  });
});
