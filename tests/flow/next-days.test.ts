import { describe, expect, test } from 'vitest';
import { holdsOf, rigsInUse } from '../../src/flow/holds.ts';
import { carryOverOf } from '../../src/flow/shift-record.ts';
import { aBatch, mixed, Play, ready } from './harness.ts';
import { aDay, t } from './pack.ts';

const SECOND = '2026-05-13';
const THIRD = '2026-05-14';

/** The day after, posted at 06:00 with what the day before left. */
function dayAfter(before: Play, date: string): Play {
  const play = new Play(before.pack, date);
  play.before = { carryOver: carryOverOf(before.state, before.now), head: 'h' };
  play.at(t('06:00', date)).do(aDay({ date }));
  return play;
}

/** A shift that ended with set paint in rig 1, tagged out and closed. */
function leftWithPaint(): Play {
  const play = mixed();
  play.at('10:30').do({ type: 'report-defect', rig: 'rig-1', part: 'drain valve', text: 'seized' }, 'pia');
  play.do({ type: 'close-shift', reason: 'Cannot be flushed.' });
  return play;
}

describe('paint left in a line', () => {
  test('DE7 is known from the moment the next day is posted, before its briefing goes out', () => {
    const second = dayAfter(leftWithPaint(), SECOND);
    expect(second.state.issuedAt).toBeNull();
    expect(second.rig()).toMatchObject({ unflushed: { coating: 'epoxy' }, tag: { cause: 'report' } });
    expect(holdsOf(second.state, second.now).map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(['rig-tagged', 'unflushed-line']),
    );
    expect(second.refused(aBatch, 'max').text).toBe('refusal.tagged-out');
  });

  test('SR3 outlives a cleared tag and an idle day: only a flush or a new line takes it away', () => {
    const second = dayAfter(leftWithPaint(), SECOND);
    second.do({ type: 'clear-tag', rig: 'rig-1', text: 'Valve mended.' });
    expect(second.refused(aBatch, 'max').text).toBe('refusal.unflushed-line');
    second.at(t('16:00', SECOND)).do({ type: 'close-shift', reason: '' });

    const third = dayAfter(second, THIRD);
    expect(third.rig()).toMatchObject({ unflushed: { coating: 'epoxy' }, tag: { cause: 'not-flushed' } });
    third.do({ type: 'clear-tag', rig: 'rig-1', text: 'New hose.', lineClean: true });
    expect(third.rig()).toMatchObject({ unflushed: null, tag: null });
    expect(carryOverOf(third.state, third.now).unflushed).toEqual([]);
  });

  test('DE7 what was dealt with between posting and briefing is not put on again', () => {
    const second = dayAfter(leftWithPaint(), SECOND);
    second.do({ type: 'clear-tag', rig: 'rig-1', text: 'New hose and valve.', lineClean: true });
    second.at(t('06:30', SECOND)).ring();
    expect(second.state.issuedAt).not.toBeNull();
    expect(second.rig()).toMatchObject({ unflushed: null, tag: null });
  });

  test('HO1 a tagged rig without a job is still among the rigs people see', () => {
    const play = ready();
    play.do({ type: 'report-defect', rig: 'rig-2', part: 'gun', text: 'cracked' }, 'pia');
    expect(rigsInUse(play.state)).toContain('rig-2');
  });
});

test('FL3 a defect found while flushing: relief goes on, pumping waits for the foreman', () => {
  const play = mixed();
  play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
  play.do({ type: 'report-defect', rig: 'rig-1', part: 'gun', text: 'cracked' }, 'pia');
  expect(play.rig().tag?.cause).toBe('flush');
  play.flushTo('suction-out');
  const pump = {
    type: 'confirm-step',
    rig: 'rig-1',
    flush: 'rig-1-flush-1',
    step: 'primary-flush',
    litres: 9,
  } as const;
  expect(play.refused(pump, 'pia').text).toBe('refusal.tagged-pump');
  play.do({ type: 'clear-tag', rig: 'rig-1', text: 'Gun changed, may be pumped.' });
  play.do(pump, 'pia');
  expect(play.rig().line).toBeNull();
});

test('DE4 a change made from an older revision does not write over another one', () => {
  const play = ready();
  const changed = aDay({ notes: 'from tab B' });
  play.do({ ...changed, base: 1 });
  expect(play.refused({ ...aDay({ notes: 'from tab A' }), base: 1 }).text).toBe(
    'refusal.day-changed-meanwhile',
  );
});

test('DE2 film outside the sheet and overlapping breaks are refused when the day is posted', () => {
  const play = new Play();
  const breaks = [
    { from: '09:00', to: '09:30' },
    { from: '09:20', to: '09:40' },
  ];
  expect(play.refused(aDay({ breaks })).text).toBe('refusal.breaks-overlap');
});
