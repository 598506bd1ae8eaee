import type { ChatServices } from './services.ts';

/** A channel's turn comes every second or so. */
const MOST_TURNS = 30;

/** Tries again while it is only not the channel's turn; gives anything else back as it is. */
export async function insist<T extends { readonly kind: string }>(
  { wait }: Pick<ChatServices, 'wait'>,
  say: () => Promise<T | { readonly kind: 'later'; readonly afterMs: number }>,
): Promise<T | { readonly kind: 'later'; readonly afterMs: number }> {
  let said = await say();
  for (let turns = 0; said.kind === 'later' && 'afterMs' in said && turns < MOST_TURNS; turns += 1) {
    await wait(said.afterMs);
    said = await say();
  }
  return said;
}
