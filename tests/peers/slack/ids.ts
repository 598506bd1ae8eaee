/** Names for things, made by counting: the same test gives the same names. */
export function startIds() {
  const counts = new Map<string, number>();
  const count = (kind: string): number => {
    const next = (counts.get(kind) ?? 0) + 1;
    counts.set(kind, next);
    return next;
  };
  return {
    /** Such as V00000001. */
    id: (prefix: string): string => `${prefix}${String(count(prefix)).padStart(8, '0')}`,
    count,
    /** A message's ts: seconds, a point, and six digits that make it unique in the workspace. */
    ts: (now: number): string => {
      const second = Math.floor(now / 1000);
      const within = Math.floor(now % 1000) * 1000;
      return `${second}.${String(within + (count(`ts${now}`) % 1000)).padStart(6, '0')}`;
    },
  };
}

export type Ids = ReturnType<typeof startIds>;
