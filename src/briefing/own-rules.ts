import { codesUnknown, countsAsIsocyanate } from '../facts/hazards.ts';
import { type UsedCoating, usedCoatings, usedRigs } from '../facts/used.ts';
import type { Day } from '../model/day.ts';
import { own } from '../model/own.ts';
import type { SiteCaution, SiteCautionWhen } from '../model/site-cautions.ts';
import { type Because, becauseCoating, becauseDay, becauseSite } from './because.ts';
import { breathed } from './causes.ts';
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
      const held = Object.values(heldBy(when, day)).filter((facts) => facts !== null);
      if (held.some((facts) => facts.length === 0)) return null;
      const because = held.length > 0 ? held.flat() : [becauseSite(`cautions.own.${id}`, grade)];
      // Grade and edition are part of what is signed for: other words, or a harder grade, are another caution.
      return { grade, params: { edition }, each: [], because };
    },
  };
}

type Held = { readonly [Line in keyof Required<SiteCautionWhen>]: readonly Because[] | null };

/** For each line of `when` the facts of the day that make it hold; none: it does not. Null: the caution has no such line. */
function heldBy(when: SiteCautionWhen, day: Day): Held {
  const { surroundings, coatings, rigs, hazards, windFromMps, sun } = when;
  const { entry } = day;
  return {
    surroundings: surroundings
      ? surroundings.includes(entry.surroundings)
        ? [becauseDay('surroundings', entry.surroundings)]
        : []
      : null,
    coatings: coatings ? among('jobs.coating', usedCoatings(day), coatings) : null,
    rigs: rigs ? among('jobs.rig', usedRigs(day), rigs) : null,
    hazards: hazards ? usedCoatings(day).flatMap((used) => hazardous(used, hazards)) : null,
    windFromMps: windFromMps === undefined ? null : windy(entry.weather.windMps, windFromMps),
    sun: sun ? (entry.weather.sun ? [becauseDay('weather.sun', true)] : []) : null,
  };
}

/** A wind that nobody has written down counts as enough. */
function windy(windMps: number | undefined, from: number): readonly Because[] {
  return windMps === undefined || windMps >= from ? [becauseDay('weather.windMps', windMps)] : [];
}

function among(
  field: string,
  used: readonly { readonly id: string }[],
  wanted: readonly string[],
): readonly Because[] {
  const found = used.map(({ id }) => id).filter((id) => wanted.includes(id));
  return found.length > 0 ? [becauseDay(field, found)] : [];
}

/** What a sheet that has isocyanate, or may have it, says without writing it. */
const ISOCYANATE_CODES = ['EUH204', 'H334'];

/** Nothing known, or not everything, is the hazardous case. */
function hazardous(used: UsedCoating, wanted: readonly string[]): readonly Because[] {
  const { name, sheet } = used;
  const isWanted = (code: string) => wanted.some((one) => sameHazard(code, one));
  const found = sheet?.hazards.filter(isWanted) ?? [];
  if (found.length > 0) return [becauseCoating(name, 'hazards', found)];
  const isocyanate = countsAsIsocyanate(sheet) && ISOCYANATE_CODES.some(isWanted) ? breathed(used) : null;
  if (isocyanate) return [isocyanate];
  return !sheet || codesUnknown(sheet) ? [becauseCoating(name, 'hazards', sheet?.hazards)] : [];
}

/** H360 stands for H360F and H360FD as well, and a sheet that says H360 alone may mean any of them. */
function sameHazard(code: string, wanted: string): boolean {
  return code.startsWith(wanted) || wanted.startsWith(code);
}
