import { describe, expect, test } from 'vitest';
import { comingBells, ringingBells } from '../../src/flow/ringing.ts';
import { fanState } from '../../src/flow/test-fan.ts';
import { commandSchema } from '../../src/model/command.ts';
import type { Policy } from '../../src/model/site.ts';
import { mixed, nobody, type Play, ready } from './harness.ts';
import { aPack, t } from './pack.ts';

const fan = (widthMm: number, tip = '517') => ({ type: 'test-fan', rig: 'rig-1', widthMm, tip }) as const;

/** 08:00, 20 L at 20 °C in rig 1: use by 09:30, so a fan is asked for each half hour until then. */
const half = (policy: Partial<Policy> = {}): Play =>
  mixed({}, aPack({ policy: { testFanMinutes: 30, ...policy } }));

const stateOf = (play: Play) => fanState(play.state.day, play.rig());
const due = (play: Play, until: string) =>
  play
    .ringUntil(until)
    .filter(({ kind }) => kind === 'fan-due')
    .map(({ at, level, late }) => [at, level, late]);

describe('noting a test fan', () => {
  test('TF1 a fan is kept with who, when, tip and the width its code stands for', () => {
    const play = half().at('08:20');
    expect(play.do(fan(250), 'pia')).toEqual([
      { type: 'fan-tested', rig: 'rig-1', by: 'pia', tip: '517', widthMm: 250, codeMm: 254 },
    ]);
    expect(play.rig().fans).toEqual([{ at: t('08:20'), by: 'pia', tip: '517', widthMm: 250 }]);
  });

  test('TF1 a code that is no three-digit one is kept without a width', () => {
    expect(half().do(fan(250, 'F-17'))).toMatchObject([{ codeMm: null }]);
  });

  test.each([19, 1001, Number.NaN])('TF1 a width of %s mm is refused', (widthMm) => {
    expect(commandSchema.safeParse(fan(widthMm)).success).toBe(false);
  });

  test('TF1 somebody unknown notes none, an unknown rig takes none', () => {
    expect(half().refused(fan(250), nobody).text).toBe('refusal.who-are-you');
    expect(half().refused({ ...fan(250), rig: 'rig-9' }).text).toBe('refusal.unknown-rig');
  });

  test('TF1 no fan without paint in the rig', () => {
    expect(ready().refused(fan(250), 'pia').text).toBe('refusal.no-mixed-paint');
  });

  test('TF1 no fan while work is stopped, on a rig tagged out, or while a flush runs', () => {
    const stopped = half();
    stopped.do({ type: 'stop-work', text: '' }, 'hal');
    expect(stopped.refused(fan(250), 'pia').text).toBe('refusal.fan-stopped');
    const tagged = half();
    tagged.do({ type: 'report-defect', rig: 'rig-1', part: 'hose', text: 'bulge' }, 'hal');
    expect(tagged.refused(fan(250), 'pia')).toMatchObject({
      text: 'refusal.fan-tagged',
      params: { rig: 'Rig One' },
    });
    const flushing = half();
    flushing.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    expect(flushing.refused(fan(250), 'pia').text).toBe('refusal.flush-running');
  });
});

describe('reading a test fan', () => {
  test('TF2 the first fan is held against the code, the next against the widest of this tip', () => {
    const play = half();
    play.do(fan(262), 'pia');
    expect(stateOf(play)).toMatchObject({ worn: false, against: { what: 'code', mm: 254 }, first: null });
    play.at('08:40').do(fan(200), 'pia');
    expect(stateOf(play)).toMatchObject({
      worn: false,
      against: { what: 'before', mm: 262 },
      first: { widthMm: 262 },
    });
    play.at('09:10').do(fan(196), 'pia');
    expect(stateOf(play)).toMatchObject({ worn: true, first: { widthMm: 262 } });
  });

  test('TF2 another tip starts with its own code', () => {
    const play = half();
    play.do(fan(300, '617'), 'pia');
    play.at('08:40').do(fan(210, '417'), 'pia');
    expect(stateOf(play)).toMatchObject({ worn: false, against: { what: 'code', mm: 203.2 }, first: null });
  });

  test('TF2 an unread code is held against its own fans only', () => {
    const play = half();
    play.do(fan(240, 'F-17'), 'pia');
    expect(stateOf(play)).toMatchObject({ worn: false, against: null });
    play.at('08:40').do(fan(180, 'F-17'), 'pia');
    expect(stateOf(play)).toMatchObject({ worn: true, narrowerPct: 25 });
  });

  test('TF2 the figure is the site’s', () => {
    const play = half({ fanWornPct: 10 });
    play.do(fan(228), 'pia');
    expect(stateOf(play)?.worn).toBe(true);
  });
});

