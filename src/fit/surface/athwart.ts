import { cholesky, solved } from '../cholesky.ts';

/** How a panel behaves between its lines: what is asked of lines at ascending places 0..1 across it. */
export interface Athwart {
  readonly places: Float64Array;
  /** Penalty ∫ (second derivative)² of the natural cubic spline through values at the lines: symmetric, and none for
   *  values on a straight line. */
  readonly penalty: readonly Float64Array[];
  /** Weights on the lines' values that give that spline at a place 0..1. */
  weightsAt(place: number): Float64Array;
  /** Variance, at a place, of an integrated Wiener process of scale 1 whose values at the lines are known. */
  openAt(place: number): number;
}

/** Lines at `places`: at least 3, ascending, the first 0 and the last 1.
 *  Source: Green & Silverman (1994), Nonparametric Regression and Generalized Linear Models, 2.1 (the matrices Q and R);
 *  Wahba (1978), J. R. Statist. Soc. B 40, 364 (the process whose mean that spline is). */
export function athwartOf(given: ArrayLike<number>): Athwart {
  const places = Float64Array.from(given);
  const m = places.length;
  if (m < 3) throw new RangeError(`at least 3 lines expected, got ${m}`);
  for (let i = 0; i < m; i++) {
    if (i > 0 && !(places[i] > places[i - 1])) {
      throw new RangeError('lines in ascending places expected');
    }
  }
  const step = (i: number) => places[i + 1] - places[i];
  const inner = m - 2;
  const q = Array.from({ length: inner }, (_, k) => {
    const row = new Float64Array(m);
    row[k] = 1 / step(k);
    row[k + 1] = -1 / step(k) - 1 / step(k + 1);
    row[k + 2] = 1 / step(k + 1);
    return row;
  });
  const r = Array.from({ length: inner }, (_, k) => {
    const row = new Float64Array(inner);
    row[k] = (step(k) + step(k + 1)) / 3;
    if (k > 0) row[k - 1] = step(k) / 6;
    if (k + 1 < inner) row[k + 1] = step(k + 1) / 6;
    return row;
  });
  const lower = cholesky(r);
  // Second derivatives at the inner lines, for a unit value at each line.
  const bends = Array.from({ length: m }, (_, i) =>
    solved(
      lower,
      Float64Array.from(q, (row) => row[i]),
    ),
  );
  const penalty = Array.from({ length: m }, (_, i) =>
    Float64Array.from({ length: m }, (_, j) =>
      q.reduce((sum, row, k) => sum + row[i] * bends[j][k], 0),
    ),
  );
  const weightsAt = (place: number): Float64Array => {
    let k = 0;
    while (k + 2 < m && place > places[k + 1]) k++;
    const h = step(k);
    const fore = (place - places[k]) / h;
    const aft = 1 - fore;
    return Float64Array.from({ length: m }, (_, i) => {
      const bend = (line: number) => (line > 0 && line < m - 1 ? bends[i][line - 1] : 0);
      const plain = (i === k ? aft : 0) + (i === k + 1 ? fore : 0);
      return plain + (((aft ** 3 - aft) * bend(k) + (fore ** 3 - fore) * bend(k + 1)) * h * h) / 6;
    });
  };
  return {
    places,
    penalty,
    weightsAt,
    openAt(place) {
      // |s − t|³/12 is the process's covariance up to straight lines, which the weights leave nothing of.
      const weights = weightsAt(place);
      let open = 0;
      for (let i = 0; i < m; i++) {
        open -= (weights[i] * Math.abs(place - places[i]) ** 3) / 6;
        for (let j = 0; j < m; j++) {
          open += (weights[i] * weights[j] * Math.abs(places[i] - places[j]) ** 3) / 12;
        }
      }
      return Math.max(0, open);
    },
  };
}
