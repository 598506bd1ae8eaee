import { describe, expect, test } from 'vitest';
import { replay } from '../../src/engine.ts';
import { carryOverOf } from '../../src/flow/shift-record.ts';
import type { CarryOver } from '../../src/model/day.ts';
import { briefed, mixed, Play } from './harness.ts';
import { aDay, aJob } from './pack.ts';

const memory = (play: Play): CarryOver => carryOverOf(play.state, play.now);

function dayAfter(before: CarryOver, jobs = [aJob()]): Play {
  const play = new Play(undefined, '2026-05-13');
  play.before = { carryOver: before, head: 'abc' };
  play.at('06:45').do(aDay({ date: '2026-05-13', jobs }));
  return play;
}

describe('experience', () => {
  test('SR6 is of who was there: a name on a job that never signed has worked with nothing', () => {
    const play = mixed({ jobs: [aJob({ sprayers: ['pia'] })] });
    expect(memory(play).experience?.pia).toEqual({ coatings: ['epoxy'], rigs: ['rig-1'] });
    const pia = play.state.people.pia;
    if (!pia) throw new Error('Pia is not on this shift');
    const absent = { ...play.state, people: { ...play.state.people, pia: { ...pia, signOffs: [] } } };
    const { experience } = carryOverOf(absent, play.now);
    expect(experience).not.toHaveProperty('pia');
    expect(experience?.max).toEqual({ coatings: ['epoxy'], rigs: ['rig-1'] });
  });
});

describe('what last ran in a rig', () => {
  const before = memory(mixed());

  test('SR6 is forgotten when the rig had a job and nobody logged what ran', () => {
    expect(before.rigs).toHaveProperty('rig-1');
    expect(memory(dayAfter(before)).rigs).toEqual({});
  });

  test('SR6 is kept while the rig stands idle', () => {
    const elsewhere = dayAfter(before, [aJob({ rig: 'rig-2' })]);
    expect(memory(elsewhere).rigs).toEqual({ 'rig-1': { coating: 'epoxy', solvent: 'Cleaner T' } });
  });
});

describe('after an update', () => {
  /** The journal as a Potbell stored it that knew no kinds of cautions. */
  function withoutKinds<Data>(data: Data): Data {
    return JSON.parse(
      JSON.stringify(data, (key, value) => (key === 'kind' && isKind(value) ? undefined : value)),
    );
  }
  const isKind = (value: unknown) => typeof value === 'string' && /^(stop|must|watch)\b/.test(value);

  test('SR6 what was told is not known where a caution was stored without its kind: nothing is called new', () => {
    const play = briefed();
    const state = replay(play.id, null, withoutKinds(play.journal));
    if (!state) throw new Error('nothing to replay');
    const left = carryOverOf(state, play.now);
    expect(left).not.toHaveProperty('told');
    expect(dayAfter(left).state.briefing.fresh).toEqual([]);
    expect(memory(play)).toHaveProperty('told');
    const waiting = dayAfter(left).state;
    const never = carryOverOf({ ...waiting, issuedAt: null }, play.now);
    expect(never).not.toHaveProperty('told');
  });
});
