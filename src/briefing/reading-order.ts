import type { Briefing, Caution } from './caution.ts';
import type { Task } from './task.ts';

/** What a crew can take in standing up, as far as stops leave room (common practice, no source). */
const ABOUT = 7;
/** However many may not be folded, this many others are still read: among them what is new. */
const OTHERS_AT_LEAST = 2;

export interface ReadingOrder {
  /** Read before signing. Every stop, and whatever else may not be folded, is here. */
  readonly first: readonly Caution[];
  /** One tap away. */
  readonly rest: readonly Caution[];
}

/**
 * The order in which somebody with these tasks reads: what can kill today, then what says not to do it as things stand,
 * then what is new since the last shift, then what must be done, then what to watch; inside each of these the new before
 * the known, what is particular to this day before habits, one's own tasks before others', and then the order of the
 * catalogue. Without tasks, for the crew as a whole, nobody's come first.
 */
export function readingOrder(
  { fresh }: Pick<Briefing, 'fresh'>,
  cautions: readonly Caution[],
  tasks: readonly Task[],
): ReadingOrder {
  const isNew = ({ id }: Caution) => fresh.includes(id);
  const level = (caution: Caution): number => {
    if (caution.grade === 'stop') return 0;
    if (caution.unfolded) return 1;
    if (isNew(caution)) return 2;
    return caution.grade === 'must' ? 3 : 4;
  };
  const rank = (caution: Caution): readonly number[] => [
    level(caution),
    isNew(caution) ? 0 : 1,
    caution.grade !== 'stop' && caution.habit ? 1 : 0,
    isOwn(caution, tasks) ? 0 : 1,
  ];
  const order = [...cautions].sort((x, y) => compare(rank(x), rank(y)));
  const kept = order.filter(({ grade, unfolded }) => grade === 'stop' || unfolded).length;
  const shown = Math.max(ABOUT, kept + OTHERS_AT_LEAST);
  return { first: order.slice(0, shown), rest: order.slice(shown) };
}

function isOwn(caution: Caution, tasks: readonly Task[]): boolean {
  const about = caution.tasks;
  return tasks.length === 0 || about === 'everybody' || tasks.some((task) => about.includes(task));
}

function compare(x: readonly number[], y: readonly number[]): number {
  for (const [place, value] of x.entries()) {
    const other = y[place] ?? 0;
    if (value !== other) return value - other;
  }
  return 0;
}
