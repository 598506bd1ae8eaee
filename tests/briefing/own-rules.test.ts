import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { becauseCoating, becauseDay, becauseSite } from '../../src/briefing/because.ts';
import { buildBriefing } from '../../src/briefing/build.ts';
import { gradeRank } from '../../src/briefing/grade.ts';
import { rulesFor } from '../../src/briefing/own-rules.ts';
import { pickQuestion } from '../../src/briefing/read-back.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import { cautionRules } from '../../src/briefing/rules/index.ts';
import { tasks } from '../../src/briefing/task.ts';
import { SITE_CAUTION, type SiteCautions, siteCautionsSchema } from '../../src/model/site-cautions.ts';
import { factsOf, job, type Wanted, without, withSheet } from './days.ts';
import { everyDay } from './every-day.ts';

const questions = [
  { id: 'train', choices: 3 },
  { id: 'line', choices: 2 },
];

/** One own caution as the pack loader makes it. */
function site(given: object = {}, more: object = {}): SiteCautions {
  return siteCautionsSchema.parse({
    own: [{ id: 'site-rail-line', grade: 'must', questions, edition: 'w1', ...given }],
    ...more,
  });
}

const having = (facts: DayFacts, cautions: SiteCautions): DayFacts => ({
  ...facts,
  day: { ...facts.day, cautions },
});

const ownOf = (when: object, facts: DayFacts = factsOf()) =>
  buildBriefing(having(facts, site({ when })), null).cautions.find(({ id }) => id === 'site-rail-line');

const causes = (when: object, wanted: Wanted | DayFacts = {}) =>
  ownOf(when, 'day' in wanted ? wanted : factsOf(wanted))?.because ?? null;

describe('a caution of the site', () => {
  test('without a line applies every day, and says where it comes from', () => {
    expect(causes({})).toEqual([becauseSite('cautions.own.site-rail-line', 'must')]);
  });

  test('applies in any of its surroundings and in no other', () => {
    const when = { surroundings: ['enclosed', 'confined'] };
    expect(causes(when)).toBeNull();
    expect(causes(when, { entry: { surroundings: 'confined' } })).toEqual([
      becauseDay('surroundings', 'confined'),
    ]);
  });

  test('goes by the coatings and rigs of today, not by those of the pack', () => {
    const jobs = [job(), job({ coating: 'white-urethane', rig: 'rig-2' })];
    expect(causes({ coatings: ['white-urethane', 'mystery'] })).toBeNull();
    expect(causes({ coatings: ['white-urethane', 'grey-epoxy', 'mystery'] }, { jobs })).toEqual([
      becauseDay('jobs.coating', 'grey-epoxy, white-urethane'),
    ]);
    expect(causes({ rigs: ['rig-2'] })).toBeNull();
    expect(causes({ rigs: ['rig-2'] }, { jobs })).toEqual([becauseDay('jobs.rig', 'rig-2')]);
  });

  test('goes by hazard codes, those with letters behind them included', () => {
    const plain = factsOf({ jobs: [job({ coating: 'zinc-silicate' })] });
    const carrying = (code: string) => withSheet(plain, 'zinc-silicate', { hazards: ['H225', code] });
    expect(causes({ hazards: ['H360'] }, plain)).toBeNull();
    for (const code of ['H360', 'H360FD'])
      expect([code, causes({ hazards: ['H360'] }, carrying(code))]).toEqual([
        code,
        [becauseCoating('Zinc silicate', 'hazards', code)],
      ]);
    expect(causes({ hazards: ['H360F'] }, carrying('H360'))).not.toBeNull();
    expect(causes({ hazards: ['H360F'] }, carrying('H360D'))).toBeNull();
  });

  test('takes a coating without codes, or without a sheet, for one that has them', () => {
    const mystery = factsOf({ jobs: [job({ coating: 'mystery' })] });
    expect(causes({ hazards: ['H331'] }, mystery)).toEqual([
      becauseCoating('Mystery paint', 'hazards', null),
    ]);
    expect(causes({ hazards: ['H331'] }, without(factsOf(), 'coatings'))).toEqual([
      becauseCoating('grey-epoxy', 'hazards', null),
    ]);
  });

  test('goes by the wind from its figure on; a wind nobody has given counts as enough', () => {
    const when = { windFromMps: 8 };
    expect(causes(when, { weather: { windMps: 7.9 } })).toBeNull();
    expect(causes(when, { weather: { windMps: 8 } })).toEqual([becauseDay('weather.windMps', 8)]);
    expect(causes(when)).toEqual([becauseDay('weather.windMps', null)]);
  });

  test('goes by the sun', () => {
    expect(causes({ sun: true })).toBeNull();
    expect(causes({ sun: true }, { weather: { sun: true } })).toEqual([becauseDay('weather.sun', true)]);
  });

  test('applies only when every line holds, and names each of them', () => {
    const when = { surroundings: ['open-air'], rigs: ['rig-1'], windFromMps: 5 };
    expect(causes(when, { weather: { windMps: 2 } })).toBeNull();
    expect(causes({ ...when, rigs: ['rig-2'] }, { weather: { windMps: 9 } })).toBeNull();
    expect(causes(when, { weather: { windMps: 9 } })).toEqual([
      becauseDay('surroundings', 'open-air'),
      becauseDay('jobs.rig', 'rig-1'),
      becauseDay('weather.windMps', 9),
    ]);
  });

  test('stands after those of the catalogue in its grade', () => {
    for (const grade of ['stop', 'must', 'watch'] as const) {
      const { cautions } = buildBriefing(having(factsOf(), site({ grade })), null);
      const same = cautions.filter((caution) => caution.grade === grade);
      expect(same.length).toBeGreaterThan(1);
      expect(same.at(-1)?.id).toBe('site-rail-line');
    }
  });

  test('is for everybody, or for those whose hands it is about', () => {
    expect(ownOf({})?.tasks).toBe('everybody');
    const mixing = having(factsOf(), site({ tasks: ['mixing'] }));
    expect(rulesFor(mixing.day).at(-1)?.tasks).toEqual(['mixing']);
  });

  test('is asked about like any other before signing', () => {
    const briefing = buildBriefing(having(factsOf(), site({ grade: 'stop' })), null);
    const mine = briefing.cautions.filter(({ id }) => id === 'site-rail-line');
    const asked = [0, 1].map((tries) => pickQuestion(briefing, mine, 'bram', '2026-05-12', tries));
    expect(asked.map((one) => one?.caution)).toEqual(['site-rail-line', 'site-rail-line']);
    expect(asked.map((one) => one?.question).sort()).toEqual(['line', 'train']);
    for (const one of asked)
      expect([...(one?.order ?? [])].sort()).toEqual([0, 1, 2].slice(0, one?.question === 'line' ? 2 : 3));
  });

  test('is signed again with a harder grade or other words, and not for the same', () => {
    const first = buildBriefing(having(factsOf(), site()), null);
    const changedBy = (given: object) => buildBriefing(having(factsOf(), site(given)), first).changed;
    expect(changedBy({})).toEqual([]);
    expect(changedBy({ grade: 'stop' })).toEqual(['site-rail-line']);
    expect(changedBy({ edition: 'w2' })).toEqual(['site-rail-line']);
  });

  test('cannot have the name of one of the catalogue', () => {
    for (const { id } of cautionRules) expect(id.startsWith(SITE_CAUTION)).toBe(false);
    expect(() => site({ id: 'injection' })).toThrow();
  });
});

