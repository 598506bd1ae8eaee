import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { Caution, Grade } from '../../src/briefing/caution.ts';
import { readingOrder } from '../../src/briefing/reading-order.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import { tasks } from '../../src/briefing/task.ts';
import type { CarryOver } from '../../src/model/day.ts';
import { factsOf, job, type Wanted, withSheet } from './days.ts';

/** The second day of the same work: nothing of it is new, so the fold is as tight as it gets. */
function secondDay(facts: DayFacts): ReturnType<typeof buildBriefing> {
  const first = buildBriefing(facts, null);
  const told = Object.fromEntries(first.cautions.map(({ id, kind }) => [id, kind]));
  const left: CarryOver = facts.carriedIn ?? {
    fromShift: 'quay:2026-05-11',
    fromDate: '2026-05-11',
    tags: [],
    unflushed: [],
    skippedSteps: [],
    settledSolvent: [],
    concerns: [],
    stop: null,
    coats: [],
  };
  return buildBriefing({ ...facts, carriedIn: { ...left, told } }, null);
}
const ids = (cautions: readonly Caution[]) => cautions.map(({ id }) => id);
const firstOf = (facts: DayFacts, own = tasks.slice(0, 0)) => {
  const briefing = secondDay(facts);
  return ids(readingOrder(briefing, briefing.cautions, own).first);
};

/** Bare steel run out, a closed coat and foul weather at once, besides what every day has. */
const at = factsOf().day.startsAt - 60 * 3_600_000;
const coat = { area: 'Hull', coating: 'grey-epoxy', coat: 'primer', firstAt: at, at, steel: [{ at, c: 20 }] };
const foul: Wanted = {
  weather: { airC: 12, rhPct: 95, steelC: 9, windMps: 14 },
  jobs: [job({ preparedAt: '2026-05-11 16:00' })],
  left: { coats: [coat] },
};
const doNot = ['wind', 'weather', 'surface-time', 'recoat-window'];

describe('a caution that says not to do it as things stand', () => {
  it('is read by everybody on the second day of it as on the first', () => {
    for (const own of [[], ...tasks.map((task) => [task])])
      expect(firstOf(factsOf(foul), own)).toEqual(expect.arrayContaining(doNot));
  });

  it('is not new on the second day, so that nothing but what it says keeps it there', () => {
    expect(secondDay(factsOf(foul)).fresh).toEqual([]);
    const briefing = secondDay(factsOf(foul));
    const plain = briefing.cautions.map(({ unfolded: _unfolded, ...rest }) => rest);
    const folded = ids(readingOrder(briefing, plain, []).rest);
    expect(doNot.filter((id) => folded.includes(id)).length).toBeGreaterThan(0);
  });

  it('stands right after the stops', () => {
    const stops = secondDay(factsOf(foul)).cautions.filter(({ grade }) => grade === 'stop').length;
    expect(firstOf(factsOf(foul)).slice(stops, stops + doNot.length)).toEqual(doNot);
  });

  const warnings: readonly (readonly [string, Wanted])[] = [
    ['wind', { weather: { windMps: 6 } }],
    ['wind', { weather: { windMps: undefined } }],
    ['weather', { weather: { rhPct: 83, steelC: 30 } }],
    ['surface-time', { jobs: [job({ preparedAt: '06:00' })] }],
    [
      'recoat-window',
      { left: { coats: [{ ...coat, firstAt: at + 40 * 3_600_000, at: at + 41 * 3_600_000 }] } },
    ],
  ];
  it.each(warnings)('%s that only warns may be folded (%#)', (id, wanted) => {
    const caution = buildBriefing(factsOf(wanted), null).cautions.find((one) => one.id === id);
    expect(caution).toBeDefined();
    expect(caution).not.toHaveProperty('unfolded');
  });

  it('paint that goes off before the line is flushed, and vapour without air enough, are stops', () => {
    const short = withSheet(factsOf({ policy: { flushFixedMinutes: 60 } }), 'grey-epoxy', {
      potLife: [{ c: 20, minutes: 40 }],
    });
    expect(secondDay(short).cautions.find(({ id }) => id === 'pot-life')?.grade).toBe('stop');
    expect(firstOf(short)).toContain('pot-life');
    const hall = factsOf({ entry: { surroundings: 'enclosed', space: { volumeM3: 900, airM3PerMin: 0 } } });
    expect(firstOf(hall)).toContain('vapour');
  });
});

describe('the order with cautions that may not be folded', () => {
  const caution = (id: string, grade: Grade, unfolded: boolean): Caution => ({
    id,
    grade,
    params: {},
    each: [],
    questions: [],
    fingerprint: id,
    kind: id,
    tasks: 'everybody',
    because: [],
    habit: false,
    ...(unfolded && { unfolded }),
  });
  const row = fc.record({
    grade: fc.constantFrom<Grade>('stop', 'must', 'watch'),
    unfolded: fc.boolean(),
    fresh: fc.boolean(),
  });

  test('none of them and no stop is in the fold, and two others are read however many they are', () => {
    fc.assert(
      fc.property(fc.array(row, { maxLength: 30 }), (rows) => {
        const all = rows.map(({ grade, unfolded }, i) => caution(`c${i}`, grade, unfolded));
        const fresh = rows.flatMap((one, i) => (one.fresh ? [`c${i}`] : []));
        const { first, rest } = readingOrder({ fresh }, all, []);
        expect(rest.filter(({ grade, unfolded }) => grade === 'stop' || unfolded)).toEqual([]);
        const kept = all.filter(({ grade, unfolded }) => grade === 'stop' || unfolded).length;
        expect(first.length).toBe(Math.min(all.length, Math.max(7, kept + 2)));
      }),
    );
  });

  test('they come after the stops and before what is new', () => {
    const all = [
      caution('new', 'must', false),
      caution('kept', 'must', true),
      caution('known', 'must', false),
      caution('stop', 'stop', false),
    ];
    expect(ids(readingOrder({ fresh: ['new'] }, all, []).first)).toEqual(['stop', 'kept', 'new', 'known']);
  });
});

describe('the first aider', () => {
  const at7 = (others: readonly string[]) =>
    buildBriefing(factsOf({ entry: { others: [...others] } }), null).cautions.find(
      ({ id }) => id === 'first-response',
    );

  it('is a habit to hear of only while here', () => {
    expect(at7(['ewa'])).toMatchObject({ habit: true, params: { aider: 'here' } });
    expect(at7([])).toMatchObject({ habit: false, params: { aider: 'away' } });
  });

  it('who is away comes before what is said alike every day', () => {
    const order = firstOf(factsOf({ entry: { others: [] } }));
    expect(order).toContain('first-response');
  });
});