describe('the bell for a test fan', () => {
  test('TF3 it rings for the crew an interval after the first batch, and again an interval later', () => {
    const play = half();
    expect(due(play, '09:29')).toEqual([
      [t('08:30'), 'crew', false],
      [t('09:00'), 'crew', false],
    ]);
  });

  test('TF3 it waits for no answer and does not escalate', () => {
    const play = half();
    play.ringUntil('08:45');
    expect(ringingBells(play.state, play.now).map(({ wanted }) => wanted.kind)).not.toContain('fan-due');
    expect(comingBells(play.state, play.now).find(({ kind }) => kind === 'fan-due')?.dueAt).toBe(t('09:00'));
  });

  test('TF3 a fan noted puts it off by an interval', () => {
    const play = half().at('08:20');
    play.do(fan(250), 'pia');
    expect(due(play, '09:29')).toEqual([
      [t('08:50'), 'crew', false],
      [t('09:20'), 'crew', false],
    ]);
  });

  test('TF3 past use-by nothing is asked to be sprayed', () => {
    expect(due(half(), '11:00').map(([at]) => at)).toEqual([t('08:30'), t('09:00')]);
  });

  test('TF3 while paused it is silent; when spraying goes on it is asked for, and not late', () => {
    const play = half().at('08:15');
    play.do({ type: 'pause', rig: 'rig-1' }, 'pia');
    expect(due(play, '08:50')).toEqual([]);
    play.do({ type: 'resume', rig: 'rig-1' }, 'pia');
    expect(due(play, '09:10')).toEqual([[t('08:50'), 'crew', false]]);
  });

  test('TF3 while work is stopped it is silent', () => {
    const play = half().at('08:15');
    play.do({ type: 'stop-work', text: '' }, 'hal');
    expect(due(play, '08:50')).toEqual([]);
    play.do({ type: 'clear-stop-work', text: 'Barrier closed.' });
    expect(due(play, '09:10')).toEqual([[t('08:50'), 'crew', false]]);
  });

  test('TF3 a rig tagged out, flushing or never checked is not asked', () => {
    const tagged = half();
    tagged.do({ type: 'report-defect', rig: 'rig-1', part: 'hose', text: 'bulge' }, 'hal');
    expect(due(tagged, '09:20')).toEqual([]);
    tagged.do({ type: 'clear-tag', rig: 'rig-1', text: 'New hose' });
    expect(due(tagged, '09:25')).toEqual([]);
    tagged.checkRig();
    expect(due(tagged, '09:29')).toEqual([[t('09:25'), 'crew', false]]);
    const flushing = half();
    flushing.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    expect(due(flushing, '09:20')).toEqual([]);
  });

  test('TF3 with the line flushed it is silent until the next batch', () => {
    const play = half();
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    play.flushTo();
    expect(due(play, '10:00')).toEqual([]);
    play.mix();
    expect(due(play, '10:10')).toEqual([[t('10:00'), 'crew', false]]);
  });

  test('TF3 after a silence it rings once, late, and the next comes an interval later', () => {
    const play = mixed({}, aPack({ policy: { testFanMinutes: 15 } })).at('09:05');
    const rang = play.ring().filter(({ kind }) => kind === 'fan-due');
    expect(rang).toMatchObject([{ dueAt: t('08:15'), late: true, step: 0 }]);
    expect(due(play, '09:29')).toEqual([[t('09:20'), 'crew', false]]);
  });
});
