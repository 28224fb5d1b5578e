import { checkPairs } from './pairs.ts';
import { kendallScores, upperTail } from './kendallScores.ts';
import { normalTail } from './normalTail.ts';

/** Whether y rises or falls with x, by order alone. */
export interface MannKendall {
  readonly ok: true;
  /** Pairs that rise less pairs that fall; ties, in x or in y, count for neither. */
  readonly s: number;
  readonly n: number;
  /** Kendall's tau-b: s over the geometric mean of the pairs that differ in x and those that differ in y. */
  readonly tau: number;
  /** Variance of s where there is no trend. */
  readonly variance: number;
  /** Probability, without a trend, of an s at least as far from 0 as this one. */
  readonly twoSided: number;
  readonly from: 'exact distribution' | 'normal approximation';
}

export interface MannKendallRefusal {
  readonly ok: false;
  readonly reason: 'too few readings' | 'all alike';
  readonly n: number;
  readonly needed: number;
}

/** Up to this many points the null distribution is summed exactly. */
export const EXACT_TO = 40;

/** Fewest points of which any order is out of the ordinary at 95 % (two-sided): 5 give 2/120, 4 only 2/24. */
export const SURVEYS_FOR_RANKS = 5;

/** The Mann-Kendall test, ties allowed in y and in x.
 *  x, y: same length, finite. The p-value is exact where all x differ and n ≤ 40, with ties in y or not; else normal
 *  with the variance corrected for ties and a continuity correction of 1.
 *  Throws RangeError on unequal lengths or values that are not finite; refuses fewer than 3 points, and x or y that
 *  never differ.
 *  Accuracy: the exact null table of Kendall and scipy's kendalltau (test/fit/mannKendall.test.ts).
 *  Source: Mann (1945), Econometrica 13, 245; Kendall (1975), Rank Correlation Methods, 4th ed., 4.9 and 5.1;
 *  Gilbert (1987), Statistical Methods for Environmental Pollution Monitoring, 16.4. */
export function mannKendall(
  x: readonly number[],
  y: readonly number[],
): MannKendall | MannKendallRefusal {
  checkPairs(x, y);
  const n = x.length;
  if (n < 3) return { ok: false, reason: 'too few readings', n, needed: 3 };
  let s = 0;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) s += Math.sign(x[j] - x[i]) * Math.sign(y[j] - y[i]);
  }
  const tiesX = tieSizes(x);
  const tiesY = tieSizes(y);
  const pairs = (n * (n - 1)) / 2;
  const differX = pairs - tiedPairs(tiesX);
  const differY = pairs - tiedPairs(tiesY);
  if (differX === 0 || differY === 0) return { ok: false, reason: 'all alike', n, needed: 3 };
  const variance = varianceOf(n, tiesX, tiesY);
  const common = { ok: true as const, s, n, tau: s / Math.sqrt(differX * differY), variance };
  if (n <= EXACT_TO && differX === pairs) {
    const { scores, least } = kendallScores(tiesY);
    const twoSided = s === 0 ? 1 : Math.min(1, 2 * upperTail(scores, least, Math.abs(s)));
    return { ...common, twoSided, from: 'exact distribution' };
  }
  const z = Math.max(0, Math.abs(s) - 1) / Math.sqrt(variance);
  return { ...common, twoSided: Math.min(1, 2 * normalTail(z)), from: 'normal approximation' };
}

/** How many values share each value. */
export function tieSizes(values: readonly number[]): readonly number[] {
  const counts = new Map<number, number>();
  for (const value of values) {
    const known = counts.get(value);
    counts.set(value, known === undefined ? 1 : known + 1);
  }
  return [...counts.values()];
}

function tiedPairs(sizes: readonly number[]): number {
  return sizes.reduce((sum, t) => sum + (t * (t - 1)) / 2, 0);
}

/** Kendall (1975), 4.9: ties in both. */
function varianceOf(n: number, tiesX: readonly number[], tiesY: readonly number[]): number {
  const over = (sizes: readonly number[], term: (t: number) => number) =>
    sizes.reduce((sum, t) => sum + term(t), 0);
  const cubic = (t: number) => t * (t - 1) * (2 * t + 5);
  const two = (t: number) => t * (t - 1);
  const three = (t: number) => t * (t - 1) * (t - 2);
  return (
    (cubic(n) - over(tiesX, cubic) - over(tiesY, cubic)) / 18 +
    (over(tiesX, three) * over(tiesY, three)) / (9 * three(n)) +
    (over(tiesX, two) * over(tiesY, two)) / (2 * two(n))
  );
}
