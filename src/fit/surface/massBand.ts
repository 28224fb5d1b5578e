import type { SplineBasis } from '../splineBasis.ts';

/** ∫ of the products of basis functions, as a band: `[4·j + d]` is the entry (j, j + d), d = 0..3.
 *  Four Gauss points a knot interval are exact to degree 7, and the products have degree 6. */
export function massBand(basis: SplineBasis): Float64Array {
  const { breaks, size } = basis;
  const band = new Float64Array(4 * size);
  const values = new Float64Array(4);
  for (let i = 0; i + 1 < breaks.length; i++) {
    const h = breaks[i + 1] - breaks[i];
    for (const [at, weight] of GAUSS) {
      const first = basis.valuesAt(breaks[i] + at * h, values);
      for (let a = 0; a < 4; a++) {
        for (let b = a; b < 4; b++) {
          band[4 * (first + a) + b - a] += weight * h * values[a] * values[b];
        }
      }
    }
  }
  return band;
}

/** Gauss and Legendre's four points on 0..1 with their weights. */
const GAUSS = [-1, 1].flatMap((sign) =>
  [-1, 1].map((other) => {
    const at = Math.sqrt(3 / 7 + (other * 2 * Math.sqrt(6 / 5)) / 7);
    return [(1 + sign * at) / 2, (18 - other * Math.sqrt(30)) / 72] as const;
  }),
);
