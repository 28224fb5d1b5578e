/** Places in a series that keep its picture: of each of `columns` equal stretches of x the lowest and the highest
 *  value, ascending; all of them where there are no more than two a stretch. So however a series is thinned, no
 *  extreme is lost. x, z: one length, finite, in any order; `columns` from 1.
 *  Throws RangeError on lengths that differ. */
export function extremes(x: ArrayLike<number>, z: ArrayLike<number>, columns: number): Uint32Array {
  const n = x.length;
  if (z.length !== n) throw new RangeError(`x and z of one length expected, got ${n}, ${z.length}`);
  if (!(Number.isInteger(columns) && columns > 0)) {
    throw new RangeError(`1 column or more expected, got ${columns}`);
  }
  if (n <= 2 * columns) return Uint32Array.from({ length: n }, (_, i) => i);
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < n; i++) {
    if (x[i] < low) low = x[i];
    if (x[i] > high) high = x[i];
  }
  const scale = high > low ? columns / (high - low) : 0;
  const least = new Int32Array(columns).fill(-1);
  const most = new Int32Array(columns).fill(-1);
  for (let i = 0; i < n; i++) {
    const c = Math.min(columns - 1, Math.floor((x[i] - low) * scale));
    if (least[c] < 0 || z[i] < z[least[c]]) least[c] = i;
    if (most[c] < 0 || z[i] > z[most[c]]) most[c] = i;
  }
  const kept = new Set<number>();
  for (let c = 0; c < columns; c++) {
    if (least[c] < 0) continue;
    kept.add(least[c]);
    kept.add(most[c]);
  }
  return Uint32Array.from(kept).sort();
}
