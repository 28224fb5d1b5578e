/** Cubic B-splines on a fixed knot set, clamped at both ends: the space in which profiles live. */
export interface SplineBasis {
  /** Distinct knots, ascending: the ends of the domain and the breaks between. */
  readonly breaks: Float64Array;
  /** How many basis functions: breaks + 2. */
  readonly size: number;
  /** The four basis functions that are not zero at x: writes their values into `out`,
   *  returns the index of the first. x outside the domain throws RangeError. */
  valuesAt(x: number, out: Float64Array): number;
  /** Second derivative at break i: the sum of `bends[3·i + a]` times coefficient i + a, a = 0..2. */
  readonly bends: Float64Array;
  /** Penalty ∫ (second derivative)² as a band: `penalty[4·j + d]` is the entry (j, j + d), d = 0..3. */
  readonly penalty: Float64Array;
  /** The same with each piece between two knots counted so many times. */
  penaltyWith(pieces: Float64Array): Float64Array;
}

/** Basis on the given breaks: at least 2, strictly ascending, finite.
 *  The second derivative of such a spline is a broken line; its integrated square is computed
 *  exactly from that broken line's values at the breaks.
 *  Source: de Boor, A Practical Guide to Splines (1978), ch. IX and X; O'Sullivan (1986), Statistical Science 1, 502. */
export function splineBasis(breaksGiven: ArrayLike<number>): SplineBasis {
  const breaks = Float64Array.from(breaksGiven);
  const m = breaks.length;
  if (m < 2) throw new RangeError(`at least 2 knots expected, got ${m}`);
  for (let i = 0; i < m; i++) {
    if (!Number.isFinite(breaks[i]) || (i > 0 && !(breaks[i] > breaks[i - 1]))) {
      throw new RangeError(`strictly ascending finite knots expected, got ${breaks[i]} at ${i}`);
    }
  }
  const size = m + 2;
  const first = breaks[0];
  const last = breaks[m - 1];
  const knots = new Float64Array(m + 6);
  knots.fill(first, 0, 3);
  knots.set(breaks, 3);
  knots.fill(last, m + 3);

  const spanOf = (x: number): number => {
    let low = 0;
    let high = m - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (x < breaks[middle]) high = middle;
      else low = middle;
    }
    return low;
  };
  const left = new Float64Array(4);
  const right = new Float64Array(4);
  const bends = bendsOf(knots, m);

  return {
    breaks,
    size,
    bends,
    penalty: penaltyBand(bends, breaks, size),
    penaltyWith: (pieces) => penaltyBand(bends, breaks, size, pieces),
    valuesAt(x, out) {
      if (!(x >= first && x <= last)) {
        throw new RangeError(`x within ${first}..${last} expected, got ${x}`);
      }
      const span = spanOf(x);
      const k = span + 3;
      out[0] = 1;
      for (let degree = 1; degree <= 3; degree++) {
        left[degree] = x - knots[k + 1 - degree];
        right[degree] = knots[k + degree] - x;
        let saved = 0;
        for (let r = 0; r < degree; r++) {
          const part = out[r] / (right[r + 1] + left[degree - r]);
          out[r] = saved + right[r + 1] * part;
          saved = left[degree - r] * part;
        }
        out[degree] = saved;
      }
      return span;
    },
  };
}

function bendsOf(knots: Float64Array, m: number): Float64Array {
  const rows = new Float64Array(3 * m);
  for (let i = 0; i < m; i++) {
    const whole = knots[i + 4] - knots[i + 2];
    const before = knots[i + 4] - knots[i + 1];
    const after = knots[i + 5] - knots[i + 2];
    rows[3 * i] = 6 / (whole * before);
    rows[3 * i + 2] = 6 / (whole * after);
    rows[3 * i + 1] = -rows[3 * i] - rows[3 * i + 2];
  }
  return rows;
}

/** Dᵀ M D, where D takes coefficients to the second derivative at the breaks and M integrates the product of two
 *  broken lines; each piece is counted `pieces` times. Of a piece both ends' second derivatives, p and q, are sums over four
 *  coefficients, and what it adds is its length times (2·pp + 2·qq + pq + qp)/6. */
function penaltyBand(
  rows: Float64Array,
  breaks: Float64Array,
  size: number,
  pieces?: Float64Array,
): Float64Array {
  const band = new Float64Array(4 * size);
  const p = new Float64Array(4);
  const q = new Float64Array(4);
  for (let i = 0; i < breaks.length - 1; i++) {
    const sixth = ((breaks[i + 1] - breaks[i]) * (pieces ? pieces[i] : 1)) / 6;
    for (let a = 0; a < 3; a++) {
      p[a] = rows[3 * i + a];
      q[a + 1] = rows[3 * i + 3 + a];
    }
    for (let a = 0; a < 4; a++) {
      for (let b = a; b < 4; b++) {
        const sum = 2 * (p[a] * p[b] + q[a] * q[b]) + p[a] * q[b] + q[a] * p[b];
        band[4 * (i + a) + b - a] += sixth * sum;
      }
    }
  }
  return band;
}
