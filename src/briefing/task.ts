import type { Day } from '../model/day.ts';
import type { PersonId } from '../model/id.ts';
import { own } from '../model/own.ts';

/** What people do on a shift, as far as a caution is more one's business than another's. */
export const tasks = ['spraying', 'mixing', 'flushing', 'standby'] as const;
export type Task = (typeof tasks)[number];

/**
 * What a person does today, from the jobs and their roles. Who sprays or mixes also flushes; a helper flushes and cleans.
 * Nothing for the foreman and the safety contact unless they are on a job: every task is their business alike.
 */
export function tasksOf(day: Day, person: PersonId): readonly Task[] {
  const roles = own(day.people, person)?.roles ?? [];
  const sprays = day.entry.jobs.some(({ sprayers }) => sprayers.includes(person));
  const mixes = day.entry.jobs.some(({ mixers }) => mixers.includes(person));
  const found: Readonly<Record<Task, boolean>> = {
    spraying: sprays,
    mixing: mixes,
    flushing: sprays || mixes || roles.includes('helper'),
    standby: roles.includes('standby'),
  };
  return tasks.filter((task) => found[task]);
}
