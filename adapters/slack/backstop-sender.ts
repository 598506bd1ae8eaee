import type { Instant } from '../../src/model/time.ts';
import type { Sent } from '../chat/outcome.ts';

export type Result<T> = Sent<T>;

export interface ListedNotice {
  readonly id: string;
  /** Seconds since 1970. */
  readonly postAt: number;
  readonly text: string;
}

/** The calls a backstop needs. Each settles within its own time limit, does not throw and does not try again by itself. */
export interface BackstopSender {
  /** `postAt` in seconds since 1970. Never with metadata: such a message is taken and never posted. */
  schedule(notice: {
    readonly channel: string;
    readonly postAt: number;
    readonly text: string;
  }): Promise<Result<{ readonly id: string }>>;
  unschedule(notice: { readonly channel: string; readonly id: string }): Promise<Result<unknown>>;
  /** Everything this app has scheduled in the channel, all pages of it. */
  list(channel: string): Promise<Result<readonly ListedNotice[]>>;
  update(change: {
    readonly channel: string;
    readonly ts: string;
    readonly text: string;
    readonly blocks: readonly never[];
  }): Promise<Result<unknown>>;
}

/** When a call that did not go through may be tried again. */
export function againAt(result: Exclude<Result<unknown>, { kind: 'ok' }>, now: Instant): Instant | null {
  switch (result.kind) {
    case 'later':
      return now + result.afterMs;
    case 'retry':
      return now + (result.afterMs ?? 30_000);
    case 'unclear':
      return now + 30_000;
    case 'gone':
      return null;
  }
}

export function whyOf(result: Exclude<Result<unknown>, { kind: 'ok' }>): string {
  return result.kind === 'later' ? `busy, free in ${Math.ceil(result.afterMs / 1000)} s` : result.why;
}
