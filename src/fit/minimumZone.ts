import {
  add,
  divide,
  exactDifference,
  multiply,
  powerOfTwo,
  subtract,
  type DoubleDouble,
} from './doubleDouble.ts';
import type { LineRefusal } from './line.ts';
import { checkPairs, rangeOf } from './pairs.ts';

/** The narrowest pair of parallel lines between which all readings lie, apart along z. */
export interface MinimumZone {
  readonly ok: true;
  /** The lines' distance, in z's unit. */
  readonly STRt: number;
  readonly slope: number;
  /** Height at x = 0 of the line midway between the two. */
  readonly midIntercept: number;
  /** Indices of the readings that hold the upper and the lower line, by ascending x: two on one and
   *  one between them on the other, or two on each where both sides of the hull run parallel. */
  readonly upper: readonly number[];
  readonly lower: readonly number[];
  /** False where two readings at one place are the whole width: then a range of slopes is as narrow,
   *  the slope is the middle of that range, and only those two readings touch. */
  readonly unique: boolean;
  readonly n: number;
  readonly domain: readonly [number, number];
}

/** Minimum zone of a profile: the reference lines of least separation.
 *  x, z: same length n ≥ 2, finite, in any order; distances are measured along z.
 *  Not an iteration: the separation as a function of slope is convex and bends only at the slopes of
 *  hull sides, so the sides of both hulls are turned through in order of slope until the touching
 *  readings pass one another. O(n log n), O(n) for readings in order of x.
 *  Throws RangeError on unequal lengths, a value that is not finite, or lines beyond a double's range;
 *  refuses fewer than 2 readings, and returns `degenerate` when all x coincide.
 *  Accuracy: STRt as rounded from the exact fraction, against every pair of readings in whole numbers
 *  (test/fit/minimumZone.test.ts); near ties are decided with 32 digits.
 *  Source: ISO 12780-1:2011, minimum zone reference lines (from memory); the hulls after Andrew (1979),
 *  Inf. Proc. Letters 9, 216; turning through them as in Shamos (1978), Computational Geometry. */
export function minimumZone(x: readonly number[], z: readonly number[]): MinimumZone | LineRefusal {
  checkPairs(x, z);
  const n = x.length;
  if (n < 2) return { ok: false, reason: 'too few readings', n, needed: 2 };
  const domain = rangeOf(x);
  if (domain[0] === domain[1]) return { ok: false, reason: 'degenerate', n, needed: 2 };

  const across = powerOfTwo(Math.max(...domain.map(Math.abs)));
  const along = powerOfTwo(Math.max(...rangeOf(z).map(Math.abs)));
  const { slope, upper, lower, unique } = narrowest(
    x.map((value) => value / across),
    z.map((value) => value / along),
  );
  const height = (i: number) => subtract([z[i] / along, 0], multiply(slope, [x[i] / across, 0]));
  // The mean of a side's touches, so that neither end of the line is favoured.
  const [high, low] = [upper, lower].map((touches) => {
    const ends = [touches[0], touches[touches.length - 1]].map(height);
    return multiply(add(ends[0], ends[1]), [0.5, 0]);
  });
  const lines = {
    STRt: subtract(high, low)[0] * along,
    slope: slope[0] * (along / across),
    midIntercept: (add(high, low)[0] / 2) * along,
  };
  for (const value of Object.values(lines)) {
    if (!Number.isFinite(value)) throw new RangeError(`finite lines expected, got ${value}`);
  }
  return { ok: true, ...lines, upper, lower, unique, n, domain };
}

/** The best slope and the readings that touch at it. */
function narrowest(x: readonly number[], z: readonly number[]) {
  const order = x.map((_, i) => i).sort((a, b) => x[a] - x[b]);
  const top = hull(x, z, order, 1);
  const bottom = hull(x, z, order, -1);
  // From the steepest descent, where the right end holds the upper line and the left end the lower.
  let i = top.length - 1;
  let j = 0;
  const nextTop = () => (i > 0 ? slopeOf(x, z, top[i - 1], top[i]) : NEVER);
  const nextBottom = () =>
    j + 1 < bottom.length ? slopeOf(x, z, bottom[j], bottom[j + 1]) : NEVER;
  for (;;) {
    const [a, b] = [nextTop(), nextBottom()];
    const turn = compare(a, b);
    const upper = turn <= 0 ? [top[i - 1], top[i]] : [top[i]];
    const lower = turn >= 0 ? [bottom[j], bottom[j + 1]] : [bottom[j]];
    if (turn <= 0) i--;
    if (turn >= 0) j++;
    if (x[bottom[j]] < x[top[i]]) continue;

    const slope = turn <= 0 ? a : b;
    if (x[bottom[j]] > x[top[i]]) return { slope, upper, lower, unique: true };
    const [c, d] = [nextTop(), nextBottom()];
    const end = compare(c, d) < 0 ? c : d;
    const middle = multiply(add(slope, end), [0.5, 0]);
    return { slope: middle, upper: [top[i]], lower: [bottom[j]], unique: false };
  }
}

/** The slope at which a hull that is used up turns on. */
const NEVER: DoubleDouble = [Infinity, 0];

function slopeOf(x: readonly number[], z: readonly number[], a: number, b: number): DoubleDouble {
  const slope = divide(exactDifference(z[b], z[a]), exactDifference(x[b], x[a]));
  if (!Number.isFinite(slope[0])) {
    throw new RangeError(`finite slopes expected, got readings ${a} and ${b} too close in x`);
  }
  return slope;
}

/** Corners of the upper (sign 1) or lower (−1) hull by strictly ascending x; no corner on a straight side. */
function hull(
  x: readonly number[],
  z: readonly number[],
  order: readonly number[],
  sign: 1 | -1,
): number[] {
  const corners: number[] = [];
  for (const at of order) {
    const last = corners.at(-1);
    if (last !== undefined && x[last] === x[at]) {
      if (sign * (z[at] - z[last]) <= 0) continue;
      corners.pop();
    }
    while (corners.length >= 2) {
      const a = corners[corners.length - 2];
      const b = corners[corners.length - 1];
      if (sign * bend(x, z, a, b, at) < 0) break;
      corners.pop();
    }
    corners.push(at);
  }
  return corners;
}

/** Positive where c lies above the line through a and b; by plain doubles where these are sure of the sign. */
function bend(x: readonly number[], z: readonly number[], a: number, b: number, c: number): number {
  const left = (z[c] - z[b]) * (x[b] - x[a]);
  const right = (z[b] - z[a]) * (x[c] - x[b]);
  // Three roundings a product and one of the difference: Shewchuk (1997), Discrete Comput. Geom. 18, 305.
  if (Math.abs(left - right) > 1e-15 * (Math.abs(left) + Math.abs(right))) return left - right;
  return subtract(
    multiply(exactDifference(z[c], z[b]), exactDifference(x[b], x[a])),
    multiply(exactDifference(z[b], z[a]), exactDifference(x[c], x[b])),
  )[0];
}

function compare(a: DoubleDouble, b: DoubleDouble): number {
  return a[0] - b[0] || a[1] - b[1];
}
