/** Probability that a standard normal number is z or more; z finite. The complementary error function by its series
 *  below 3 and by its continued fraction above, to 12 digits (test/fit/mannKendall.test.ts).
 *  Source: Abramowitz and Stegun (1964), Handbook of Mathematical Functions, 26.2.10 and 26.2.14. */
export function normalTail(z: number): number {
  if (!Number.isFinite(z)) throw new RangeError(`a finite number expected, got ${z}`);
  if (z < 0) return 1 - normalTail(-z);
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  if (z < 3) {
    let term = z;
    let sum = z;
    for (let k = 1; term > 1e-18 * sum; k++) {
      term *= (z * z) / (2 * k + 1);
      sum += term;
    }
    return 0.5 - density * sum;
  }
  let fraction = z;
  for (let k = 120; k >= 1; k--) fraction = z + k / fraction;
  return density / fraction;
}
