/** Refuses what no fit can take: x and y of unequal length, or a value that is not finite.
 *  Throws RangeError, naming the place of the first such value. */
export function checkPairs(x: readonly number[], y: readonly number[]): void {
  if (x.length !== y.length) {
    throw new RangeError(`x and y of one length expected, got ${x.length} and ${y.length}`);
  }
  for (const values of [x, y]) {
    const at = values.findIndex((value) => !Number.isFinite(value));
    if (at >= 0) throw new RangeError(`finite values expected, got ${values[at]} at index ${at}`);
  }
}

/** Least and greatest of at least one value, however many there are. */
export function rangeOf(values: readonly number[]): readonly [number, number] {
  let least = values[0];
  let greatest = values[0];
  for (const value of values) {
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  return [least, greatest];
}
