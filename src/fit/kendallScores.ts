/** Null distribution of Kendall's score S, every order of the values being alike: `scores[i]` is the probability of
 *  S = least + 2i. `ties`: how many values share each value (all 1 where none are tied); x without ties.
 *  Groups of equal values are laid in one after another; the inversions that each makes with those before it are
 *  a Mann-Whitney count, and independent of the others. Sums of positive terms only, so no digit is lost.
 *  Throws RangeError on a size that is not a whole number from 1.
 *  Source: Kendall (1975), Rank Correlation Methods, 4th ed., 5.2; Mann and Whitney (1947), Ann. Math. Statist. 18, 50
 *  (the recurrence). */
export function kendallScores(ties: readonly number[]): {
  readonly scores: readonly number[];
  readonly least: number;
} {
  const strange = ties.find((t) => !Number.isInteger(t) || t < 1);
  if (strange !== undefined) throw new RangeError(`whole numbers from 1 expected, got ${strange}`);
  let inversions: readonly number[] = [1];
  let placed = 0;
  for (const size of ties) {
    inversions = convolved(inversions, mannWhitney(placed, size));
    placed += size;
  }
  return { scores: inversions, least: 1 - inversions.length };
}

/** Probability of S at or above `s`. */
export function upperTail(scores: readonly number[], least: number, s: number): number {
  let sum = 0;
  for (let i = scores.length - 1; i >= 0 && least + 2 * i >= s; i--) sum += scores[i];
  return sum;
}

/** Probability of each number of inversions between m values and t others, 0 to m·t. */
function mannWhitney(m: number, t: number): readonly number[] {
  if (m === 0 || t === 0) return [1];
  if (t === 1) return Array.from({ length: m + 1 }, () => 1 / (m + 1));
  // rows[j]: the distribution for i of the m and j of the t, i growing.
  let rows: readonly (readonly number[])[] = Array.from({ length: t + 1 }, () => [1]);
  for (let i = 1; i <= m; i++) {
    const next: (readonly number[])[] = [[1]];
    for (let j = 1; j <= t; j++) {
      const out = new Array<number>(i * j + 1).fill(0);
      next[j - 1].forEach((p, k) => (out[k + i] += (p * j) / (i + j)));
      rows[j].forEach((p, k) => (out[k] += (p * i) / (i + j)));
      next.push(out);
    }
    rows = next;
  }
  return rows[t];
}

function convolved(a: readonly number[], b: readonly number[]): readonly number[] {
  const out = new Array<number>(a.length + b.length - 1).fill(0);
  a.forEach((p, i) => b.forEach((q, j) => (out[i + j] += p * q)));
  return out;
}
