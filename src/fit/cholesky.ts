/** Lower triangular factor of a small dense covariance matrix, of which the lower half is read. A pivot that is no
 *  more than `least` is none: what is left of that variable is rounding, and it follows from those before it. */
export function cholesky(matrix: readonly Float64Array[], least = 0): readonly Float64Array[] {
  const lower: Float64Array[] = [];
  matrix.forEach((line, i) => {
    const row = new Float64Array(i + 1);
    for (let j = 0; j < i; j++) {
      const other = lower[j];
      let sum = line[j];
      for (let k = 0; k < j; k++) sum -= row[k] * other[k];
      row[j] = other[j] > 0 ? sum / other[j] : 0;
    }
    let pivot = line[i];
    for (let k = 0; k < i; k++) pivot -= row[k] * row[k];
    row[i] = pivot > least ? Math.sqrt(pivot) : 0;
    lower.push(row);
  });
  return lower;
}

/** Solves L v = b in place. */
export function forward(lower: readonly Float64Array[], b: Float64Array): void {
  for (let i = 0; i < b.length; i++) {
    const row = lower[i];
    let sum = b[i];
    for (let k = 0; k < i; k++) sum -= row[k] * b[k];
    b[i] = sum / row[i];
  }
}

/** Solves L Lᵀ v = b; b is left as it is. */
export function solved(lower: readonly Float64Array[], b: Float64Array): Float64Array {
  const out = Float64Array.from(b);
  forward(lower, out);
  for (let i = out.length - 1; i >= 0; i--) {
    out[i] /= lower[i][i];
    for (let k = 0; k < i; k++) out[k] -= lower[i][k] * out[i];
  }
  return out;
}
