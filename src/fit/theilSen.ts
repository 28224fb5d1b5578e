import { median } from 'simple-statistics';
import { kendallScores, upperTail } from './kendallScores.ts';
import { EXACT_TO, mannKendall, tieSizes } from './mannKendall.ts';
import { normalQuantile } from './normalQuantile.ts';
import { checkPairs } from './pairs.ts';

/** The median of the slopes between all pairs of points. */
export interface TheilSen {
  readonly ok: true;
  readonly slope: number;
  /** Median of y − slope·x. */
  readonly intercept: number;
  readonly n: number;
  /** Pairs of points that differ in x. */
  readonly pairs: number;
  /** Slopes that the Mann-Kendall test would not refuse. Absent where so few points allow no such interval at
   *  this confidence: 5 are needed for 95 %. */
  readonly interval?: readonly [number, number];
  /** Probability that the interval covers the slope: at least the confidence asked for where it is exact. */
  readonly coverage?: number;
}

export interface TheilSenRefusal {
  readonly ok: false;
  readonly reason: 'too few readings' | 'degenerate';
  readonly n: number;
  readonly needed: number;
}

/** Theil-Sen slope with the interval that the Mann-Kendall test gives.
 *  x, y: same length n ≥ 2, finite; slope in y-unit per x-unit. `confidence` within 0..1.
 *  The interval is exact where all x differ and n ≤ 40; else by the normal approximation, ranks rounded to the
 *  nearest.
 *  Throws RangeError on unequal lengths or values that are not finite, or on a confidence outside 0..1; refuses fewer
 *  than 2 points, and returns `degenerate` where all x coincide.
 *  Accuracy: scipy's theilslopes to 12 digits (test/fit/theilSen.test.ts).
 *  Source: Sen (1968), J. Am. Statist. Assoc. 63, 1379; Hollander, Wolfe and Chicken, Nonparametric Statistical
 *  Methods, 9.3 (exact interval); Gilbert (1987), 16.5 (normal approximation). */
export function theilSen(
  x: readonly number[],
  y: readonly number[],
  confidence = 0.95,
): TheilSen | TheilSenRefusal {
  checkPairs(x, y);
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(`a confidence between 0 and 1 expected, got ${confidence}`);
  }
  const n = x.length;
  if (n < 2) return { ok: false, reason: 'too few readings', n, needed: 2 };
  const slopes: number[] = [];
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      if (x[i] !== x[j]) slopes.push((y[j] - y[i]) / (x[j] - x[i]));
    }
  }
  if (slopes.length === 0) return { ok: false, reason: 'degenerate', n, needed: 2 };
  slopes.sort((a, b) => a - b);
  const slope = median(slopes);
  const common = {
    ok: true as const,
    slope,
    intercept: median(x.map((value, i) => y[i] - slope * value)),
    n,
    pairs: slopes.length,
  };
  const left = leftOut(x, y, slopes.length, 1 - confidence);
  if (left === undefined) return common;
  const interval = [slopes[left.low], slopes[left.high]] as const;
  return { ...common, interval, ...(left.coverage !== undefined && { coverage: left.coverage }) };
}

/** Places of the interval's ends among the ascending slopes. */
function leftOut(
  x: readonly number[],
  y: readonly number[],
  pairs: number,
  risk: number,
): { readonly low: number; readonly high: number; readonly coverage?: number } | undefined {
  const n = x.length;
  const test = mannKendall(x, y);
  if (!test.ok) return undefined;
  if (n <= EXACT_TO && tieSizes(x).length === n) {
    // As many slopes are left out at each end as leave a score that is out of the ordinary at this risk.
    const { scores, least } = kendallScores(x.map(() => 1));
    let out = -1;
    let tail = 0;
    for (let k = 0; 2 * k < pairs; k++) {
      const missed = upperTail(scores, least, pairs - 2 * k);
      if (missed > risk / 2) break;
      out = k;
      tail = missed;
    }
    if (out < 0) return undefined;
    return { low: out, high: pairs - 1 - out, coverage: 1 - 2 * tail };
  }
  const reach = normalQuantile(1 - risk / 2) * Math.sqrt(test.variance);
  const low = Math.max(0, Math.round((pairs - reach) / 2) - 1);
  const high = Math.min(pairs - 1, Math.round((pairs + reach) / 2));
  return { low, high };
}
