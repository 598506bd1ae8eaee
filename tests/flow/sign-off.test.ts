import { describe, expect, test } from 'vitest';
import { holdsOf, unsigned } from '../../src/flow/holds.ts';
import { openQuestion, questionId } from '../../src/flow/sign-off.ts';
import { briefed, mixed, nobody, type Play, posted, ready } from './harness.ts';
import { aDay, t } from './pack.ts';

function answer(
  play: Play,
  id: string,
  choice: 'right' | 'wrong',
  more: { question?: string; revision?: number } = {},
) {
  const open = openQuestion(play.state, id);
  if (!open) throw new Error(`${id} has no open question`);
  const right = open.order.indexOf(0);
  return {
    type: 'answer',
    revision: play.state.briefing.revision,
    question: questionId(open),
    choice: choice === 'right' ? right : (right + 1) % open.order.length,
    ...more,
  } as const;
}

describe('briefing and sign-off', () => {
  test('SO1 it goes out at the prestart time and asks everybody', () => {
    const play = posted();
    expect(play.ring()).toEqual([]);
    expect(play.state.issuedAt).toBeNull();
    play.at('06:30').ring();
    expect(play.state.issuedAt).toBe(t('06:30'));
    expect(Object.values(play.state.people).map(({ askedAt }) => askedAt)).toEqual(Array(5).fill(t('06:30')));
  });

  test('SO1 a day posted after the prestart time is given out at once', () => {
    const play = briefed();
    play.shift = null;
    expect(
      play
        .at('07:10')
        .do(aDay())
        .map(({ type }) => type),
    ).toEqual(['day-posted', 'briefing-issued']);
  });

  test('SO1 the foreman may give it out earlier, once; nobody else may', () => {
    const play = posted();
    expect(play.refused({ type: 'issue-briefing' }, 'pia').text).toBe('refusal.foreman-only');
    play.do({ type: 'issue-briefing' });
    expect(play.refused({ type: 'issue-briefing' }).text).toBe('refusal.already-issued');
  });

  test('SO2 a wrong answer brings another question', () => {
    const play = briefed();
    const first = openQuestion(play.state, 'pia');
    play.do(answer(play, 'pia', 'wrong'), 'pia');
    const second = openQuestion(play.state, 'pia');
    expect(second).not.toBeNull();
    expect(second).not.toEqual(first);
    expect(play.state.people.pia?.answers.map(({ right }) => right)).toEqual([false]);
  });

  test('SO2 an answer to a question that is not open is refused', () => {
    const play = briefed();
    expect(play.refused(answer(play, 'pia', 'right', { question: 'injection/nothing' }), 'pia').text).toBe(
      'refusal.old-question',
    );
    const asked = answer(play, 'pia', 'right');
    expect(play.refused({ ...asked, choice: 9 }, 'pia').text).toBe('refusal.old-question');
    play.do(asked, 'pia');
    expect(play.refused(asked, 'pia').text).toBe('refusal.already-answered');
  });

  test('SO2 nobody is asked before the briefing is out', () => {
    expect(posted().refused({ type: 'answer', revision: 1, question: 'x', choice: 0 }, 'pia').text).toBe(
      'refusal.not-issued',
    );
  });

  test('SO3 no signature without a right answer', () => {
    const play = briefed();
    expect(play.refused({ type: 'sign', revision: 1 }, 'pia').text).toBe('refusal.answer-first');
    play.do(answer(play, 'pia', 'wrong'), 'pia');
    expect(play.refused({ type: 'sign', revision: 1 }, 'pia').text).toBe('refusal.answer-first');
    play.do(answer(play, 'pia', 'right'), 'pia');
    play.do({ type: 'sign', revision: 1 }, 'pia');
    expect(unsigned(play.state)).not.toContain('pia');
    expect(play.refused({ type: 'sign', revision: 1 }, 'pia').text).toBe('refusal.already-signed');
  });

  test('SO3 a button of an old revision is refused', () => {
    const play = briefed();
    play.do(aDay({ notes: 'Crane' }));
    expect(play.refused({ type: 'sign', revision: 1 }, 'pia')).toMatchObject({
      text: 'refusal.old-revision',
      params: { pressed: 1, revision: 2 },
    });
    expect(play.refused(answer(play, 'pia', 'right', { revision: 1 }), 'pia').text).toBe(
      'refusal.old-revision',
    );
  });

  test('SO3 somebody unknown cannot sign', () => {
    expect(briefed().refused({ type: 'sign', revision: 1 }, nobody).text).toBe('refusal.who-are-you');
  });

  test('SO4 the foreman witnesses and it is recorded as witnessed', () => {
    const play = briefed();
    play.sign('hal', 'finn');
    expect(play.state.people.hal?.signOffs).toMatchObject([{ witnessedBy: 'finn', revision: 1 }]);
  });

  test('SO4 nobody but a foreman witnesses', () => {
    const play = briefed();
    expect(play.refused({ type: 'sign', revision: 1, witnessFor: 'hal' }, 'pia').text).toBe(
      'refusal.foreman-only',
    );
    expect(play.refused({ type: 'sign', revision: 1, witnessFor: 'zoe' }).text).toBe(
      'refusal.unknown-person',
    );
    expect(play.refused({ type: 'sign', revision: 1, witnessFor: 'lou' }).text).toBe('refusal.not-on-shift');
  });

  test('SO4 a foreman who witnesses themselves has signed, not witnessed', () => {
    const play = briefed();
    play.answerRight('finn');
    play.do({ type: 'sign', revision: 1, witnessFor: 'finn' });
    expect(play.state.people.finn?.signOffs[0]?.witnessedBy).toBeNull();
  });

  test('SO5 a late arrival is asked on arrival and holds the start until signed', () => {
    const play = ready().at('09:00');
    expect(holdsOf(play.state, play.now)).toEqual([]);
    play.do({ type: 'arrive', person: 'lou' }, 'lou');
    expect(play.state.people.lou).toMatchObject({ arrivedLate: true, askedAt: t('09:00') });
    expect(holdsOf(play.state, play.now)).toEqual([{ kind: 'unsigned', people: ['lou'] }]);
    play.sign('lou');
    expect(holdsOf(play.state, play.now)).toEqual([]);
  });

  test('SO5 who is on the list, and who is not in the pack, cannot arrive', () => {
    const play = ready();
    expect(play.refused({ type: 'arrive', person: 'pia' }).text).toBe('refusal.already-here');
    expect(play.refused({ type: 'arrive', person: 'zoe' }).text).toBe('refusal.unknown-person');
  });

  test('SO6 a change that touches no caution asks nobody again', () => {
    const play = ready();
    play.do(aDay({ notes: 'Crane' }));
    expect(unsigned(play.state)).toEqual([]);
    expect(play.state.briefing.changed).toEqual([]);
  });

  test('SO6 a changed caution is to be signed again, and only that one', () => {
    const play = ready();
    play.do(aDay({ surroundings: 'enclosed' }));
    const { changed, cautions } = play.state.briefing;
    expect(changed.length).toBeGreaterThan(0);
    expect(changed.length).toBeLessThan(cautions.length);
    expect(unsigned(play.state)).toHaveLength(5);
    const signed = play.sign('pia').find((event) => event.type === 'signed');
    expect(Object.keys(signed?.cautions ?? {}).sort()).toEqual([...changed].sort());
  });
});

