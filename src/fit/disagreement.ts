import { cholesky, forward } from './cholesky.ts';
import { dot } from './functionals.ts';
import { chiSquareTail } from './surface/chiSquareTail.ts';
import type { ReadingColumns } from './tied.ts';

/** What the stations that two placements share say of them. */
export interface Comparison {
  readonly ok: true;
  /** Stations that both read, from aft forward. */
  readonly shared: readonly number[];
  readonly chiSquare: number;
  readonly dof: number;
  /** Probability of so much or more where both saw one and the same surface. */
  readonly probability: number;
  /** Where they stand farthest apart, in its own standard uncertainty, when each is given the offset and tilt that brings
   *  them together best; and by how much the second reads more there. */
  readonly at: number;
  readonly apart: number;
  readonly u: number;
}

export interface TooFewShared {
  readonly ok: false;
  readonly reason: 'too few shared stations';
  readonly n: number;
  readonly needed: number;
}

/** Two stations are brought together by an offset and a tilt, whatever was read there. */
export const SHARED_NEEDED = 3;

/** Chi-square test of whether two placements along one line saw one surface: the differences of their gaps at the
 *  stations that both read lie on a straight line, their own offsets and tilts, but for the readings' uncertainty.
 *  Looks of one station in one placement are averaged by their weights. `same`: how near two stations must be to count
 *  as one. `modes`: what may be out by one standard deviation at a station between the two, beside the readings' own
 *  uncertainty, such as a bow of one edge that the other has not.
 *  x, gap, u as for `fitProfile`. Refuses where fewer than three stations are shared.
 *  Source: the sum of squares left by weighted least squares (JCGM 100 has no test; Mikhail & Ackermann (1976),
 *  Observations and Least Squares, from memory). Accuracy: against a dense solution, to 1e-9; false alarms and findings
 *  counted (test/fit/disagreement.test.ts). */
export function compared(
  first: ReadingColumns,
  second: ReadingColumns,
  same: number,
  modes: readonly ((x: number) => number)[] = [],
): Comparison | TooFewShared {
  const [one, other] = [byStation(first, same), byStation(second, same)];
  const shared = [...one.keys()].filter((key) => other.has(key)).sort((a, b) => a - b);
  const n = shared.length;
  if (n < SHARED_NEEDED) {
    return { ok: false, reason: 'too few shared stations', n, needed: SHARED_NEEDED };
  }
  const both = shared.map((key) => {
    const [a, b] = [meanOf(one.get(key)), meanOf(other.get(key))];
    return { x: (a.x + b.x) / 2, apart: b.gap - a.gap, variance: a.variance + b.variance };
  });
  const x = both.map((each) => each.x);
  const bent = modes.map((mode) => x.map(mode));
  const covariance = both.map(({ variance }, i) =>
    Float64Array.from(x, (_, j) =>
      bent.reduce((sum, mode) => sum + mode[i] * mode[j], i === j ? variance : 0),
    ),
  );
  const lower = cholesky(covariance);
  const whitened = (values: readonly number[]) => {
    const out = Float64Array.from(values);
    forward(lower, out);
    return out;
  };
  // Offset and tilt, made orthogonal among the whitened differences.
  const middle = (x[0] + x[n - 1]) / 2;
  const half = (x[n - 1] - x[0]) / 2;
  const offset = unit(whitened(x.map(() => 1)));
  const tilted = whitened(x.map((at) => (at - middle) / half));
  const tilt = unit(less(tilted, offset));
  const rest = less(less(whitened(both.map(({ apart }) => apart)), offset), tilt);
  const chiSquare = dot(rest, rest);
  const dof = n - 2;

  // What is left at a station in the gaps' unit, L·rest, and its covariance, L(I − ooᵀ − ttᵀ)Lᵀ.
  const left = lower.map((row) => dot(row, rest));
  const spread = lower.map((row, i) =>
    Math.sqrt(Math.max(0, covariance[i][i] - dot(row, offset) ** 2 - dot(row, tilt) ** 2)),
  );
  const worst = left.reduce(
    (best, off, i) =>
      Math.abs(off) * spread[best] > Math.abs(left[best]) * spread[i] * (1 + 1e-9) ? i : best,
    0,
  );
  return {
    ok: true,
    shared: x,
    chiSquare,
    dof,
    probability: chiSquareTail(chiSquare, dof),
    at: x[worst],
    apart: left[worst],
    u: spread[worst],
  };
}

interface Sums {
  weight: number;
  x: number;
  gap: number;
}

function byStation({ x, gap, u }: ReadingColumns, same: number): ReadonlyMap<number, Sums> {
  const stations = new Map<number, Sums>();
  for (let i = 0; i < x.length; i++) {
    const key = Math.round(x[i] / same);
    const sums = stations.get(key) ?? { weight: 0, x: 0, gap: 0 };
    const weight = 1 / (u[i] * u[i]);
    sums.weight += weight;
    sums.x += weight * x[i];
    sums.gap += weight * gap[i];
    stations.set(key, sums);
  }
  return stations;
}

function meanOf(sums: Sums | undefined) {
  if (sums === undefined) throw new RangeError('a station that both read expected');
  return { x: sums.x / sums.weight, gap: sums.gap / sums.weight, variance: 1 / sums.weight };
}

function unit(values: Float64Array): Float64Array {
  const size = Math.sqrt(dot(values, values));
  return values.map((value) => value / size);
}

/** What is left of values when their part along a unit vector is taken off. */
function less(values: Float64Array, along: Float64Array): Float64Array {
  const part = dot(values, along);
  return values.map((value, i) => value - part * along[i]);
}
