import type { Again } from '../../adapters/chat/again.ts';

/** What waits for a timer, and the hand that lets it go off. */
export function handTimers() {
  let waiting: { readonly ms: number; readonly run: () => void }[] = [];
  const again: Again = (ms, run) => {
    const one = { ms, run };
    waiting.push(one);
    return () => {
      waiting = waiting.filter((other) => other !== one);
    };
  };
  return {
    again,
    waits: (): readonly number[] => waiting.map(({ ms }) => ms),
    goOff(): void {
      const now = waiting;
      waiting = [];
      for (const { run } of now) run();
    },
  };
}
