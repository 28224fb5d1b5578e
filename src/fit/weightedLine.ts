import { checkPairs, rangeOf } from './pairs.ts';
import type { LineRefusal } from './line.ts';

/** A straight line through points whose standard uncertainties are known: y = level + slope·(x − centre).
 *  About `centre`, the weighted mean of x, level and slope are not correlated. */
export interface WeightedLine {
  readonly ok: true;
  readonly slope: number;
  readonly level: number;
  readonly centre: number;
  /** Standard uncertainties from those of the points alone. */
  readonly slopeUncertainty: number;
  readonly levelUncertainty: number;
  readonly n: number;
  readonly dof: number;
  /** Σ (residual/u)²: about `dof` where the points stand off the line no more than they should. */
  readonly chiSquare: number;
  /** √(χ²/dof): how many times farther off the line the points stand than their uncertainties say.
   *  Absent where no degree of freedom is left. */
  readonly birgeRatio?: number;
  readonly domain: readonly [number, number];
}

/** Weighted least-squares line through points of known uncertainty.
 *  x, y, u: same length n ≥ 2, finite, u positive; u in y's unit. Slope in y-unit per x-unit.
 *  Throws RangeError on unequal lengths, values that are not finite, or u not positive; refuses fewer than 2
 *  points, and returns `degenerate` when all x coincide.
 *  Accuracy: GUM H.3 to every printed digit, scipy's curve_fit with absolute_sigma to 9 digits
 *  (test/fit/weightedLine.test.ts). Source: JCGM 100:2008 (GUM), H.3, with weights 1/u²; the ratio after
 *  Birge (1932), Phys. Rev. 40, 207. */
export function fitWeightedLine(
  x: readonly number[],
  y: readonly number[],
  u: readonly number[],
): WeightedLine | LineRefusal {
  checkPairs(x, y);
  checkPairs(x, u);
  const bad = u.find((value) => !(value > 0));
  if (bad !== undefined) throw new RangeError(`positive uncertainties expected, got ${bad}`);
  const n = x.length;
  if (n < 2) return { ok: false, reason: 'too few readings', n, needed: 2 };
  const weights = u.map((value) => 1 / (value * value));
  const total = sum(weights);
  const centre = sum(x.map((value, i) => weights[i] * value)) / total;
  const level = sum(y.map((value, i) => weights[i] * value)) / total;
  const sxx = sum(x.map((value, i) => weights[i] * (value - centre) ** 2));
  const domain = rangeOf(x);
  const scale = Math.max(Math.abs(domain[0]), Math.abs(domain[1]));
  if (sxx <= total * (scale * 1e-14) ** 2) {
    return { ok: false, reason: 'degenerate', n, needed: 2 };
  }
  const slope = sum(x.map((value, i) => weights[i] * (value - centre) * (y[i] - level))) / sxx;
  const chiSquare = sum(
    x.map((value, i) => weights[i] * (y[i] - level - slope * (value - centre)) ** 2),
  );
  const dof = n - 2;
  return {
    ok: true,
    slope,
    level,
    centre,
    slopeUncertainty: 1 / Math.sqrt(sxx),
    levelUncertainty: 1 / Math.sqrt(total),
    n,
    dof,
    chiSquare,
    ...(dof > 0 && { birgeRatio: Math.sqrt(chiSquare / dof) }),
    domain,
  };
}

/** By how much the uncertainties of a line are to be widened: its Birge ratio where that is above 1, since points
 *  that stand farther off the line than they should make it less sure; never narrowed. */
export function widening({ birgeRatio }: WeightedLine): number {
  return birgeRatio === undefined ? 1 : Math.max(1, birgeRatio);
}

/** The line at x and the standard uncertainty of that value (no new-observation term), as the points'
 *  uncertainties alone give it. */
export function weightedLineAt(
  fit: WeightedLine,
  x: number,
): { readonly y: number; readonly u: number } {
  const off = x - fit.centre;
  return {
    y: fit.level + fit.slope * off,
    u: Math.hypot(fit.levelUncertainty, off * fit.slopeUncertainty),
  };
}

/** Where the line reaches a height, as the stretch of x at which that height lies within k standard uncertainties of
 *  the line; uncertainties widened by the caller's factor, which is in k. `unbounded` where the slope lies within k
 *  of 0: then no finite stretch can be given.
 *  Source: Fieller (1954), J. R. Statist. Soc. B 16, 175. */
export function reaches(
  fit: WeightedLine,
  height: number,
  k: number,
): { readonly ok: true; readonly from: number; readonly to: number } | { readonly ok: false } {
  const { slope, level, centre, slopeUncertainty, levelUncertainty } = fit;
  const rise = height - level;
  const a = slope * slope - (k * slopeUncertainty) ** 2;
  if (!(a > 0)) return { ok: false };
  const c = rise * rise - (k * levelUncertainty) ** 2;
  const root = Math.sqrt(Math.max(0, (slope * rise) ** 2 - a * c));
  return {
    ok: true,
    from: centre + (slope * rise - root) / a,
    to: centre + (slope * rise + root) / a,
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
