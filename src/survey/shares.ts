/** Whole per cents that add up to 100, each within 1 of its exact share: what is left over after cutting goes
 *  to the largest remainders, the earlier of equals first. All 0 where there is nothing to share.
 *  Throws RangeError on a part below 0 or not finite. */
export function wholeShares(parts: readonly number[]): readonly number[] {
  const total = parts.reduce((sum, part) => {
    if (!(part >= 0 && part < Infinity)) {
      throw new RangeError(`parts of 0 or more expected, got ${part}`);
    }
    return sum + part;
  }, 0);
  if (total === 0) return parts.map(() => 0);
  const exact = parts.map((part) => (100 * part) / total);
  const shares = exact.map(Math.floor);
  const left = 100 - shares.reduce((sum, share) => sum + share, 0);
  const byRemainder = exact
    .map((value, i) => ({ i, rest: value - shares[i] }))
    .sort((a, b) => b.rest - a.rest || a.i - b.i);
  for (const { i } of byRemainder.slice(0, left)) shares[i] += 1;
  return shares;
}