describe('concerns and stop-work', () => {
  test('CN1 a concern holds the start until a foreman answers it', () => {
    const play = ready();
    play.do({ type: 'raise-concern', text: 'Ladder is loose' }, 'hal');
    expect(holdsOf(play.state, play.now)).toEqual([
      { kind: 'concern', concern: 'concern-1', text: 'Ladder is loose' },
    ]);
    play.do({ type: 'resolve-concern', concern: 'concern-1', text: 'Tied off' });
    expect(holdsOf(play.state, play.now)).toEqual([]);
  });

  test('CN1 who raised a concern is not chased for the sign-off', () => {
    const play = briefed();
    play.do({ type: 'raise-concern', text: 'Ladder' }, 'pia');
    const chased = play.ringUntil('07:00').flatMap(({ person }) => person ?? []);
    expect(new Set(chased)).toEqual(new Set(['finn', 'max', 'saga', 'hal']));
  });

  test('CN2 only a foreman answers a concern, once', () => {
    const play = ready();
    play.do({ type: 'raise-concern', text: 'Ladder' }, 'hal');
    const command = { type: 'resolve-concern', concern: 'concern-1', text: 'Tied off' } as const;
    expect(play.refused(command, 'pia').text).toBe('refusal.foreman-only');
    expect(play.refused({ ...command, concern: 'concern-7' }).text).toBe('refusal.unknown-concern');
    play.do(command);
    expect(play.refused(command).params).toEqual({ text: 'Tied off' });
  });

  test('ST1 somebody unknown stops the work without a word', () => {
    const play = mixed();
    play.do({ type: 'stop-work' }, nobody);
    expect(play.state.stop).toMatchObject({ at: t('08:00'), by: { kind: 'unknown' } });
    expect(holdsOf(play.state, play.now)[0]?.kind).toBe('stop-work');
    expect(play.refused({ type: 'stop-work' }, 'pia').text).toBe('refusal.already-stopped');
  });

  test('ST2 only a foreman clears it', () => {
    const play = mixed();
    const clear = { type: 'clear-stop-work', text: 'Crane moved' } as const;
    expect(play.refused(clear).text).toBe('refusal.not-stopped');
    play.do({ type: 'stop-work' }, 'hal');
    expect(play.refused(clear, 'hal').text).toBe('refusal.foreman-only');
    expect(play.refused(clear, nobody).text).toBe('refusal.who-are-you');
    play.do(clear);
    expect(play.state.stop).toBeNull();
  });

  test.each([
    { type: 'raise-concern', text: 'x' },
    { type: 'check-rig', rig: 'rig-1', results: {} },
    { type: 'pause', rig: 'rig-1' },
    { type: 'start-flush', rig: 'rig-1' },
    { type: 'answer-bell', bell: 'x' },
    { type: 'take-reading', airC: 20, rhPct: 50, steelC: 20 },
  ] as const)('EN4 somebody unknown cannot ask for $type', (command) => {
    const play = mixed();
    const full = command.type === 'check-rig' ? { ...command, results: allOk } : command;
    expect(play.refused(full, nobody).text).toBe('refusal.who-are-you');
  });
});

const allOk = Object.fromEntries(
  [
    'earth-lead',
    'hose-and-fittings',
    'trigger-lock',
    'tip-guard',
    'filters',
    'gauge',
    'wash-pot',
    'metal-pail',
    'extinguisher',
  ].map((check) => [check, 'ok']),
) as never;
