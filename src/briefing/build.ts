import type { Briefing, Caution } from './caution.ts';
import { gradeRank } from './grade.ts';
import { freshSince, kindOf } from './kind.ts';
import { mergeRows } from './merge-rows.ts';
import { rulesFor } from './own-rules.ts';
import type { DayFacts, Finding } from './rule.ts';

/**
 * The briefing for a day: every rule that applies, stop before must before watch and inside a grade in the order of the
 * catalogue, the site's own after it. `previous` is the revision that this one replaces, null for the first of a shift.
 * @throws TradeRefusal when a number of the day is out of the range in which anything can be worked out.
 */
export function buildBriefing(facts: DayFacts, previous: Briefing | null): Briefing {
  const cautions = rulesFor(facts.day)
    .flatMap((rule): Caution[] => {
      const finding = rule.find(facts);
      if (!finding) return [];
      const { id, questions, tasks } = rule;
      const { params, because, grade = rule.grade, habit = false, unfolded } = finding;
      const each = mergeRows(finding.each);
      const fingerprint = fingerprintOf({ ...finding, each });
      const kind = kindOf(grade, params, each);
      const caution = { id, grade, params, each, questions, fingerprint, kind, tasks, because, habit };
      return [unfolded ? { ...caution, unfolded } : caution];
    })
    .sort((x, y) => gradeRank[x.grade] - gradeRank[y.grade]);
  const before = new Map(previous?.cautions.map(({ id, fingerprint }) => [id, fingerprint]));
  return {
    revision: previous ? previous.revision + 1 : 1,
    cautions,
    mustSign: facts.day.crew,
    changed: cautions.filter(({ id, fingerprint }) => before.get(id) !== fingerprint).map(({ id }) => id),
    fresh: freshSince(cautions, facts.carriedIn),
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
function fingerprintOf({ params, each, grade }: Omit<Finding, 'because'>): string {
  return JSON.stringify(grade ? [params, each, grade] : [params, each], (_key, value: unknown) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([x], [y]) => (x < y ? -1 : 1)))
      : value,
  );
}
