import { largestOf } from './largestOf.ts';

/** How much of a section's size was won by looking for its deepest place. Along a flat floor every place is as deep, and
 *  the one that scatter deepened is found; the draws tell by how much: the
 *  largest of each draw, wherever it is, stands as far above the largest of their mean as that stands above the truth
 *  (bias of a maximum by the parametric bootstrap: Efron and Tibshirani, 1993, An Introduction to the Bootstrap, 10.2,
 *  cited from memory). Of a sharp peak it is next to nothing.
 *  sizes: what counts in each draw at the places x, at least one pair; the section's ends are inside. In the sizes' unit, ≥ 0.
 *  Draws 2k and 2k + 1 are added up first, so that mirroring changes no bit. */
export function soughtOut(
  sizes: readonly Float64Array[],
  x: Float64Array,
  { from, to }: { readonly from: number; readonly to: number },
): number {
  let low = 0;
  while (low < x.length && x[low] < from) low++;
  let high = low;
  while (high < x.length && x[high] <= to) high++;
  const largest = sizes.map((size) => largestOf(size, low, high));
  const average = new Float64Array(x.length);
  for (let k = 0; k < sizes.length; k += 2) {
    for (let i = low; i < high; i++) average[i] += sizes[k][i] + sizes[k + 1][i];
  }
  let sum = 0;
  for (let k = 0; k < sizes.length; k += 2) sum += largest[k] + largest[k + 1];
  return Math.max(0, (sum - largestOf(average, low, high)) / sizes.length);
}

/** A size as it bears out a proof. Whether what was won by looking for its place is chance (of a flat floor it is) or shape (of a
 *  corner it is), the readings do not say: half of it is taken off, and as much joins the uncertainty. */
export function asProof(
  { size, u }: { readonly size: number; readonly u: number },
  sought: number,
): { readonly size: number; readonly u: number } {
  return { size: size - sought / 2, u: Math.hypot(u, sought / 2) };
}
