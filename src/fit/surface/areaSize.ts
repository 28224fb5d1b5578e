/** What is known of the size of an area before it is told. All of one kind, at the place where the draws' mean is largest,
 *  but for `sought`. */
export interface AreaSizeFound {
  /** Mean of the draws and their standard deviation. */
  readonly mean: number;
  readonly deviation: number;
  /** Of the mean surface, and of the mean surface with what its own smoothing leaves out of it put back. */
  readonly ofMean: number;
  readonly ofRestored: number;
  /** Mean over the draws of the largest anywhere in the area. */
  readonly sought: number;
}

/** The size that is told, centred and widened by what the draws do not know of it, as `sizeTold` does for a line:
 *  - The deepest of all chords seeks out scatter, and so stands deeper in the mean of the draws than in the mean surface:
 *    the middle is told, and half the difference joins the uncertainty.
 *  - The deepest of all places does too, in a long trough most: half of how much deeper each draw's own deepest place
 *    stands joins it.
 *  - A smooth surface rounds off what bends sharply: what smoothing leaves out of the mean surface joins it.
 *  Both halves are a house rule; `npm run study:surface` counts how often the interval then holds the truth. */
export function areaSize({ mean, deviation, ofMean, ofRestored, sought }: AreaSizeFound): {
  readonly size: number;
  readonly u: number;
} {
  const half = (mean - ofMean) / 2;
  const size = Math.max(0, mean - half);
  const doubts = [half, (sought - size) / 2, ofRestored - ofMean];
  return { size, u: Math.hypot(deviation, ...doubts) };
}
