import { createApi } from '../../adapters/api/api.ts';
import { createPinAttempts } from '../../adapters/host/pin-attempts.ts';
import { memoryStore } from '../../adapters/memory/store.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { HandleCommand } from '../../src/ports.ts';
import { DATE, t } from '../flow/pack.ts';
import { recordingSurface, World } from '../scenarios/world.ts';

export const SHIFT = `weir:${DATE}`;
export const pins: Readonly<Record<string, string>> = { finn: '640381', pia: '751492', max: '862503' };

export interface Answer {
  readonly status: number;
  readonly ok: unknown;
  readonly text: string;
}

/** The JSON way in, on a host with a store in memory and a clock moved by hand. */
export function anApi(handle?: HandleCommand) {
  const world = new World(memoryStore(), [recordingSurface().surface], t('06:00'));
  const logged: { readonly facts: object; readonly message: string }[] = [];
  const log = (facts: object, message: string) => void logged.push({ facts, message });
  const pinChecks: string[] = [];
  const api = createApi({
    handle: handle ?? world.host.handle,
    attempts: createPinAttempts({ now: () => world.now }),
    log: { info: log, warn: log, error: log },
    async checkPin(person, pin) {
      pinChecks.push(person);
      return Object.hasOwn(pins, person) && pins[person] === pin;
    },
    shiftIdFor: (date) => `weir:${date}`,
    currentShift: (): Promise<Shift | null> => world.store.shift(SHIFT),
  });

  async function raw(body: string, contentType = 'application/json'): Promise<Answer> {
    const response = await api.request('/command', {
      method: 'POST',
      body,
      headers: { 'content-type': contentType },
    });
    const { ok, text } = (await response.json()) as Pick<Answer, 'ok' | 'text'>;
    return { status: response.status, ok, text };
  }

  let sent = 0;
  return {
    api,
    world,
    logged,
    pinChecks,
    raw,
    /** A whole request; whatever is given replaces what would have been right. */
    send(person: string, command: unknown, change: Readonly<Record<string, unknown>> = {}) {
      sent += 1;
      const commandId = `request-${String(sent).padStart(4, '0')}`;
      return raw(JSON.stringify({ person, pin: pins[person] ?? '000000', commandId, command, ...change }));
    },
    journal: () => world.store.journal(SHIFT),
  };
}
