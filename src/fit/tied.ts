/** Readings of one placement: gap at each station and its standard uncertainty; one length, one unit.
 *  Heights of blocks are already taken off. */
export interface PlacementReadings {
  readonly x: readonly number[];
  readonly gap: readonly number[];
  readonly u: readonly number[];
}

/** The same as columns of any kind, for readings too many to be copied. */
export interface ReadingColumns {
  readonly x: ArrayLike<number>;
  readonly gap: ArrayLike<number>;
  readonly u: ArrayLike<number>;
}

/** Which placements belong together: two are tied when they share at least two stations, since one
 *  shared station fixes an offset but not a tilt. Returns the groups, each a list of indices in order.
 *  `same` is how near two stations must be to count as one, in x's unit. */
export function tiedGroups(
  placements: readonly Pick<ReadingColumns, 'x'>[],
  same: number,
): readonly (readonly number[])[] {
  const keys = placements.map(({ x }) => {
    const seen = new Set<number>();
    for (let i = 0; i < x.length; i++) seen.add(Math.round(x[i] / same));
    return seen;
  });
  const groups: number[][] = [];
  const left = new Set(placements.keys());
  for (const seed of placements.keys()) {
    if (!left.delete(seed)) continue;
    const members = [seed];
    const stations = new Set(keys[seed]);
    for (let grown = true; grown;) {
      grown = false;
      for (const candidate of [...left]) {
        if (sharedCount(stations, keys[candidate]) < 2) continue;
        left.delete(candidate);
        members.push(candidate);
        for (const key of keys[candidate]) stations.add(key);
        grown = true;
      }
    }
    groups.push(members.sort((a, b) => a - b));
  }
  return groups;
}

function sharedCount(a: ReadonlySet<number>, b: ReadonlySet<number>): number {
  let shared = 0;
  for (const key of b) if (a.has(key)) shared++;
  return shared;
}
