/** The line through points at x, ascending, straight from one to the next and level beyond both ends. At least one
 *  point. Throws RangeError where there is none, or the lengths differ. */
export function brokenLine(x: ArrayLike<number>, y: ArrayLike<number>): (at: number) => number {
  const last = x.length - 1;
  if (last < 0 || y.length !== x.length) {
    throw new RangeError(`one point or more expected, got ${x.length} places, ${y.length} heights`);
  }
  return (at) => {
    if (at <= x[0]) return y[0];
    if (at >= x[last]) return y[last];
    let [low, high] = [0, last];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (x[middle] <= at) low = middle;
      else high = middle;
    }
    return y[low] + ((y[high] - y[low]) * (at - x[low])) / (x[high] - x[low]);
  };
}
