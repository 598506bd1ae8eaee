import { describe, expect, it } from 'vitest';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { Briefing, Caution } from '../../src/briefing/caution.ts';
import { checkAnswer, pickQuestion } from '../../src/briefing/read-back.ts';
import { addDays } from '../../src/model/time.ts';
import { factsOf } from './days.ts';

const date = '2026-05-12';
const briefing = buildBriefing(factsOf(), null);
const crew = briefing.mustSign;
const all = briefing.cautions;

function pick(
  person: string,
  tries = 0,
  on = date,
  needed: readonly Caution[] = all,
  of: Briefing = briefing,
) {
  const picked = pickQuestion(of, needed, person, on, tries);
  if (!picked) throw new Error('no question');
  return picked;
}
const name = (picked: { readonly caution: string; readonly question: string }) =>
  `${picked.caution}/${picked.question}`;

describe('pickQuestion', () => {
  it('asks everybody of a crew something else on one day', () => {
    const asked = crew.map((person) => name(pick(person)));
    expect(crew.length).toBeGreaterThanOrEqual(3);
    expect(new Set(asked).size).toBe(crew.length);
  });

  it('asks people next to each other on the list about different dangers', () => {
    const cautions = crew.map((person) => pick(person).caution);
    cautions.slice(1).forEach((caution, i) => {
      expect(caution).not.toBe(cautions[i]);
    });
  });

  it('asks a person something else the next day', () => {
    for (const person of crew) expect(name(pick(person, 0, addDays(date, 1)))).not.toBe(name(pick(person)));
  });

  it('comes round to every stop question within as many days as there are', () => {
    const stops = all.filter(({ grade }) => grade === 'stop').flatMap(({ questions }) => questions);
    const days = stops.map((_, i) => name(pick('bram', 0, addDays(date, i))));
    expect(new Set(days).size).toBe(stops.length);
  });

  it('gives another question, about another danger, after a wrong answer', () => {
    for (const person of crew) {
      expect(pick(person, 1).caution).not.toBe(pick(person).caution);
      expect(name(pick(person, 2))).not.toBe(name(pick(person, 1)));
    }
  });

  it('gives the other question of the only caution there is', () => {
    const only = all.filter(({ id }) => id === 'injection');
    expect(name(pick('bram', 0, date, only))).not.toBe(name(pick('bram', 1, date, only)));
  });

  it('asks about a stop while there is one to sign, whatever its place', () => {
    for (let tries = 0; tries < 40; tries += 1) {
      const { caution } = pick('cleo', tries, date, [...all].reverse());
      expect(all.find(({ id }) => id === caution)?.grade).toBe('stop');
    }
  });

  it('asks about a must when no stop is left to sign, and about nothing but what is left', () => {
    const left = all.filter(({ grade }) => grade !== 'stop');
    const musts = left.filter(({ grade }) => grade === 'must').map(({ id }) => id);
    for (let tries = 0; tries < 40; tries += 1)
      expect(musts).toContain(pick('cleo', tries, date, left).caution);
  });

  it('draws no lots: the same person, day and try get the same question and order', () => {
    for (const person of crew) expect(pick(person, 3)).toEqual(pick(person, 3));
  });

  it('works for somebody who is not on the list yet', () => {
    const picked = pick('nobody-knows');
    expect(all.map(({ id }) => id)).toContain(picked.caution);
    expect(pick('nobody-knows')).toEqual(picked);
  });

  it('asks nothing when there is nothing to sign or nothing that can be asked', () => {
    expect(pickQuestion(briefing, [], 'bram', date, 0)).toBeNull();
    const mute = all.map((caution) => ({ ...caution, questions: [] }));
    expect(pickQuestion(briefing, mute, 'bram', date, 0)).toBeNull();
  });

  it('asks the next grade when the hardest has no questions', () => {
    const half = all.map((caution) => (caution.grade === 'stop' ? { ...caution, questions: [] } : caution));
    const { caution } = pick('bram', 0, date, half);
    expect(all.find(({ id }) => id === caution)?.grade).toBe('must');
  });
});

describe('the order of the choices', () => {
  const picks = Array.from({ length: 120 }, (_, i) =>
    pick(crew[i % crew.length] ?? '', i % 4, addDays(date, i)),
  );

  it('shows every choice once', () => {
    for (const { order } of picks)
      expect([...order].sort()).toEqual(Array.from({ length: order.length }, (_, i) => i));
  });

  it('puts the right one in every place, none much oftener than the others', () => {
    const places = [0, 1, 2].map((place) => picks.filter(({ order }) => order.indexOf(0) === place).length);
    for (const times of places) expect(times).toBeGreaterThan(picks.length / 6);
  });

  it('does not keep the right one in one place for one question', () => {
    const places = new Map<string, Set<number>>();
    for (const picked of picks)
      places.set(name(picked), (places.get(name(picked)) ?? new Set()).add(picked.order.indexOf(0)));
    for (const [question, seen] of places) expect(seen.size, question).toBeGreaterThan(1);
  });
});

describe('checkAnswer', () => {
  it('takes the right choice wherever it is shown, and nothing else', () => {
    for (const order of [
      [0, 1, 2],
      [1, 2, 0],
      [2, 0, 1],
    ]) {
      const right = [0, 1, 2].filter((shown) => checkAnswer(order, shown));
      expect(right).toEqual([order.indexOf(0)]);
    }
  });

  it('takes a place that was not shown as wrong', () => {
    for (const shown of [-1, 3, 9, 0.5, Number.NaN]) expect(checkAnswer([1, 2, 0], shown)).toBe(false);
  });
});
