import type { CarryOver } from '../model/day.ts';
import type { Caution, Grade, Params } from './caution.ts';

/**
 * What is dangerous about a caution without its figures, as text: grade, rigs, coatings and cases, each once. Pot lives
 * and pressures differ a little every day; another coating, rig or case is another danger.
 */
export function kindOf(grade: Grade, params: Params, each: readonly Params[]): string {
  const cases = [params, ...each].map((row) => JSON.stringify(Object.entries(row).filter(isCase).sort()));
  return [grade, ...new Set(cases)].join(' ');
}

/** Times of day and codes begin with a figure; they are figures, not cases. */
function isCase([, value]: readonly [string, string | number]): boolean {
  return typeof value === 'string' && !/^\d/.test(value);
}

/** Ids of the cautions nobody was told of on the shift before, or only in another kind; none when that is not known. */
export function freshSince(cautions: readonly Caution[], before: CarryOver | null): readonly string[] {
  const told = before?.told;
  return told ? cautions.filter(({ id, kind }) => told[id] !== kind).map(({ id }) => id) : [];
}
