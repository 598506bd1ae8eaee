import { expect, test } from 'vitest';
import { openSqliteStore } from '../../adapters/sqlite/store.ts';
import { replay } from '../../src/engine.ts';
import { wantedBells } from '../../src/flow/bells.ts';
import { carryOverOf } from '../../src/flow/shift-record.ts';
import { completeShift } from '../../src/journal/older.ts';
import type { CarryOver } from '../../src/model/day.ts';
import { mixed, Play } from '../flow/harness.ts';
import { aDay, t } from '../flow/pack.ts';
import { tempFile } from '../sqlite/temp.ts';

/** Every field of days, policies, rigs and readings that came after the first stored shifts. */
const later = new Set(
  'forecast altitudeM hoseColour components wbgtC lelFractionPct testFanMinutes fanWornPct coveralls workW gunOnPct'.split(
    ' ',
  ),
);
/** The same data as an older Potbell stored it. */
function asStoredOnce<Data>(data: Data): Data {
  return JSON.parse(JSON.stringify(data, (key, value) => (later.has(key) ? undefined : value))) as Data;
}

function aRunningShift(): Play {
  const play = mixed({ weather: { airC: 20, rhPct: 60, steelC: 20, sun: true } }).at('08:05');
  play.do({ type: 'take-reading', airC: 22, rhPct: 60, steelC: 22 });
  play.at('08:10').do(aDay({ notes: 'North side first' }));
  return play;
}

test('a shift that an older Potbell began is replayed to the same state and goes on', () => {
  const play = aRunningShift();
  const old = asStoredOnce(play.journal);
  expect(JSON.stringify(old)).not.toContain('testFanMinutes');
  const state = replay(play.id, null, old);
  expect(state).toEqual(play.state);
  expect(state && wantedBells(state)).toEqual(wantedBells(play.state));
});

test('so is its stored state, out of the database', async () => {
  const play = aRunningShift();
  const old = asStoredOnce(play.state);
  expect(completeShift(old)).toEqual(play.state);
  const store = openSqliteStore({ file: tempFile() });
  await store.transact(play.id, () => ({
    commit: { shift: old, events: asStoredOnce(play.journal), deliveries: [], nextBell: null },
    answer: null,
  }));
  expect(await store.shift(play.id)).toEqual(play.state);
  await store.close();
});

test('a site that has set a figure keeps it', () => {
  const { state } = aRunningShift();
  const day = { ...state.day, policy: { ...state.day.policy, testFanMinutes: 45 } };
  expect(completeShift({ ...state, day }).day.policy.testFanMinutes).toBe(45);
});

test('a coat carried over without its first batch counts as begun a shift earlier, and its steel as never measured', () => {
  const at = t('15:00');
  const coat = { area: 'Bay 1', coating: 'epoxy', coat: 'primer', at };
  const play = new Play();
  play.do(aDay());
  const carried = carryOverOf(play.state, play.now);
  const old = { ...carried, coats: [coat] } as unknown as CarryOver;
  expect(completeShift({ ...play.state, carriedIn: old }).carriedIn?.coats).toEqual([
    { ...coat, firstAt: t('03:00'), steel: [] },
  ]);
});
