import type { ShiftId } from '../model/id.ts';
import type { Commit } from '../ports.ts';

/**
 * What every store refuses to write. A commit comes from our own code, so each of these is a fault in the program, not
 * in what somebody typed; written down, it would be a journal that cannot be replayed.
 *
 * @param seq sequence number of the shift's last stored journal line, 0 when there is none
 * @throws Error that names the shift and what does not fit
 */
export function checkCommit(id: ShiftId, seq: number, commit: Commit): void {
  const wrong = (what: string): never => {
    throw new Error(`Programming error in a commit for shift "${id}": ${what}. Nothing was written.`);
  };
  if (commit.shift.id !== id) wrong(`it carries shift "${commit.shift.id}"`);
  let last = seq;
  for (const event of commit.events) {
    if (event.seq !== last + 1) wrong(`journal line ${event.seq} cannot follow line ${last}`);
    last = event.seq;
  }
  if (last === 0) wrong('a new shift needs at least one journal line');
  if (commit.shift.seq !== last)
    wrong(`the state says line ${commit.shift.seq}, the journal ends at line ${last}`);
  if (commit.nextBell !== null && !Number.isFinite(commit.nextBell))
    wrong(`its next bell is ${commit.nextBell}`);
  for (const delivery of commit.deliveries) {
    if (delivery.shift !== id) wrong(`delivery "${delivery.id}" belongs to shift "${delivery.shift}"`);
  }
}
