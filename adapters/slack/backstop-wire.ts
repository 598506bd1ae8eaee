import type { Instant } from '../../src/model/time.ts';
import type { BackstopSender, Result } from './backstop-sender.ts';

/** What the sender of messages can do for a backstop. Its times are epoch ms and it wants blocks, if only none. */
export interface ScheduleCalls {
  schedule(message: {
    readonly channel: string;
    readonly postAt: Instant;
    readonly text: string;
    readonly blocks: readonly never[];
  }): Promise<Result<{ readonly id: string }>>;
  unschedule: BackstopSender['unschedule'];
  scheduledList(
    channel: string,
  ): Promise<Result<readonly { readonly id: string; readonly postAt: Instant; readonly text: string }[]>>;
  update: BackstopSender['update'];
}

/** The sender as a backstop wants it, with the platform's own seconds. */
export function backstopSender(calls: ScheduleCalls): BackstopSender {
  return {
    schedule: ({ postAt, ...notice }) => calls.schedule({ ...notice, postAt: postAt * 1000, blocks: [] }),
    unschedule: (notice) => calls.unschedule(notice),
    async list(channel) {
      const answer = await calls.scheduledList(channel);
      if (answer.kind !== 'ok') return answer;
      const seconds = answer.value.map(({ id, postAt, text }) => ({ id, postAt: postAt / 1000, text }));
      return { kind: 'ok', value: seconds };
    },
    update: (change) => calls.update(change),
  };
}
