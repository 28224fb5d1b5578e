import type { Profile } from './posterior.ts';
import { row } from './row.ts';
import type { SplineBasis } from './splineBasis.ts';

/** Takes coefficients to heights at fixed places; build once, use for every draw. */
export function heightsAt(
  { basis, domain }: Pick<Profile, 'basis' | 'domain'>,
  places: ArrayLike<number>,
): (coefficients: Float64Array) => Float64Array {
  const n = places.length;
  const first = new Int32Array(n);
  const values = new Float64Array(4 * n);
  for (let i = 0; i < n; i++)
    first[i] = basis.valuesAt(scaled(places[i], domain), values.subarray(4 * i, 4 * i + 4));
  return (c) => {
    const z = row(n);
    for (let i = 0, v = 0; i < n; i++, v += 4) {
      const j = first[i];
      z[i] =
        values[v] * c[j] +
        values[v + 1] * c[j + 1] +
        values[v + 2] * c[j + 2] +
        values[v + 3] * c[j + 3];
    }
    return z;
  };
}

/** Weights on the coefficients that give the least-squares slope of the profile from p to q,
 *  taken over the whole stretch and not at sample points: 12/(q−p)³ ∫ (x − middle) z dx, exact
 *  for splines. In z-unit per x-unit. Throws RangeError on a stretch outside the domain. */
export function slopeWeights(
  { basis, domain }: Pick<Profile, 'basis' | 'domain'>,
  p: number,
  q: number,
): Float64Array {
  if (!(q > p)) throw new RangeError(`a stretch expected, got ${p} to ${q}`);
  const weights = momentWeights(basis, scaled(p, domain), scaled(q, domain));
  const span = domain[1] - domain[0];
  return weights.map((w) => w / span);
}

/** Slope weights in x scaled to 0..1. Three Gauss points a knot interval are exact to degree 5. */
function momentWeights(basis: SplineBasis, p: number, q: number): Float64Array {
  const middle = (p + q) / 2;
  const scale = 12 / (q - p) ** 3;
  const out = new Float64Array(basis.size);
  const values = new Float64Array(4);
  const node = Math.sqrt(3 / 5) / 2;
  const rule = [
    [0.5 - node, 5 / 18],
    [0.5, 8 / 18],
    [0.5 + node, 5 / 18],
  ] as const;
  for (let i = 0; i + 1 < basis.breaks.length; i++) {
    const a = Math.max(p, basis.breaks[i]);
    const b = Math.min(q, basis.breaks[i + 1]);
    if (b <= a) continue;
    for (const [at, weight] of rule) {
      const x = a + at * (b - a);
      const first = basis.valuesAt(x, values);
      const factor = scale * weight * (b - a) * (x - middle);
      for (let k = 0; k < 4; k++) out[first + k] += factor * values[k];
    }
  }
  return out;
}

/** `first`: where one of them stops being 0. */
export function dot(a: Float64Array, b: Float64Array, first = 0): number {
  let sum = 0;
  for (let i = first; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

function scaled(x: number, [low, high]: readonly [number, number]): number {
  const s = (x - low) / (high - low);
  if (!(s >= -1e-9 && s <= 1 + 1e-9)) {
    throw new RangeError(`x within ${low}..${high} expected, got ${x}: nothing is extrapolated`);
  }
  return Math.min(1, Math.max(0, s));
}
