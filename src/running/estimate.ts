import { normalTail } from '../fit/normalTail.ts';

/** A figure as a person knows it: as it is, or between bounds, perhaps with a value thought likeliest. */
export type Estimate =
  | { readonly value: number }
  | { readonly low: number; readonly high: number; readonly likeliest?: number }
  /** A figure with a standard uncertainty, from elsewhere: taken as normal. */
  | { readonly value: number; readonly u: number };

/** Expectation of an estimate. Bounds alone are rectangular, with a likeliest value triangular.
 *  Throws RangeError where bounds stand the wrong way about or the likeliest outside them, or a figure is not finite.
 *  Source: JCGM 100:2008 (GUM), 4.3.7 and 4.3.9; a triangle leaning to one side: mean (a + b + c) / 3. */
export function expected(estimate: Estimate): number {
  check(estimate);
  if ('value' in estimate) return estimate.value;
  const { low, high, likeliest } = estimate;
  return likeliest === undefined ? (low + high) / 2 : (low + high + likeliest) / 3;
}

/** Standard uncertainty of an estimate, 0 for a figure given as it is. Half-width a: a/√3 rectangular, a/√6 triangular
 *  (GUM 4.3.7, 4.3.9); leaning: √((a² + b² + c² − ab − ac − bc) / 18). */
export function uncertainty(estimate: Estimate): number {
  check(estimate);
  if ('value' in estimate) return 'u' in estimate ? estimate.u : 0;
  const { low: a, high: b, likeliest: c } = estimate;
  if (c === undefined) return (b - a) / Math.sqrt(12);
  return Math.sqrt(((b - a) ** 2 + (c - a) ** 2 + (b - c) ** 2) / 36);
}

/** The value of an estimate that a standard normal number stands for: its quantile at the same probability. */
export function drawn(estimate: Estimate, z: number): number {
  check(estimate);
  if ('value' in estimate)
    return 'u' in estimate ? estimate.value + z * estimate.u : estimate.value;
  const { low, high, likeliest } = estimate;
  const p = 1 - normalTail(z);
  if (likeliest === undefined || high === low) return low + p * (high - low);
  const turn = (likeliest - low) / (high - low);
  return p <= turn
    ? low + Math.sqrt(p * (high - low) * (likeliest - low))
    : high - Math.sqrt((1 - p) * (high - low) * (high - likeliest));
}

function check(estimate: Estimate): void {
  for (const [name, figure] of Object.entries<number>(estimate)) {
    if (!Number.isFinite(figure)) throw new RangeError(`a finite ${name} expected, got ${figure}`);
  }
  if ('value' in estimate) {
    if ('u' in estimate && estimate.u < 0)
      throw new RangeError(`u of 0 or more expected, got ${estimate.u}`);
    return;
  }
  const { low, high, likeliest = low } = estimate;
  if (!(low <= likeliest && likeliest <= high)) {
    throw new RangeError(`bounds in order expected, got ${low}, ${likeliest}, ${high}`);
  }
}
