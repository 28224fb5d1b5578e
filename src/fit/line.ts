import { linearRegression, mean } from 'simple-statistics';
import { checkPairs, rangeOf } from './pairs.ts';

/** A fitted straight line y = intercept + slope·x with its covariance. */
export interface LineFit {
  readonly ok: true;
  readonly slope: number;
  readonly intercept: number;
  readonly n: number;
  readonly dof: number;
  /** Residual standard deviation, in y's unit; absent when no degree of freedom is left. */
  readonly residualDeviation?: number;
  /** Standard deviations of slope and intercept and their correlation, from the residuals. */
  readonly slopeDeviation?: number;
  readonly interceptDeviation?: number;
  readonly correlation: number;
  readonly domain: readonly [number, number];
}

/** Why a line cannot be fitted: the data's fault, not the caller's. */
export interface LineRefusal {
  readonly ok: false;
  readonly reason: 'too few readings' | 'degenerate';
  readonly n: number;
  readonly needed: number;
}

/** Least-squares line with its covariance.
 *  x, y: same length n ≥ 2, finite. Slope in y-unit per x-unit.
 *  Throws RangeError on unequal lengths or a value that is not finite; refuses fewer than 2 readings,
 *  and returns `degenerate` when all x coincide.
 *  Accuracy: NIST StRD Norris to 12 digits, GUM H.3 to every printed digit (test/fit/line.test.ts).
 *  Source: JCGM 100:2008 (GUM), H.3.2 to H.3.4; the estimates themselves are simple-statistics'. */
export function fitLine(x: readonly number[], y: readonly number[]): LineFit | LineRefusal {
  checkPairs(x, y);
  const n = x.length;
  if (n < 2) return { ok: false, reason: 'too few readings', n, needed: 2 };
  const centre = mean(x);
  let sxx = 0;
  for (const value of x) sxx += (value - centre) ** 2;
  const domain = rangeOf(x);
  const scale = Math.max(Math.abs(domain[0]), Math.abs(domain[1]));
  if (sxx <= n * (scale * 1e-14) ** 2) return { ok: false, reason: 'degenerate', n, needed: 2 };

  const { m: slope, b: intercept } = linearRegression(x.map((value, i) => [value - centre, y[i]]));
  const atZero = intercept - slope * centre;
  let rss = 0;
  x.forEach((value, i) => (rss += (y[i] - intercept - slope * (value - centre)) ** 2));
  const dof = n - 2;
  const interceptFactor = Math.sqrt(1 / n + (centre * centre) / sxx);
  const correlation = -centre / Math.sqrt(sxx) / interceptFactor;
  if (dof === 0) return { ok: true, slope, intercept: atZero, n, dof, correlation, domain };
  const residualDeviation = Math.sqrt(rss / dof);
  return {
    ok: true,
    slope,
    intercept: atZero,
    n,
    dof,
    residualDeviation,
    slopeDeviation: residualDeviation / Math.sqrt(sxx),
    interceptDeviation: residualDeviation * interceptFactor,
    correlation,
    domain,
  };
}

/** The fitted line at x, and the standard uncertainty of that fitted value (no new-observation term).
 *  The uncertainty is absent where the line left no degree of freedom. */
export function lineAt(fit: LineFit, x: number): { readonly y: number; readonly u?: number } {
  const y = fit.intercept + fit.slope * x;
  if (fit.slopeDeviation === undefined || fit.interceptDeviation === undefined) return { y };
  const { slopeDeviation: us, interceptDeviation: ui } = fit;
  return { y, u: Math.sqrt(ui * ui + x * x * us * us + 2 * x * us * ui * fit.correlation) };
}

/** Least-squares line through the origin, y = slope·x.
 *  x, y: same length n ≥ 1, finite; `degenerate` when every x is 0.
 *  Accuracy: NIST StRD NoInt1 and NoInt2 to 12 digits (test/fit/line.test.ts). */
export function fitProportional(
  x: readonly number[],
  y: readonly number[],
):
  | {
      readonly ok: true;
      readonly slope: number;
      readonly n: number;
      readonly dof: number;
      readonly residualDeviation?: number;
      readonly slopeDeviation?: number;
    }
  | LineRefusal {
  checkPairs(x, y);
  const n = x.length;
  if (n < 1) return { ok: false, reason: 'too few readings', n, needed: 1 };
  let sxx = 0;
  let sxy = 0;
  x.forEach((value, i) => {
    sxx += value * value;
    sxy += value * y[i];
  });
  if (sxx === 0) return { ok: false, reason: 'degenerate', n, needed: 1 };
  const slope = sxy / sxx;
  const dof = n - 1;
  if (dof === 0) return { ok: true, slope, n, dof };
  let rss = 0;
  x.forEach((value, i) => (rss += (y[i] - slope * value) ** 2));
  const residualDeviation = Math.sqrt(rss / dof);
  return {
    ok: true,
    slope,
    n,
    dof,
    residualDeviation,
    slopeDeviation: residualDeviation / Math.sqrt(sxx),
  };
}
