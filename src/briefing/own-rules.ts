import { usedCoatings, usedRigs } from '../facts/used.ts';
import type { Day } from '../model/day.ts';
import { own } from '../model/own.ts';
import type { SiteCaution, SiteCautionWhen } from '../model/site-cautions.ts';
import { type Because, becauseCoating, becauseDay, becauseSite } from './because.ts';
import type { Grade } from './caution.ts';
import { harder } from './grade.ts';
import type { CautionRule } from './rule.ts';
import { cautionRules } from './rules/index.ts';

/**
 * The rules that hold on a day: the whole catalogue in its order, no grade of it softer than it is, and after it what the
 * site has added. Whatever a site writes, no caution goes and none becomes milder.
 */
export function rulesFor({ cautions }: Day): readonly CautionRule[] {
  const catalogue = cautionRules.map((rule) => tightened(rule, own(cautions?.tighten ?? {}, rule.id)));
  return [...catalogue, ...(cautions?.own ?? []).map(ownRule)];
}

function tightened(rule: CautionRule, least: Grade | undefined): CautionRule {
  if (!least) return rule;
  return {
    ...rule,
    find(facts) {
      const finding = rule.find(facts);
      if (!finding) return null;
      const found = finding.grade ?? rule.grade;
      const grade = harder(found, least);
      // As hard already: the signatures for it stay good.
      if (grade === found) return finding;
      const because = [...finding.because, becauseSite(`cautions.tighten.${rule.id}`, grade)];
      return { ...finding, grade, because };
    },
  };
}

function ownRule({ id, grade, tasks, when, questions, edition }: SiteCaution): CautionRule {
  return {
    id,
    grade,
    tasks: tasks ?? 'everybody',
    params: ['edition'],
    eachParams: [],
    questions,
    find({ day }) {
      const held = (Object.keys(lines) as (keyof Wanted)[]).flatMap((field) => {
        const facts = heldBy(field, when as Partial<Wanted>, day);
        return facts ? [facts] : [];
      });
      if (held.some((facts) => facts.length === 0)) return null;
      const because = held.length > 0 ? held.flat() : [becauseSite(`cautions.own.${id}`, grade)];
      // Grade and edition are part of what is signed for: other words, or a harder grade, are another caution.
      return { grade, params: { edition }, each: [], because };
    },
  };
}

type Wanted = { readonly [K in keyof SiteCautionWhen]-?: NonNullable<SiteCautionWhen[K]> };

/** For each line of `when` the facts of the day that make it hold; none: it does not. */
const lines: { readonly [K in keyof Wanted]: (wanted: Wanted[K], day: Day) => readonly Because[] } = {
  surroundings: (wanted, { entry }) =>
    wanted.includes(entry.surroundings) ? [becauseDay('surroundings', entry.surroundings)] : [],
  coatings: (wanted, day) =>
    among(
      'jobs.coating',
      usedCoatings(day).map(({ id }) => id),
      wanted,
    ),
  rigs: (wanted, day) =>
    among(
      'jobs.rig',
      usedRigs(day).map(({ id }) => id),
      wanted,
    ),
  hazards: (wanted, day) =>
    usedCoatings(day).flatMap(({ name, sheet }) => {
      const codes = sheet?.hazards ?? [];
      // No codes, nothing known: the hazardous case.
      if (codes.length === 0) return [becauseCoating(name, 'hazards', null)];
      const found = codes.filter((code) => wanted.some((one) => sameHazard(code, one)));
      return found.length > 0 ? [becauseCoating(name, 'hazards', found)] : [];
    }),
  windFromMps: (wanted, { entry }) => {
    const wind = entry.weather.windMps;
    return wind === undefined || wind >= wanted ? [becauseDay('weather.windMps', wind)] : [];
  },
  sun: (_wanted, { entry }) => (entry.weather.sun ? [becauseDay('weather.sun', true)] : []),
};

/** Null when the caution has no such line. */
function heldBy<K extends keyof Wanted>(
  field: K,
  when: Partial<Wanted>,
  day: Day,
): readonly Because[] | null {
  const wanted: Wanted[K] | undefined = when[field];
  return wanted === undefined ? null : lines[field](wanted, day);
}

function among(field: string, used: readonly string[], wanted: readonly string[]): readonly Because[] {
  const found = used.filter((id) => wanted.includes(id));
  return found.length > 0 ? [becauseDay(field, found)] : [];
}

/** H360 stands for H360F and H360FD as well, and a sheet that says H360 alone may mean any of them. */
function sameHazard(code: string, wanted: string): boolean {
  return code.startsWith(wanted) || wanted.startsWith(code);
}
