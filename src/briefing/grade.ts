import type { Grade } from './caution.ts';

/** Place of a grade in the briefing: the harder, the earlier. */
export const gradeRank: Readonly<Record<Grade, number>> = { stop: 0, must: 1, watch: 2 };

export function harder(x: Grade, y: Grade): Grade {
  return gradeRank[x] <= gradeRank[y] ? x : y;
}
