import type { Instant } from '../../src/model/time.ts';
import type { Clock } from '../../src/ports.ts';

/** What an open page is told. It fetches the rest itself, so a lost event costs one fetch and no content. */
export type LiveEvent =
  | { readonly kind: 'hello'; readonly now: Instant; readonly build: string }
  | { readonly kind: 'beat'; readonly now: Instant }
  | { readonly kind: 'change'; readonly now: Instant }
  | {
      readonly kind: 'bell';
      readonly now: Instant;
      readonly id: string;
      readonly summary: string;
      readonly crew: boolean;
    };

export type LiveBody =
  | { readonly kind: 'beat' | 'change' }
  | { readonly kind: 'bell'; readonly id: string; readonly summary: string; readonly crew: boolean };

const MOST_PAGES = 200;
const MOST_BELLS = 20;

interface Page {
  waiting: LiveBody[];
  wake: () => void;
}

export type Live = ReturnType<typeof createLive>;

/** The open pages. A page too slow to read holds one change, one beat and its last bells, never a growing queue. */
export function createLive({ clock, build }: { readonly clock: Clock; readonly build: string }) {
  const pages = new Set<Page>();
  let open = true;

  function push(body: LiveBody): void {
    for (const page of pages) {
      const others = page.waiting.filter((waiting) => body.kind === 'bell' || waiting.kind !== body.kind);
      const bells = others.filter((waiting) => waiting.kind === 'bell');
      const oldest = bells.length >= MOST_BELLS ? bells[0] : undefined;
      page.waiting = [...others.filter((waiting) => waiting !== oldest), body];
      page.wake();
    }
  }

  return {
    changed: () => push({ kind: 'change' }),
    beat: () => push({ kind: 'beat' }),
    bell: (id: string, summary: string, crew: boolean) => push({ kind: 'bell', id, summary, crew }),
    pages: () => pages.size,
    full: () => !open || pages.size >= MOST_PAGES,
    /** End every stream; pages reconnect by themselves when the board is back. */
    close() {
      open = false;
      for (const page of pages) page.wake();
    },
    /** Send until `gone()` or the board closes. `write` may be slow. Resolves when the page is forgotten. */
    async serve(
      write: (event: LiveEvent) => Promise<void>,
      gone: () => boolean,
      onGone: (wake: () => void) => void,
    ) {
      const page: Page = { waiting: [], wake: () => undefined };
      onGone(() => page.wake());
      pages.add(page);
      try {
        await write({ kind: 'hello', now: clock.now(), build });
        while (open && !gone()) {
          const next = page.waiting.shift();
          if (next !== undefined) await write({ ...next, now: clock.now() });
          else
            await new Promise<void>((resolve) => {
              page.wake = resolve;
            });
        }
      } finally {
        pages.delete(page);
      }
    },
  };
}
