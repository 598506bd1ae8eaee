import { describe, expect, test } from 'vitest';
import { freshSince, kindOf } from '../../src/briefing/kind.ts';
import { mergeRows } from '../../src/briefing/merge-rows.ts';
import type { CarryOver } from '../../src/model/day.ts';

describe('the kind of a caution', () => {
  test('figures and times of day do not make it another one', () => {
    const one = kindOf('must', { airC: 21.5 }, [{ rig: 'Rig 1', minutes: 90, startBy: '15:20', tip: '521' }]);
    const other = kindOf('must', { airC: 24 }, [{ rig: 'Rig 1', minutes: 71, startBy: '15:40', tip: '517' }]);
    expect(one).toBe(other);
  });

  test.each([
    ['another grade', kindOf('stop', {}, [{ rig: 'Rig 1', state: 'known' }])],
    ['another rig', kindOf('must', {}, [{ rig: 'Rig 2', state: 'known' }])],
    [
      'one rig more',
      kindOf('must', {}, [
        { rig: 'Rig 1', state: 'known' },
        { rig: 'Rig 2', state: 'known' },
      ]),
    ],
    ['another case', kindOf('must', {}, [{ rig: 'Rig 1', state: 'unknown' }])],
  ])('%s does', (_what, other) => {
    expect(other).not.toBe(kindOf('must', {}, [{ rig: 'Rig 1', state: 'known' }]));
  });

  test('the order of fields and rows that say the same twice do not', () => {
    const row = { rig: 'Rig 1', state: 'known' };
    expect(kindOf('must', {}, [row, row])).toBe(kindOf('must', {}, [{ state: 'known', rig: 'Rig 1' }]));
  });
});

test('where nobody knows what was said before, nothing is called new', () => {
  const cautions = [{ id: 'wind', kind: 'k' }] as unknown as Parameters<typeof freshSince>[0];
  expect(freshSince(cautions, null)).toEqual([]);
  expect(freshSince(cautions, {} as CarryOver)).toEqual([]);
  expect(freshSince(cautions, { told: {} } as CarryOver)).toEqual(['wind']);
  expect(freshSince(cautions, { told: { wind: 'k' } } as unknown as CarryOver)).toEqual([]);
});

describe('rows', () => {
  test('that say the same of several rigs become one', () => {
    expect(
      mergeRows([
        { rig: 'Rig 1', wheels: 'rubber' },
        { rig: 'Rig 2', wheels: 'metal' },
        { rig: 'Rig 3', wheels: 'rubber' },
      ]),
    ).toEqual([
      { rig: 'Rig 1, Rig 3', wheels: 'rubber' },
      { rig: 'Rig 2', wheels: 'metal' },
    ]);
  });

  test('that differ in a figure stay, and so do rows without a rig', () => {
    const rows = [
      { rig: 'Rig 1', bar: 225 },
      { rig: 'Rig 2', bar: 150 },
      { coating: 'A', c: 1 },
      { coating: 'B', c: 1 },
    ];
    expect(mergeRows(rows)).toEqual(rows);
  });
});
