/** A queue of one-shot faults by method; '*' is any method. The method's own queue goes first. */
import type { Fault } from './types.ts';

export type Faults = {
  add(method: string, fault: Fault, times?: number): void;
  take(method: string): Fault | undefined;
  /** Faults that no call has met yet, so that a test can see that its fault did happen. */
  left(): number;
  /** The platform is in order again. */
  clear(): void;
};

export function startFaults(): Faults {
  const queues = new Map<string, Fault[]>();
  return {
    add(method, fault, times = 1) {
      const queue = queues.get(method) ?? [];
      for (let index = 0; index < times; index += 1) queue.push(fault);
      queues.set(method, queue);
    },
    take: (method) => queues.get(method)?.shift() ?? queues.get('*')?.shift(),
    clear: () => queues.clear(),
    left: () => [...queues.values()].reduce((sum, queue) => sum + queue.length, 0),
  };
}
