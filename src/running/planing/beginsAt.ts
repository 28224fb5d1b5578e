/** From which speed on a boat is beyond its limit. */
export type Begins =
  | { readonly at: 'speed'; readonly speed: number }
  /** Beyond it already at the slowest speed that is told: begins there or below. */
  | { readonly at: 'or below'; readonly speed: number }
  | { readonly at: 'never' }
  | { readonly at: 'not told' };

/** Where the margin (trim less limit, degrees) first passes 0 as speed grows; straight lines between neighbouring
 *  speeds, none across a speed of which nothing is told (undefined). Speeds ascending, any unit. */
export function beginsAt(
  speeds: readonly number[],
  margins: readonly (number | undefined)[],
): Begins {
  if (speeds.length !== margins.length) {
    throw new RangeError(
      `a margin at each speed expected, got ${margins.length} at ${speeds.length}`,
    );
  }
  let told = false;
  for (let i = 0; i < speeds.length; i++) {
    const margin = margins[i];
    if (margin === undefined) continue;
    if (margin > 0) {
      const before = margins[i - 1];
      if (before === undefined) return { at: 'or below', speed: speeds[i] };
      const along = -before / (margin - before);
      return { at: 'speed', speed: speeds[i - 1] + along * (speeds[i] - speeds[i - 1]) };
    }
    told = true;
  }
  return { at: told ? 'never' : 'not told' };
}
