import type { Composed } from '../../adapters/cli/compose.ts';

/** What Potbell logged as an error, and the port it said it listens on. */
export function crewLog() {
  const faults: string[] = [];
  let port: unknown = null;
  return {
    faults,
    port: () => port,
    log: {
      info: (facts: object) => {
        if ('port' in facts) port = facts.port;
      },
      warn: () => undefined,
      error: (facts: object, text: string) => void faults.push(`${text} ${JSON.stringify(facts, errorsToo)}`),
    },
  };
}

function errorsToo(_key: string, value: unknown): unknown {
  return value instanceof Error ? `${value.name}: ${value.message} ${value.stack ?? ''}` : value;
}

/** Time that goes by at a crew: `pass` moves every clock there is, `time` is the instant of a time of day. */
export function passing(
  { host, store }: Pick<Composed, 'host' | 'store'>,
  clock: { now(): number },
  pass: (ms: number) => void,
  time: (hhmm: string) => number,
) {
  /** All that is queued, letting as much time go by as the platforms' limits ask for. */
  async function deliver(): Promise<void> {
    for (let turns = 0; turns < 600; turns += 1) {
      await host.outbox.drain();
      if ((await store.oldestUnsettled()) === null) return;
      pass(1_000);
    }
    throw new Error('messages are still waiting after ten minutes');
  }

  /** What comes due on the way rings and is delivered. */
  async function passTo(hhmm: string): Promise<void> {
    for (;;) {
      const next = await store.earliestBell();
      if (next === null || next > time(hhmm)) break;
      pass(Math.max(0, next - clock.now()));
      await host.bells.runDue();
      await deliver();
    }
    pass(Math.max(0, time(hhmm) - clock.now()));
    await deliver();
  }

  return { pass, deliver, passTo };
}
