import { cholesky, solved } from '../cholesky.ts';

/** Takes heights at fixed places of a panel and takes their best plane off in place; `twist`: the best twist (x·y) too.
 *  Weighted least squares; x, y and weights of one length, weights 0 where a place does not count. */
export function bestPlane(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  weights: ArrayLike<number>,
  twist: boolean,
): (z: Float64Array) => void {
  const n = x.length;
  const [mx, my] = [centre(x, weights), centre(y, weights)];
  const [sx, sy] = [reach(x, mx), reach(y, my)];
  const terms = Array.from({ length: twist ? 4 : 3 }, () => new Float64Array(n));
  for (let i = 0; i < n; i++) {
    const [a, b] = [(x[i] - mx) / sx, (y[i] - my) / sy];
    [1, a, b, a * b].slice(0, terms.length).forEach((v, t) => (terms[t][i] = v));
  }
  const lower = cholesky(
    terms.map((p) =>
      Float64Array.from(terms, (q) => {
        let sum = 0;
        for (let i = 0; i < n; i++) sum += weights[i] * p[i] * q[i];
        return sum;
      }),
    ),
  );
  return (z) => {
    const right = Float64Array.from(terms, (p) => {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += weights[i] * p[i] * z[i];
      return sum;
    });
    const found = solved(lower, right);
    for (let i = 0; i < n; i++) {
      for (let t = 0; t < terms.length; t++) z[i] -= found[t] * terms[t][i];
    }
  };
}

function centre(v: ArrayLike<number>, weights: ArrayLike<number>): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < v.length; i++) {
    sum += weights[i] * v[i];
    total += weights[i];
  }
  return sum / total;
}

function reach(v: ArrayLike<number>, middle: number): number {
  let most = 0;
  for (let i = 0; i < v.length; i++) most = Math.max(most, Math.abs(v[i] - middle));
  return most;
}
