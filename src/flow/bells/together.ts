import { MINUTE } from '../../model/time.ts';
import type { WantedBell } from './wanted.ts';

/** A bell about the paint in one place of a rig, and what it asks for: the same of two places can be said at once. */
export interface PlaceBell {
  readonly where: 'pot' | 'line';
  readonly asks: string;
  readonly bell: WantedBell;
}

/**
 * BE9: of pot and line one message says both when they fall in the same minute and ask for the same. It goes under the
 * line's name, so that a few seconds to and fro change no bell and lose no escalation, at the earlier of the two times.
 * When they part, each rings for itself: too often rather than not at all.
 */
export function together(bells: readonly PlaceBell[]): readonly WantedBell[] {
  const said = new Map<string, WantedBell>();
  const lineFirst = [...bells].sort((x, y) => Number(y.where === 'line') - Number(x.where === 'line'));
  for (const { asks, bell } of lineFirst) {
    const minute = Math.floor(Math.max(bell.dueAt, bell.knownAt) / MINUTE);
    // The same key twice is one bell whatever its times: the earlier counts.
    const same = [...said].find(([, { key }]) => key === bell.key)?.[0];
    const at = same ?? `${asks}:${minute}`;
    const other = said.get(at);
    said.set(at, other ? both(other, bell) : bell);
  }
  return [...said.values()];
}

function both(one: WantedBell, other: WantedBell): WantedBell {
  return {
    ...one,
    dueAt: Math.min(one.dueAt, other.dueAt),
    also: other.key === one.key ? one.also : [...one.also, other.key],
  };
}
