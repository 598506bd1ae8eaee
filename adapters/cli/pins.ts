import { hashPin, verifyPin } from '../host/pin.ts';
import type { LoadedSite } from './site.ts';

/** Check PINs against the pack's hashes; the demo's public PINs are hashed at start, so that there is one way to check. */
export async function pinChecker({
  pins,
  demoPins,
}: LoadedSite): Promise<(person: string, pin: string) => Promise<boolean>> {
  const [nobody, ...demo] = await Promise.all([
    hashPin('nobody has this PIN'),
    ...Object.entries(demoPins).map(async ([person, pin]) => [person, await hashPin(pin)] as const),
  ]);
  const hashes = new Map([...Object.entries(pins), ...demo]);
  return async (person, pin) => {
    const stored = hashes.get(person);
    // The same work for a person without a PIN: how long an answer takes must not tell who has one.
    const right = await verifyPin(pin, stored ?? nobody);
    return stored !== undefined && right;
  };
}
