import { describe, expect, test } from 'vitest';
import { carryOverOf } from '../../src/flow/shift-record.ts';
import { commandSchema } from '../../src/model/command.ts';
import { mixed, nobody, Play, posted, ready } from './harness.ts';
import { aDay, aJob, aPack, t } from './pack.ts';

describe('day entry', () => {
  test('DE1 a foreman posts the day and is on its crew', () => {
    const play = new Play();
    const events = play.do(aDay());
    expect(events.map(({ type }) => type)).toEqual(['day-posted']);
    expect(play.state.day.crew).toEqual(['finn', 'pia', 'max', 'saga', 'hal']);
    expect(play.state.status).toBe('open');
  });

  test.each([
    ['a sprayer', 'pia', 'refusal.foreman-only'],
    ['somebody who is not in the pack', 'zoe', 'refusal.not-in-pack'],
    ['somebody unknown', nobody, 'refusal.who-are-you'],
  ] as const)('DE1 %s cannot post', (_who, by, text) => {
    expect(new Play().refused(aDay(), by).text).toBe(text);
  });

  test.each([
    ['a coating that is not in the pack', aJob({ coating: 'glitter' }), 'refusal.unknown-coating'],
    ['a rig that is not in the pack', aJob({ rig: 'rig-9' }), 'refusal.unknown-rig'],
    ['a sprayer who is not in the pack', aJob({ sprayers: ['zoe'] }), 'refusal.unknown-person'],
    ['a mixer who is no mixer', aJob({ mixers: ['pia'] }), 'refusal.wrong-role'],
    ['no air pressure', aJob({ airBar: undefined }), 'refusal.pressure-missing'],
    ['no fluid pressure', aJob({ rig: 'rig-2', fluidBar: undefined }), 'refusal.fluid-pressure-missing'],
    ['more air than the pump may have', aJob({ airBar: 6.5 }), 'refusal.air-over-maximum'],
    ['more fluid pressure than is set', aJob({ rig: 'rig-2', fluidBar: 210 }), 'refusal.fluid-over-maximum'],
    ['more thinner than the sheet has', aJob({ thinnerPct: 6 }), 'refusal.thinner-over-sheet'],
    [
      'thinner where the sheet has none',
      aJob({ coating: 'finish', thinnerPct: 1 }),
      'refusal.thinner-over-sheet',
    ],
  ])('DE2 a job with %s is refused', (_what, job, text) => {
    expect(new Play().refused(aDay({ jobs: [job] })).text).toBe(text);
  });

  test('DE2 somebody unknown among the others is refused', () => {
    expect(new Play().refused(aDay({ others: ['zoe'] })).params).toEqual({ person: 'zoe' });
  });

  test.each([
    ['before the start', { from: '06:00', to: '06:30' }],
    ['after the end', { from: '15:50', to: '16:10' }],
  ])('DE2 a break %s is refused', (_where, stray) => {
    expect(new Play().refused(aDay({ breaks: [stray] })).text).toBe('refusal.break-outside');
  });

  test('DE2 an edited site pack does not change a running shift', () => {
    const play = posted();
    play.pack = aPack({ policy: { reservePct: 50 } });
    play.at('08:00').mix();
    expect(play.state.day.policy.reservePct).toBe(25);
  });

  test('DE3 a day that has ended is refused', () => {
    expect(new Play().at('16:00').refused(aDay()).text).toBe('refusal.day-past');
    expect(new Play().at('15:59').do(aDay())).toHaveLength(2);
  });

  test('DE3 a night shift ends on the next day', () => {
    const { day } = posted({ start: '22:00', end: '05:00', breaks: [{ from: '01:00', to: '01:30' }] }).state;
    expect(day.endsAt).toBe(t('05:00', '2026-05-13'));
    expect(day.breaks).toEqual([{ from: t('01:00', '2026-05-13'), to: t('01:30', '2026-05-13') }]);
  });

  test('DE4 what the last shift left comes in; an unflushed line is tagged out', () => {
    const yesterday = mixed();
    yesterday.do({ type: 'report-defect', rig: 'rig-2', part: 'gun', text: 'leaks' }, 'pia');
    const play = new Play(aPack(), '2026-05-13');
    play.before = { carryOver: carryOverOf(yesterday.state, yesterday.now), head: 'abc' };
    const [day] = play.do(aDay({ date: '2026-05-13' }));
    expect(day).toMatchObject({ type: 'day-posted', previousHead: 'abc' });
    play.at('06:30').ring();
    expect(play.rig('rig-1').tag?.cause).toBe('not-flushed');
    expect(play.rig('rig-2').tag).toEqual({ at: t('08:00'), cause: 'report', text: 'gun: leaks' });
    expect(play.state.briefing.cautions.map(({ id }) => id)).toEqual(
      expect.arrayContaining(['unflushed-line', 'rig-tagged']),
    );
  });

  test('DE7 what was flushed since the day was posted is not carried in, what was left since is', () => {
    const today = mixed();
    const play = new Play(aPack(), '2026-05-13');
    play.before = { carryOver: carryOverOf(today.state, today.now), head: 'abc' };
    play.now = t('15:00');
    play.do(aDay({ date: '2026-05-13' }));
    today.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    today.flushTo();
    today.do({ type: 'report-defect', rig: 'rig-2', part: 'gun', text: 'leaks' }, 'pia');
    play.before = { carryOver: carryOverOf(today.state, today.now), head: 'def' };
    play.at('06:30').ring();
    expect(play.rig('rig-1').tag).toBeNull();
    expect(play.rig('rig-2').tag?.text).toBe('gun: leaks');
    expect(play.state.carriedIn?.unflushed).toEqual([]);
  });

  test('DE5 a change makes a new revision and is given out at once when the first was', () => {
    const play = ready();
    const events = play.do(aDay({ notes: 'Crane from eleven' }));
    expect(events.map(({ type }) => type)).toEqual(['day-changed', 'briefing-issued']);
    expect(play.state.briefing.revision).toBe(2);
  });

  test('DE5 a change before the prestart time waits for it', () => {
    const play = posted();
    expect(play.do(aDay({ notes: 'Crane' })).map(({ type }) => type)).toEqual(['day-changed']);
    expect(play.state.issuedAt).toBeNull();
  });

  test('DE5 a change of nothing is refused', () => {
    expect(posted().refused(aDay()).text).toBe('refusal.day-unchanged');
  });

  test('DE5 a rig and a coating with mixed paint in the line stay in the day', () => {
    const play = mixed();
    const { pack } = play;
    play.pack = { ...pack, rigs: pack.rigs.filter(({ id }) => id !== 'rig-1') };
    expect(play.refused(aDay({ jobs: [aJob({ rig: 'rig-2' })] })).text).toBe('refusal.rig-in-use');
    play.pack = { ...pack, coatings: pack.coatings.filter(({ id }) => id !== 'epoxy') };
    expect(play.refused(aDay({ jobs: [aJob({ coating: 'finish' })] })).text).toBe('refusal.coating-in-use');
  });

  test('DE5 who arrived later stays on the list', () => {
    const play = ready();
    play.do({ type: 'arrive', person: 'lou' }, 'lou');
    play.do(aDay({ notes: 'Crane' }));
    expect(play.state.day.crew).toContain('lou');
  });

  test('DE2 a temperature of 280 and a date that does not exist never reach the flow', () => {
    const reading = { type: 'take-reading', airC: 280, rhPct: 50, steelC: 20 };
    expect(commandSchema.safeParse(reading).error?.issues[0]?.message).toBe(
      'is this °C? −30 to 80 can be right here',
    );
    expect(commandSchema.safeParse(aDay({ date: '2026-02-30' })).error?.issues[0]?.path).toEqual([
      'entry',
      'date',
    ]);
  });
});
