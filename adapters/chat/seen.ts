/** Enough for the three redeliveries of an event within five minutes, at any pace a crew has. */
const MOST = 2_000;

/**
 * Which events, presses and commands came already: the platform sends an event again when its answer was late, anybody on
 * the way can send a signed request again within five minutes, and Bolt hands on every copy.
 * What must not be done twice after a restart is guarded by the command id at the one door.
 */
export function createSeen() {
  const known = new Set<string>();
  return {
    /** True when this one was here before. */
    before(id: string): boolean {
      if (known.has(id)) return true;
      known.add(id);
      if (known.size > MOST) {
        const [oldest] = known;
        if (oldest !== undefined) known.delete(oldest);
      }
      return false;
    },
  };
}
