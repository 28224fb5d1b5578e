import { splineBasis, type SplineBasis } from '../splineBasis.ts';
import { athwartOf, type Athwart } from './athwart.ts';
import { massBand } from './massBand.ts';

/** The space in which a panel's surface lives: on each line a cubic spline of x, all on the same knots, and between the
 *  lines the natural cubic spline through them. The coefficient of basis function k on line i is unknown k·m + i. */
export interface PanelSpace {
  /** Places of the lines along the panel athwart, ascending, in x's unit. */
  readonly lines: Float64Array;
  readonly domain: readonly [number, number];
  readonly basis: SplineBasis;
  /** ∫ of products of basis functions. */
  readonly mass: Float64Array;
  readonly athwart: Athwart;
}

/** Knots no farther apart than this share of the panel, and no more of them than `MOST`. */
const FINEST = 32;
const MOST = 64;

/** lines: at least 3, ascending. stations: every station that was read, from which the domain comes. */
export function panelSpace(lines: ArrayLike<number>, stations: Iterable<number>): PanelSpace {
  const y = Float64Array.from(lines);
  const last = y.length - 1;
  const athwart = athwartOf(y.map((v) => (v - y[0]) / (y[last] - y[0])));
  const x = [...new Set(stations)].sort((a, b) => a - b);
  const domain: [number, number] = [x[0], x[x.length - 1]];
  const basis = splineBasis(knotsFor(x.map((v) => (v - domain[0]) / (domain[1] - domain[0]))));
  return { lines: y, domain, basis, mass: massBand(basis), athwart };
}

function knotsFor(stations: readonly number[]): number[] {
  const knots = [0];
  for (let i = 1; i < stations.length; i++) {
    const start = knots[knots.length - 1];
    const to = i === stations.length - 1 ? 1 : stations[i];
    const gap = to - start;
    if (gap < 1e-6) continue;
    const pieces = Math.ceil(gap * FINEST - 1e-9);
    for (let k = 1; k < pieces; k++) knots.push(start + (gap * k) / pieces);
    knots.push(to);
  }
  // Stations of a placement across are worked out, and may stand within rounding of the foremost one.
  knots[knots.length - 1] = 1;
  if (knots.length <= MOST + 1) return knots;
  return Array.from({ length: MOST + 1 }, (_, i) => i / MOST);
}

/** x scaled to 0..1. Throws RangeError outside the domain: nothing is extrapolated. */
export function scaledStation(x: number, [low, high]: readonly [number, number]): number {
  const place = (x - low) / (high - low);
  if (!(place >= -1e-9 && place <= 1 + 1e-9)) {
    throw new RangeError(`x within ${low}..${high} expected, got ${x}: nothing is extrapolated`);
  }
  return Math.min(1, Math.max(0, place));
}

/** Takes coefficients to the height of one line at fixed stations; build once, use for every draw. */
export function lineHeights(
  { basis, domain, lines }: PanelSpace,
  stations: ArrayLike<number>,
): (coefficients: Float64Array, line: number) => Float64Array {
  const n = stations.length;
  const m = lines.length;
  const first = new Int32Array(n);
  const values = new Float64Array(4 * n);
  for (let i = 0; i < n; i++) {
    const place = scaledStation(stations[i], domain);
    first[i] = basis.valuesAt(place, values.subarray(4 * i, 4 * i + 4));
  }
  return (c, line) => {
    const z = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const at = first[i] * m + line;
      const v = 4 * i;
      z[i] =
        values[v] * c[at] +
        values[v + 1] * c[at + m] +
        values[v + 2] * c[at + 2 * m] +
        values[v + 3] * c[at + 3 * m];
    }
    return z;
  };
}
