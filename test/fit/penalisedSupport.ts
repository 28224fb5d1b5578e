import { Accumulator, type NormalEquations } from '../../src/fit/normalEquations.ts';
import { effectiveParameters, penalisedFit, splineAt } from '../../src/fit/penalisedFit.ts';
import { splineBasis, type SplineBasis } from '../../src/fit/splineBasis.ts';

/** Rows of (x, y) as smoothing splines are fitted to them: x scaled to 0..1, a knot at every distinct x,
 *  every row with its own part in the sums. `alter` may change the penalty first. */
export function penalisedOn(
  rows: readonly number[][],
  alter?: (basis: SplineBasis) => void,
  weight = 1,
): { readonly sums: NormalEquations; readonly scaled: (at: number) => number } {
  const x = [...new Set(rows.map((r) => r[0]))].sort((a, b) => a - b);
  const low = x[0];
  const span = x[x.length - 1] - low;
  const scaled = (at: number) => (at - low) / span;
  const basis = splineBasis(x.map(scaled));
  alter?.(basis);
  const sums = new Accumulator(basis, 1);
  for (const [at, y] of rows) sums.add(scaled(at), y, weight, 0);
  return { sums: sums.sums(), scaled };
}

/** A fit's curve at each x, scaled as the sums are. */
export function curve(sums: NormalEquations, penalty: number, x: readonly number[]): Float64Array {
  const fit = penalisedFit(sums, penalty);
  if (!fit.ok) throw new Error(fit.reason);
  return splineAt(sums.basis, fit.coefficients, x);
}

/** Effective parameters and residual squares of a fit that stands. */
export function parametersOf(sums: NormalEquations, penalty: number) {
  const found = effectiveParameters(sums, penalty);
  if ('ok' in found) throw new Error(found.reason);
  return found;
}

/** Largest difference as a share of the reference curve's range. */
export function shareOfRange(found: ArrayLike<number>, reference: readonly number[]): number {
  const range = Math.max(...reference) - Math.min(...reference);
  return Math.max(...reference.map((value, i) => Math.abs(value - found[i]))) / range;
}

/** R's sgram takes 0.3330 for 1/3 where it integrates the square of the second derivative's rise over
 *  a knot interval (from memory of its source). Takes that much off the penalty. */
export function integratedAsInR({ breaks, size, penalty }: SplineBasis): void {
  const last = breaks.length - 1;
  const knot = (i: number) => breaks[Math.min(last, Math.max(0, i - 3))];
  const second = (i: number) => {
    const row = new Float64Array(size);
    const whole = knot(i + 4) - knot(i + 2);
    row[i] = 6 / (whole * (knot(i + 4) - knot(i + 1)));
    row[i + 2] = 6 / (whole * (knot(i + 5) - knot(i + 2)));
    row[i + 1] = -row[i] - row[i + 2];
    return row;
  };
  for (let i = 0; i < last; i++) {
    const aft = second(i);
    const rise = second(i + 1).map((v, j) => v - aft[j]);
    const short = (breaks[i + 1] - breaks[i]) * (1 / 3 - 0.333);
    for (let j = i; j <= i + 3; j++) {
      for (let k = j; k <= i + 3; k++) penalty[4 * j + k - j] -= short * rise[j] * rise[k];
    }
  }
}
