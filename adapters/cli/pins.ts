import { hashPin, verifyPin } from '../host/pin.ts';
import type { LoadedSite } from './site.ts';

/** Check PINs against the pack's hashes; the demo's public PINs are hashed at start, so that there is one way to check. */
export async function pinChecker({
  pins,
  demoPins,
}: LoadedSite): Promise<(person: string, pin: string) => Promise<boolean>> {
  const hashes = new Map(Object.entries(pins));
  for (const [person, pin] of Object.entries(demoPins)) hashes.set(person, await hashPin(pin));
  const nobody = await hashPin('nobody has this PIN');
  return async (person, pin) => {
    const stored = hashes.get(person);
    // The same work for a person without a PIN: how long an answer takes must not tell who has one.
    const right = await verifyPin(pin, stored ?? nobody);
    return stored !== undefined && right;
  };
}
