import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Caution, Grade } from '../../src/briefing/caution.ts';
import { readingOrder } from '../../src/briefing/reading-order.ts';
import { type Task, tasks, tasksOf } from '../../src/briefing/task.ts';
import { Play } from './harness.ts';
import { aDay } from './pack.ts';

const caution = (id: string, grade: Grade, about: Caution['tasks'] = 'everybody'): Caution => ({
  id,
  grade,
  params: {},
  each: [],
  questions: [],
  fingerprint: id,
  kind: id,
  tasks: about,
  because: [],
  habit: false,
});
const ids = (cautions: readonly Caution[]) => cautions.map(({ id }) => id);

const cautions = fc
  .array(
    fc.record({
      grade: fc.constantFrom<Grade>('stop', 'must', 'watch'),
      about: fc.oneof(fc.constant('everybody' as const), fc.subarray([...tasks], { minLength: 1 })),
      isNew: fc.boolean(),
    }),
    { maxLength: 30 },
  )
  .map((rows) => ({
    all: rows.map(({ grade, about }, index) => caution(`c${index}`, grade, about)),
    fresh: rows.flatMap(({ isNew }, index) => (isNew ? [`c${index}`] : [])),
  }));

describe('SO7 what is read before signing', () => {
  test('SO7 no stop is ever folded away, nothing is lost, nothing is said twice', () => {
    fc.assert(
      fc.property(cautions, fc.subarray([...tasks]), ({ all, fresh }, own) => {
        const { first, rest } = readingOrder({ fresh }, all, own);
        expect(rest.every(({ grade }) => grade !== 'stop')).toBe(true);
        expect([...ids(first), ...ids(rest)].sort()).toEqual(ids(all).sort());
      }),
    );
  });

  test('SO7 about seven, and two besides the stops however many those are', () => {
    fc.assert(
      fc.property(cautions, ({ all, fresh }) => {
        const { first } = readingOrder({ fresh }, all, []);
        const stops = all.filter(({ grade }) => grade === 'stop').length;
        expect(first.length).toBe(Math.min(all.length, Math.max(7, stops + 2)));
      }),
    );
  });

  test('SO7 stops, then what is new, then musts, then the rest; in each the new, the day’s own and one’s own first', () => {
    const all = [
      caution('stop-others', 'stop', ['mixing']),
      caution('stop-own', 'stop', ['spraying']),
      caution('stop-new', 'stop', ['mixing']),
      { ...caution('must-habit', 'must'), habit: true },
      caution('must', 'must'),
      caution('must-others', 'must', ['standby']),
      caution('must-own', 'must', ['spraying', 'flushing']),
      caution('watch-new', 'watch', ['mixing']),
      caution('watch', 'watch'),
    ];
    const { first, rest } = readingOrder({ fresh: ['stop-new', 'watch-new'] }, all, ['spraying']);
    expect(ids([...first, ...rest])).toEqual([
      'stop-new',
      'stop-own',
      'stop-others',
      'watch-new',
      'must',
      'must-own',
      'must-others',
      'must-habit',
      'watch',
    ]);
  });

  test('SO7 for the crew as a whole nobody’s tasks come first', () => {
    const all = [caution('a', 'must', ['mixing']), caution('b', 'must'), caution('c', 'must', ['spraying'])];
    expect(ids(readingOrder({ fresh: [] }, all, []).first)).toEqual(['a', 'b', 'c']);
  });
});

describe('what somebody does today', () => {
  const play = new Play();
  play.do(aDay());
  const of = (person: string): readonly Task[] => tasksOf(play.state.day, person);

  test('who sprays or mixes flushes too, a helper flushes, the foreman and safety have no task of their own', () => {
    expect(of('pia')).toEqual(['spraying', 'flushing']);
    expect(of('max')).toEqual(['mixing', 'flushing']);
    expect(of('hal')).toEqual(['flushing']);
    expect(of('finn')).toEqual([]);
    expect(of('saga')).toEqual([]);
    expect(of('nobody')).toEqual([]);
  });
});
