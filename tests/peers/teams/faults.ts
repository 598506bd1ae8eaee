/**
 * A queue of one-shot faults by operation; '*' is any operation of the connector, not the issuer or its tokens, nor the
 * storage of files; 'posts' is any that says something, in whichever of the ways, and 'opens' one that opens a person's
 * own chat. The operation's own queue goes first.
 */
import { type Dict, dict, text } from '../slack/json.ts';
import type { Fault, FaultTarget, Operation } from './types.ts';

export type Faults = {
  add(target: FaultTarget, fault: Fault, times?: number): void;
  /** `body` is that of the request, as sent. */
  take(operation: Operation, body?: unknown): Fault | undefined;
  /** Faults that no call has met yet, so that a test can see that its fault did happen. */
  left(): number;
  /** No call meets any of those left. */
  clear(): void;
};

const ELSEWHERE: ReadonlySet<Operation> = new Set(['openid', 'keys', 'token', 'uploadFile']);

export function startFaults(): Faults {
  const queues = new Map<FaultTarget, Fault[]>();
  return {
    add(target, fault, times = 1) {
      const queue = queues.get(target) ?? [];
      for (let index = 0; index < times; index += 1) queue.push(fault);
      queues.set(target, queue);
    },
    take(operation, body) {
      if (ELSEWHERE.has(operation)) return queues.get(operation)?.shift();
      const sort = sortOf(operation, dict(body));
      const own = queues.get(operation)?.shift() ?? (sort && queues.get(sort)?.shift());
      return own ?? queues.get('*')?.shift();
    },
    clear: () => queues.clear(),
    left: () => [...queues.values()].reduce((sum, queue) => sum + queue.length, 0),
  };
}

function sortOf(operation: Operation, body: Dict): 'posts' | 'opens' | null {
  if (operation === 'sendToConversation' || operation === 'replyToActivity') return 'posts';
  if (operation !== 'createConversation') return null;
  return text(dict(dict(body.channelData).channel).id) === '' ? 'opens' : 'posts';
}
