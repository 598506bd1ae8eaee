import { scheduleOf } from './schedule.ts';
import { MS_PER_MINUTE } from './spans.ts';
import type { PlanInput, PlanJob, Schedule } from './types.ts';

/**
 * What holds a day back: the paint itself, when all of it is sprayed; pot life, kits that cannot be mixed in part, the flow
 * through the gun, the weather, a recoat window, the end of the shift.
 */
export type LimitKind = 'paint' | 'pot-life' | 'kits' | 'flow' | 'weather' | 'recoat' | 'shift';

export interface Limit {
  readonly kind: LimitKind;
  /** Litres more in the day without it. */
  readonly moreL: number;
  /** Minutes the last spraying would end sooner without it. */
  readonly soonerMinutes: number;
}

const HOURS_12 = 12 * 60 * MS_PER_MINUTE;
/** A gain smaller than this is not worth a word. */
const WORTH_MINUTES = 5;
const WORTH_L = 0.5;

const eachJob = (input: PlanInput, change: (job: PlanJob) => Partial<PlanJob>): PlanInput => ({
  ...input,
  jobs: input.jobs.map((job) => ({ ...job, ...change(job) })),
});

/** The same day with one thing taken away. Thought experiments, never plans: nobody gets a longer pot life from them. */
const without: Readonly<Record<Exclude<LimitKind, 'paint'>, (input: PlanInput) => PlanInput>> = {
  weather: (input) =>
    eachJob(input, ({ closed }) => ({ closed: closed.filter(({ why }) => why !== 'weather') })),
  recoat: (input) =>
    eachJob(input, ({ closed }) => ({ closed: closed.filter(({ why }) => why !== 'recoat') })),
  kits: (input) => eachJob(input, () => ({ kitLitres: null })),
  'pot-life': (input) => eachJob(input, () => ({ potLife: null })),
  flow: (input) => eachJob(input, ({ sprayLPerMin }) => ({ sprayLPerMin: Math.min(100, 2 * sprayLPerMin) })),
  shift: (input) => ({ ...input, endsAt: input.endsAt + HOURS_12 }),
};

/** What limits the day, most first. With everything sprayed the paint comes first, then what it waits for. */
export function limitsOf(input: PlanInput, plan: Schedule): readonly Limit[] {
  const complete = isComplete(plan);
  const kinds = Object.keys(without) as (keyof typeof without)[];
  const found = kinds.flatMap((kind): readonly Limit[] => {
    // Kits and the end of the shift hold back nothing that is all sprayed.
    if (complete && (kind === 'shift' || kind === 'kits')) return [];
    if (!applies(input, kind)) return [];
    const other = scheduleOf(without[kind](input));
    const moreL = litresOf(other) - litresOf(plan);
    const soonerMinutes = Math.floor((endOf(plan) - endOf(other)) / MS_PER_MINUTE);
    const worth = complete ? isComplete(other) && soonerMinutes >= WORTH_MINUTES : moreL >= WORTH_L;
    return worth ? [{ kind, moreL: Math.max(0, moreL), soonerMinutes: Math.max(0, soonerMinutes) }] : [];
  });
  const sorted = found.sort((x, y) => tenths(y.moreL) - tenths(x.moreL) || y.soonerMinutes - x.soonerMinutes);
  return complete ? [{ kind: 'paint', moreL: 0, soonerMinutes: 0 }, ...sorted] : sorted;
}

/** A difference in the last digit is none: then the order of the table above stands, the more particular first. */
const tenths = (litres: number): number => Math.round(litres * 10);

function applies(input: PlanInput, kind: keyof typeof without): boolean {
  switch (kind) {
    case 'weather':
    case 'recoat':
      return input.jobs.some(({ closed }) => closed.some(({ why }) => why === kind));
    case 'pot-life':
      return input.jobs.some(({ potLife }) => potLife !== null);
    case 'kits':
      return input.jobs.some(({ kitLitres }) => kitLitres !== null);
    case 'flow':
    case 'shift':
      return true;
  }
}

export const isComplete = (plan: Schedule): boolean => plan.jobs.every(({ complete }) => complete);
export const litresOf = (plan: Schedule): number => plan.jobs.reduce((sum, { litres }) => sum + litres, 0);
const endOf = (plan: Schedule): number => Math.max(0, ...plan.jobs.map(({ finishedAt }) => finishedAt ?? 0));
