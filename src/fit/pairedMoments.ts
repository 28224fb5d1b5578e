/** Mean and standard deviation of what mirrored pairs of draws give: values 2k and 2k + 1 belong
 *  together. Each pair is added up first, so that swapping the two of every pair, which is what
 *  mirroring a profile does to its draws, changes no bit. At least one pair. */
export function pairedMoments(values: ArrayLike<number>): {
  readonly mean: number;
  readonly deviation: number;
} {
  const n = values.length;
  if (n < 2 || n % 2 !== 0) throw new RangeError(`values in pairs expected, got ${n}`);
  let sum = 0;
  for (let k = 0; k < n; k += 2) sum += values[k] + values[k + 1];
  const mean = sum / n;
  let squares = 0;
  for (let k = 0; k < n; k += 2) {
    squares += (values[k] - mean) ** 2 + (values[k + 1] - mean) ** 2;
  }
  return { mean, deviation: Math.sqrt(squares / (n - 1)) };
}
