import { describe, expect, test } from 'vitest';
import { flushSteps } from '../../src/model/checks.ts';
import { commandSchema } from '../../src/model/command.ts';
import { mixed } from '../flow/harness.ts';
import { messageOf, typed } from './site.ts';

const SECOND = 1000;

/** The flush of rig 1, started by Pia. */
function flushing() {
  const play = mixed();
  play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
  return play;
}
const about = { rig: 'rig-1', flush: 'rig-1-flush-1' };
const done = (step: string) => ({
  kind: 'do',
  command: commandSchema.parse({ type: 'confirm-step', ...about, step }),
});
const litresOf = (step: string) => ({
  kind: 'open',
  form: { id: 'confirm-step', about: { ...about, step } },
});

describe('step', () => {
  test('goes through a whole flush as its buttons do: done, or the form where litres are asked', () => {
    const play = flushing();
    const asked: string[] = [];
    for (const step of flushSteps) {
      play.now += 11 * SECOND;
      const read = typed(play, 'step');
      if (read.kind === 'open') {
        asked.push(step);
        expect(read).toEqual(litresOf(step));
        play.do({ type: 'confirm-step', ...about, step, litres: 5 }, 'pia');
        continue;
      }
      expect(read).toEqual(done(step));
      if (read.kind === 'do') play.do(read.command, 'pia');
    }
    expect(asked).toEqual(['primary-flush', 'secondary-flush', 'solvent-away']);
    expect(play.rig().flush).toBeNull();
    expect(messageOf(typed(play, 'step'))).toBe('Rig One: no flush is running. Type flush to start one.');
  });

  const asks = (number: number, step: string) =>
    `Rig One: next is step ${number}, ${step}. Nothing was done. When that one is done, type: step ${number} rig 1`;

  test('the word alone is not taken from somebody who did not do the step before', () => {
    const play = flushing();
    expect(messageOf(typed(play, 'step', { viewer: 'max' }))).toBe(asks(1, 'Lock the trigger'));
    play.do({ type: 'confirm-step', ...about, step: 'lock-trigger' }, 'max');
    play.now += 60 * SECOND;
    expect(messageOf(typed(play, 'step'))).toBe(asks(2, 'Back off the regulator, shut the air'));
    expect(typed(play, 'step', { viewer: 'max' })).toEqual(done('power-off'));
  });

  test('nor a second time at once: a message sent twice must not relieve a line on paper', () => {
    const play = flushing();
    play.do({ type: 'confirm-step', ...about, step: 'lock-trigger' }, 'pia');
    play.now += 10 * SECOND - 1;
    expect(messageOf(typed(play, 'step'))).toBe(asks(2, 'Back off the regulator, shut the air'));
    play.now += 1;
    expect(typed(play, 'step')).toEqual(done('power-off'));
  });

  test('after a step that somebody skipped, it is theirs', () => {
    const play = flushing();
    play.flushTo('tip-off');
    play.do({ type: 'skip-step', ...about, step: 'suction-out', reason: 'hopper' }, 'max');
    play.now += 60 * SECOND;
    expect(messageOf(typed(play, 'step'))).toContain('next is step 8');
    expect(typed(play, 'step 8')).toEqual(litresOf('primary-flush'));
  });

  test('with its number anybody may, and only while it is the next', () => {
    const play = flushing();
    expect(typed(play, 'step 1 rig 1', { viewer: 'max' })).toEqual(done('lock-trigger'));
    expect(typed(play, 'step rig 1, 1.', { viewer: 'max' })).toEqual(done('lock-trigger'));
    expect(messageOf(typed(play, 'step 3'))).toBe(asks(1, 'Lock the trigger'));
    play.do({ type: 'confirm-step', ...about, step: 'lock-trigger' }, 'max');
    expect(messageOf(typed(play, 'step 1', { viewer: 'max' }))).toBe(
      asks(2, 'Back off the regulator, shut the air'),
    );
  });

  test.each(['step leak at gun', 'step 1 L', 'step 1.5', 'step one', 'step 1 2'])(
    '%j: nothing is confirmed by words that nobody read',
    (text) => {
      const message = messageOf(typed(flushing(), text));
      expect(message).toContain('is not understood here. Nothing was done.');
    },
  );
});
