import { hashPin, verifyPin } from '../host/pin.ts';
import type { LoadedSite } from './site.ts';

/** Check PINs against the pack's hashes; the demo's public PINs are hashed first, so that there is one way to check. */
export function pinChecker({
  pins,
  demoPins,
}: LoadedSite): (person: string, pin: string) => Promise<boolean> {
  async function hashed() {
    const [nobody, ...demo] = await Promise.all([
      hashPin('nobody has this PIN'),
      ...Object.entries(demoPins).map(async ([person, pin]) => [person, await hashPin(pin)] as const),
    ]);
    return { nobody, hashes: new Map([...Object.entries(pins), ...demo]) };
  }
  // Hashing is slow by intent: not before somebody signs in.
  let ready: ReturnType<typeof hashed> | null = null;
  return async (person, pin) => {
    // One that failed is tried again at the next log-in.
    ready ??= hashed().catch((error: unknown) => {
      ready = null;
      throw error;
    });
    const { nobody, hashes } = await ready;
    const stored = hashes.get(person);
    // The same work for a person without a PIN: how long an answer takes must not tell who has one.
    const right = await verifyPin(pin, stored ?? nobody);
    return stored !== undefined && right;
  };
}
