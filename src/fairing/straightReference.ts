/** What a profile is made straight against. */
export type ReferenceKind = 'touching the high spots' | 'best straight line';

/** A straight line over a stretch: level + slope·(x − middle). Same units as the profile it was drawn through. */
export interface StraightLine {
  readonly middle: number;
  readonly level: number;
  readonly slope: number;
}

interface Heights {
  readonly x: ArrayLike<number>;
  readonly z: ArrayLike<number>;
}

export function heightOn({ middle, level, slope }: StraightLine, x: number): number {
  return level + slope * (x - middle);
}

/** The straight reference of a profile, x ascending, z positive proud; at least two places.
 *  'touching the high spots': of all lines that the surface nowhere stands above, the one that leaves the least area
 *  to fill. The area depends only on the line's height at the middle of the stretch, so it is the side of the
 *  profile's upper hull over the middle; where a corner of the hull stands exactly there, any slope between its two
 *  sides leaves the same area, and the one nearest to the least-squares slope is taken.
 *  'best straight line': least squares over the places given.
 *  Throws RangeError on fewer than two places, or places that do not ascend. */
export function straightReference(kind: ReferenceKind, heights: Heights): StraightLine {
  const { x, z } = heights;
  const n = x.length;
  if (n < 2 || z.length !== n) {
    throw new RangeError(`two places or more expected, each with a height, got ${n}, ${z.length}`);
  }
  for (let i = 1; i < n; i++) {
    if (!(x[i] > x[i - 1])) throw new RangeError(`ascending places expected, got ${x[i]}`);
  }
  return kind === 'best straight line' ? leastSquares(heights) : touching(heights);
}

function leastSquares({ x, z }: Heights): StraightLine {
  const n = x.length;
  let middle = 0;
  let level = 0;
  for (let i = 0; i < n; i++) {
    middle += x[i] / n;
    level += z[i] / n;
  }
  let across = 0;
  let spread = 0;
  for (let i = 0; i < n; i++) {
    across += (x[i] - middle) * (z[i] - level);
    spread += (x[i] - middle) ** 2;
  }
  return { middle, level, slope: across / spread };
}

function touching(heights: Heights): StraightLine {
  const { x, z } = heights;
  const corners = upperHull(heights);
  const middle = (x[0] + x[x.length - 1]) / 2;
  const near = 1e-9 * (x[x.length - 1] - x[0]);
  const slopes = corners.slice(1).map((b, i) => {
    const a = corners[i];
    return (z[b] - z[a]) / (x[b] - x[a]);
  });
  const at = corners.findIndex((i) => x[i] >= middle - near);
  const corner = corners[at];
  if (Math.abs(x[corner] - middle) <= near) {
    const { slope } = leastSquares(heights);
    const kept = Math.min(slopes[at - 1], Math.max(slopes[at], slope));
    return { middle, level: z[corner], slope: kept };
  }
  const slope = slopes[at - 1];
  return { middle, level: z[corner] + slope * (middle - x[corner]), slope };
}

/** Places of the corners of the least concave line over the profile. */
function upperHull({ x, z }: Heights): readonly number[] {
  const corners: number[] = [];
  for (let i = 0; i < x.length; i++) {
    while (corners.length >= 2) {
      const a = corners[corners.length - 2];
      const b = corners[corners.length - 1];
      if ((x[b] - x[a]) * (z[i] - z[a]) < (z[b] - z[a]) * (x[i] - x[a])) break;
      corners.pop();
    }
    corners.push(i);
  }
  return corners;
}
