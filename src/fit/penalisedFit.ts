import { factor, solveBackward, solveForward, type ArrowFactor } from './arrowSystem.ts';
import type { NormalEquations } from './normalEquations.ts';

/** The spline that minimises Σ w (y − z)² + penalty · ∫ z''². */
export interface PenalisedFit {
  readonly ok: true;
  /** Spline coefficients, then (offset, tilt) of each placement after the first. */
  readonly coefficients: Float64Array;
  /** Σ w (y − z)² + penalty · ∫ z''² at the minimum. */
  readonly penalisedSquares: number;
  readonly factor: ArrowFactor;
}

export interface PenalisedRefusal {
  readonly ok: false;
  readonly reason: 'not determined';
}

/** Solves for one penalty ≥ 0. `bending`: the band of ∫ z''², or of one that counts some places less. Refuses where the
 *  readings do not determine every unknown (too few stations, or a placement that nothing ties to the others).
 *  Accuracy: R's smooth.spline on `cars` to 1e-4, scipy's make_smoothing_spline to 1e-8
 *  (test/fit/penalisedFit.test.ts). Source: O'Sullivan (1986), Statistical Science 1, 502–527. */
export function penalisedFit(
  sums: NormalEquations,
  penalty: number,
  bending: Float64Array = sums.basis.penalty,
): PenalisedFit | PenalisedRefusal {
  if (!(penalty >= 0)) throw new RangeError(`penalty of 0 or more expected, got ${penalty}`);
  const { matrix, right } = sums;
  const band = new Float64Array(matrix.band.length);
  for (let i = 0; i < band.length; i++) band[i] = matrix.band[i] + penalty * bending[i];
  const found = factor({ ...matrix, band }, band);
  if (!found) return { ok: false, reason: 'not determined' };
  const half = new Float64Array(right);
  solveForward(found, half);
  let explained = 0;
  for (const value of half) explained += value * value;
  solveBackward(found, half);
  return {
    ok: true,
    coefficients: half,
    penalisedSquares: Math.max(0, sums.sumSquares - explained),
    factor: found,
  };
}

/** Effective number of parameters, trace of (BᵀWB + penalty·Ω)⁻¹ BᵀWB, and Σ w (y − z)²,
 *  for generalised cross-validation. One placement only; cost grows with the square of the knots. */
export function effectiveParameters(
  sums: NormalEquations,
  penalty: number,
): { readonly parameters: number; readonly squares: number } | PenalisedRefusal {
  const fit = penalisedFit(sums, penalty);
  if (!fit.ok) return fit;
  const { size, band } = sums.matrix;
  let parameters = 0;
  for (let j = 0; j < size; j++) {
    const column = bandColumn(band, size, j);
    solveForward(fit.factor, column);
    solveBackward(fit.factor, column);
    parameters += column[j];
  }
  const c = fit.coefficients;
  let quadratic = 0;
  let linear = 0;
  for (let j = 0; j < size; j++) {
    linear += c[j] * sums.right[j];
    for (let d = 0; d < 4 && j + d < size; d++) {
      quadratic += (d === 0 ? 1 : 2) * band[4 * j + d] * c[j] * c[j + d];
    }
  }
  return { parameters, squares: Math.max(0, sums.sumSquares - 2 * linear + quadratic) };
}

function bandColumn(band: Float64Array, size: number, j: number): Float64Array {
  const column = new Float64Array(size);
  for (let i = Math.max(0, j - 3); i <= Math.min(size - 1, j + 3); i++) {
    column[i] = band[4 * Math.min(i, j) + Math.abs(i - j)];
  }
  return column;
}

/** z at each x of a fit's spline. */
export function splineAt(
  basis: NormalEquations['basis'],
  coefficients: Float64Array,
  x: ArrayLike<number>,
): Float64Array {
  const values = new Float64Array(4);
  return Float64Array.from(x, (at) => {
    const first = basis.valuesAt(at, values);
    let z = 0;
    for (let a = 0; a < 4; a++) z += values[a] * coefficients[first + a];
    return z;
  });
}
