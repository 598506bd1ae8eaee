/** Taken at the start, so that a test which pretends about timers does not stop the waiting. */
const nextTurn = setImmediate;

/**
 * Resolves when `check` holds, and looks again at every turn of the event loop: no timer and no clock. Holds for
 * what the app does after its ack as well as for what the peer sees. A check that throws rejects.
 */
export async function until(check: () => boolean): Promise<void> {
  while (!check()) await new Promise<void>((resolve) => nextTurn(resolve));
}
