/** Heights less their least-squares line over the places x; of one length, at least two different places. */
export function straightened(z: ArrayLike<number>, x: ArrayLike<number>): Float64Array {
  const n = z.length;
  let middle = 0;
  let level = 0;
  for (let i = 0; i < n; i++) {
    middle += x[i] / n;
    level += z[i] / n;
  }
  let sxx = 0;
  let sxz = 0;
  for (let i = 0; i < n; i++) {
    sxx += (x[i] - middle) ** 2;
    sxz += (x[i] - middle) * z[i];
  }
  return Float64Array.from(z, (v, i) => v - level - (sxz / sxx) * (x[i] - middle));
}