describe('a tightened caution', () => {
  const facts = factsOf();
  const plain = buildBriefing(facts, null);
  const tightenedTo = (id: string, grade: string) =>
    buildBriefing(having(facts, siteCautionsSchema.parse({ tighten: { [id]: grade } })), null);
  const find = (briefing: typeof plain, id: string) => briefing.cautions.find((caution) => caution.id === id);

  test('is as hard as the site wants it, and says that the site wants it', () => {
    const before = find(plain, 'waste');
    const after = find(tightenedTo('waste', 'must'), 'waste');
    expect([before?.grade, after?.grade]).toEqual(['watch', 'must']);
    expect(after?.because).toEqual([
      ...(before?.because ?? []),
      becauseSite('cautions.tighten.waste', 'must'),
    ]);
    expect(after?.fingerprint).not.toBe(before?.fingerprint);
    expect(after?.kind).not.toBe(before?.kind);
  });

  test('keeps the harder grade of its rule, and its signatures', () => {
    for (const grade of ['stop', 'must', 'watch'])
      expect(find(tightenedTo('injection', grade), 'injection')).toEqual(find(plain, 'injection'));
  });

  test('does not come on a day that gives no cause for it', () => {
    expect(find(plain, 'confined-space')).toBeUndefined();
    expect(tightenedTo('confined-space', 'stop')).toEqual(plain);
  });

  test('a name that every object has tightens nothing', () => {
    expect(tightenedTo('constructor', 'stop')).toEqual(plain);
  });
});

const grade = fc.constantFrom('stop', 'must', 'watch');
const some = <T>(...of: readonly T[]) => fc.subarray([...of], { minLength: 1 });
/** Whatever passes the schema: grades lower than the rule's included, which the files refuse before. */
const anything = fc
  .record({
    tighten: fc.dictionary(fc.constantFrom(...cautionRules.map(({ id }) => id), 'nothing'), grade),
    own: fc.uniqueArray(
      fc.record(
        {
          id: fc.stringMatching(/^site-[a-z]{1,6}$/),
          grade,
          tasks: some(...tasks),
          when: fc.record(
            {
              surroundings: some('open-air', 'enclosed', 'confined'),
              coatings: some('grey-epoxy', 'mystery', 'gone'),
              rigs: some('rig-1', 'rig-9'),
              hazards: some('H226', 'H334', 'EUH204'),
              windFromMps: fc.double({ min: 0, max: 40, noNaN: true }),
              sun: fc.constant(true),
            },
            { requiredKeys: [] },
          ),
          questions: fc.constant(questions),
          edition: fc.constant('w1'),
        },
        { requiredKeys: ['id', 'grade', 'questions', 'edition'] },
      ),
      { selector: ({ id }) => id, maxLength: 4 },
    ),
  })
  .map((written) => siteCautionsSchema.parse(written));

describe('whatever a site writes', () => {
  test('no caution goes, none gets milder, none says less', () => {
    const days = everyDay();
    let raised = 0;
    let added = 0;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: days.length - 1 }), anything, (index, cautions) => {
        const facts = days[index] ?? factsOf();
        const before = buildBriefing(facts, null).cautions;
        const after = buildBriefing(having(facts, cautions), null).cautions;
        for (const old of before) {
          const now = after.find(({ id }) => id === old.id);
          expect(now).toMatchObject({
            params: old.params,
            each: old.each,
            questions: old.questions,
            tasks: old.tasks,
          });
          expect(now?.because.slice(0, old.because.length)).toEqual(old.because);
          expect(gradeRank[now?.grade ?? 'watch']).toBeLessThanOrEqual(gradeRank[old.grade]);
          if (now?.grade !== old.grade) raised += 1;
        }
        const more = after.filter(({ id }) => !before.some((old) => old.id === id));
        expect(more.every(({ id }) => id.startsWith(SITE_CAUTION))).toBe(true);
        added += more.length;
      }),
      { numRuns: 300 },
    );
    expect(raised).toBeGreaterThan(100);
    expect(added).toBeGreaterThan(100);
  });
});
