import type { Briefing, Caution, Grade } from './caution.ts';
import type { DayFacts, Finding } from './rule.ts';
import { cautionRules } from './rules/index.ts';

const rank: Readonly<Record<Grade, number>> = { stop: 0, must: 1, watch: 2 };

/**
 * The briefing for a day: every rule that applies, stop before must before watch and inside a grade in the order of the
 * catalogue. `previous` is the revision that this one replaces, null for the first of a shift.
 * @throws TradeRefusal when a number of the day is out of the range in which anything can be worked out.
 */
export function buildBriefing(facts: DayFacts, previous: Briefing | null): Briefing {
  const cautions = cautionRules
    .flatMap((rule): Caution[] => {
      const finding = rule.find(facts);
      if (!finding) return [];
      const { id, questions } = rule;
      const { params, each, grade = rule.grade } = finding;
      return [{ id, grade, params, each, questions, fingerprint: fingerprintOf(finding) }];
    })
    .sort((x, y) => rank[x.grade] - rank[y.grade]);
  const before = new Map(previous?.cautions.map(({ id, fingerprint }) => [id, fingerprint]));
  return {
    revision: previous ? previous.revision + 1 : 1,
    cautions,
    mustSign: facts.day.crew,
    changed: cautions.filter(({ id, fingerprint }) => before.get(id) !== fingerprint).map(({ id }) => id),
  };
}

/** What a person has still to sign: the cautions whose fingerprint is not the one they signed, by caution id. */
export function needsToSign(
  briefing: Briefing,
  signed: Readonly<Record<string, string>>,
): readonly Caution[] {
  return briefing.cautions.filter(({ id, fingerprint }) => signed[id] !== fingerprint);
}

/** The finding as text, a grade of its own included, with keys in order, so that equal findings have equal fingerprints. */
function fingerprintOf({ params, each, grade }: Finding): string {
  return JSON.stringify(grade ? [params, each, grade] : [params, each], (_key, value: unknown) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([x], [y]) => (x < y ? -1 : 1)))
      : value,
  );
}
