import { AsyncLocalStorage } from 'node:async_hooks';

const quiet = new AsyncLocalStorage<true>();
let underWay = 0;
let loud: typeof globalThis.console.error | null = null;

/**
 * What `work` prints to the console as an error is left out, and nobody else's. For packages that print keys and
 * tokens' faults at every forged request, which anybody can send, and offer no way to turn that off.
 */
export async function withoutConsole<T>(work: () => Promise<T>): Promise<T> {
  const { console } = globalThis;
  if (underWay === 0) {
    const before = console.error;
    loud = before;
    console.error = (...words: unknown[]) => {
      if (quiet.getStore() !== true) before.apply(console, words);
    };
  }
  underWay += 1;
  try {
    return await quiet.run(true, work);
  } finally {
    underWay -= 1;
    if (underWay === 0 && loud !== null) console.error = loud;
  }
}
