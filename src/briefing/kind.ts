import type { CarryOver } from '../model/day.ts';
import type { Caution, Grade, Params } from './caution.ts';

/** The kind of a caution that was stored before cautions had one. No finding has it: every kind begins with a grade. */
export const KIND_NOT_KNOWN = '';

/**
 * What is dangerous about a caution without its figures, as text: grade, rigs, coatings and cases, each once. Pot lives
 * and pressures differ a little every day; another coating, rig or case is another danger.
 */
export function kindOf(grade: Grade, params: Params, each: readonly Params[]): string {
  const cases = [params, ...each].map((row) => JSON.stringify(Object.entries(row).filter(isCase).sort()));
  return [grade, ...new Set(cases)].join(' ');
}

/** What people name: "7010" is a paint, and "2" may be a bay. */
const NAMES = new Set(['rig', 'coating', 'area', 'person', 'what', 'solvent']);
/** A time of day, a date with or without one, or a number: a tip, a rounded figure. */
const FIGURE = /^(\d{4}-\d{2}-\d{2}( \d{1,2}:\d{2})?|\d{1,2}:\d{2}|-?\d+([.,]\d+)?)$/;

function isCase([name, value]: readonly [string, string | number]): boolean {
  return typeof value === 'string' && (NAMES.has(name) || !FIGURE.test(value));
}

/** Ids of the cautions nobody was told of on the shift before, or only in another kind; none when that is not known. */
export function freshSince(cautions: readonly Caution[], before: CarryOver | null): readonly string[] {
  const told = before?.told;
  return told ? cautions.filter(({ id, kind }) => told[id] !== kind).map(({ id }) => id) : [];
}
