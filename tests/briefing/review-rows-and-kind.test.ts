import { describe, expect, test } from 'vitest';
import { buildBriefing } from '../../src/briefing/build.ts';
import { kindOf } from '../../src/briefing/kind.ts';
import { mergeRows } from '../../src/briefing/merge-rows.ts';
import { factsOf, job, withRig } from './days.ts';

describe('rows of several rigs', () => {
  test('with an amount for each stay apart: merged it would read as the amount for all', () => {
    const bring = ['Rig 1', 'Rig 4'].map((rig) => ({ rig, state: 'bring', cleanL: 15 }));
    expect(mergeRows(bring)).toEqual(bring);
    const cans = [bring[0], bring[0]].flatMap((row) => row ?? []);
    expect(mergeRows(cans)).toEqual(cans);
  });

  test('with a figure that holds for each of them become one', () => {
    const rows = ['Rig 1', 'Rig 4'].map((rig) => ({ rig, bar: 225, minutes: 50 }));
    expect(mergeRows(rows)).toEqual([{ rig: 'Rig 1, Rig 4', bar: 225, minutes: 50 }]);
  });

  test('name a rig once, however often it is there', () => {
    const rows = ['Rig 1', 'Rig 2', 'Rig 1', 'Rig 2'].map((rig) => ({ rig, wheels: 'metal' }));
    expect(mergeRows(rows)).toEqual([{ rig: 'Rig 1, Rig 2', wheels: 'metal' }]);
  });

  test('so a day with two like rigs says solvent and hose for each', () => {
    const base = factsOf({ jobs: [job(), job({ rig: 'rig-3', area: 'Deck' })] });
    const { id: _id, name: _name, ...like } = base.day.rigs['rig-1'] ?? base.day.rigs['rig-3'] ?? {};
    const { cautions } = buildBriefing(withRig(base, 'rig-3', like), null);
    const rigsOf = (id: string) => cautions.find((one) => one.id === id)?.each.map(({ rig }) => rig);
    expect(rigsOf('flush')).toEqual(['Rig 1', 'Rig 3', 'Rig 1', 'Rig 3']);
    expect(rigsOf('hose-and-fittings')).toEqual(['Rig 1', 'Rig 3']);
    expect(rigsOf('injection')).toEqual(['Rig 1, Rig 3']);
  });
});

describe('the kind of a caution', () => {
  const kind = (row: Readonly<Record<string, string>>) => kindOf('must', {}, [row]);

  test.each([
    ['coating', '2K Epoxy', '2K Urethane'],
    ['rig', '1st rig', '2nd rig'],
    ['area', '12', '13'],
    ['coating', '7010', '7020'],
  ])('is another one for another %s whose name begins with a figure', (field, one, other) => {
    expect(kind({ [field]: one })).not.toBe(kind({ [field]: other }));
  });

  test.each([
    ['clock', '15:20', '9:05'],
    ['date', '2026-05-11', '2026-05-12'],
    ['date and clock', '2026-05-11 23:10', '2026-05-12 02:00'],
    ['number', '521', '-7.5'],
    ['number with a comma', '0,5', '12'],
  ])('stays for another %s', (_what, one, other) => {
    expect(kind({ figure: one })).toBe(kind({ figure: other }));
  });
});
