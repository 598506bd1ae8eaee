/**
 * A queue of one-shot faults by operation; '*' is any operation of the connector, not the issuer or its tokens, nor the
 * storage of files.
 * The operation's own queue goes first.
 */
import type { Fault, Operation } from './types.ts';

export type Faults = {
  add(operation: Operation | '*', fault: Fault, times?: number): void;
  take(operation: Operation): Fault | undefined;
  /** Faults that no call has met yet, so that a test can see that its fault did happen. */
  left(): number;
};

const ELSEWHERE: ReadonlySet<Operation> = new Set(['openid', 'keys', 'token', 'uploadFile']);

export function startFaults(): Faults {
  const queues = new Map<Operation | '*', Fault[]>();
  return {
    add(operation, fault, times = 1) {
      const queue = queues.get(operation) ?? [];
      for (let index = 0; index < times; index += 1) queue.push(fault);
      queues.set(operation, queue);
    },
    take: (operation) =>
      queues.get(operation)?.shift() ?? (ELSEWHERE.has(operation) ? undefined : queues.get('*')?.shift()),
    left: () => [...queues.values()].reduce((sum, queue) => sum + queue.length, 0),
  };
}
