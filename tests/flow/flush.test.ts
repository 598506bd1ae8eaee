import { describe, expect, test } from 'vitest';
import { rigClocks } from '../../src/flow/clocks.ts';
import { nextStep } from '../../src/flow/flush.ts';
import { flushSteps, neverSkipped } from '../../src/model/checks.ts';
import { mixed, type Play, ready } from './harness.ts';
import { t } from './pack.ts';

function flushing(): Play {
  const play = mixed().at('09:30');
  play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
  return play;
}
const confirm = (step: (typeof flushSteps)[number], flush = 'rig-1-flush-1') =>
  ({ type: 'confirm-step', rig: 'rig-1', flush, step }) as const;
const skip = (step: (typeof flushSteps)[number]) =>
  ({ type: 'skip-step', rig: 'rig-1', flush: 'rig-1-flush-1', step, reason: 'no solvent left' }) as const;

describe('flush', () => {
  test('FL1 one flush at a time on a rig, with or without mixed paint', () => {
    const play = flushing();
    expect(play.rig().flush).toMatchObject({ id: 'rig-1-flush-1', by: 'pia', coating: 'epoxy' });
    expect(play.refused({ type: 'start-flush', rig: 'rig-1' }, 'max').text).toBe('refusal.flush-running');
    ready().do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
  });

  test('FL2 a step out of order is refused and the one that comes first is named', () => {
    expect(flushing().refused(confirm('tip-off'), 'pia')).toMatchObject({
      text: 'refusal.step-order',
      params: { step: 'lock-trigger' },
    });
  });

  test('FL2 who is second on a step hears who was first', () => {
    const play = flushing();
    play.do(confirm('lock-trigger'), 'pia');
    expect(play.at('09:32').refused(confirm('lock-trigger'), 'max')).toMatchObject({
      text: 'refusal.step-answered',
      params: { person: 'Pia', time: '09:30' },
    });
  });

  test('FL2 a press on another flush is refused', () => {
    expect(flushing().refused(confirm('lock-trigger', 'rig-1-flush-7'), 'pia').text).toBe(
      'refusal.old-flush',
    );
    const play = flushing();
    play.flushTo();
    expect(play.refused(confirm('lock-trigger'), 'pia').text).toBe('refusal.step-answered');
    expect(mixed().refused(confirm('lock-trigger'), 'pia').text).toBe('refusal.old-flush');
  });

  test.each(neverSkipped)('FL3 %s cannot be left out', (step) => {
    const play = flushing();
    const before = flushSteps[flushSteps.indexOf(step) - 1];
    if (before) play.flushTo(before);
    expect(play.refused(skip(step), 'pia')).toMatchObject({
      text: 'refusal.step-not-skipped',
      params: { step },
    });
  });

  test.each(flushSteps.filter((step) => !neverSkipped.includes(step)))(
    'FL3 %s can be left out with a reason',
    (step) => {
      const play = flushing();
      const before = flushSteps[flushSteps.indexOf(step) - 1];
      if (before) play.flushTo(before);
      play.do(skip(step), 'pia');
      const flush = play.rig().flush ?? play.rig().flushes[0];
      expect(flush?.steps[step]).toMatchObject({ kind: 'skipped', by: 'pia', reason: 'no solvent left' });
    },
  );

  test('FL4 the clocks end with the first flush and not before', () => {
    const play = flushing();
    play.flushTo('suction-out');
    expect(rigClocks(play.state, 'rig-1')).toHaveLength(1);
    play.flushTo('primary-flush');
    expect(rigClocks(play.state, 'rig-1')).toEqual([]);
    expect(play.rig()).toMatchObject({ line: null, pot: null });
  });

  test('FL4 a first flush left out leaves the paint and its clock', () => {
    const play = flushing();
    play.flushTo('suction-out');
    play.do(skip('primary-flush'), 'pia');
    play.flushTo();
    expect(play.rig().flush).toBeNull();
    expect(rigClocks(play.state, 'rig-1')).toHaveLength(1);
  });

  test('FL5 the last step ends the flush', () => {
    const play = flushing();
    play.flushTo('tip-and-gun');
    expect(nextStep(play.rig().flush ?? ({ steps: {} } as never))).toBe('solvent-away');
    const events = play.do({ ...confirm('solvent-away'), litres: 6 }, 'pia');
    expect(events.map(({ type }) => type)).toEqual(['step-confirmed', 'flush-finished']);
    expect(play.rig().flush).toBeNull();
    expect(play.rig().flushes).toMatchObject([
      { id: 'rig-1-flush-1', startedAt: t('09:30'), finishedAt: play.now },
    ]);
  });
});
