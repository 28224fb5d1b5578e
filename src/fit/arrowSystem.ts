/** A symmetric positive definite system whose matrix is a band (half-width 3) with a few dense
 *  columns at its end: a spline's coefficients first, then what each further placement adds. */
export interface ArrowMatrix {
  readonly size: number;
  /** Dense columns after the band. */
  readonly extra: number;
  /** `band[4·j + d]`: entry (j, j + d), d = 0..3. */
  readonly band: Float64Array;
  /** `border[j·extra + e]`: entry (j, size + e). */
  readonly border: Float64Array;
  /** `corner[e·extra + f]`, symmetric. */
  readonly corner: Float64Array;
}

export function arrowMatrix(size: number, extra: number): ArrowMatrix {
  return {
    size,
    extra,
    band: new Float64Array(4 * size),
    border: new Float64Array(size * extra),
    corner: new Float64Array(extra * extra),
  };
}

/** Lower Cholesky factor of an arrow matrix, stored as its transpose's rows. */
export interface ArrowFactor {
  readonly matrix: ArrowMatrix;
  /** log of the determinant. */
  readonly logDeterminant: number;
}

/** Factors in place of a new matrix. Refuses (`undefined`) a matrix that is not positive definite
 *  to working precision: the data does not determine every unknown. Hundreds are factored for one line, so what the
 *  three columns before leave to the next is carried along and not looked up. `band`: where the factor's band is
 *  written; that of the matrix itself, where nobody asks for it again. */
export function factor(
  a: ArrowMatrix,
  band: Float64Array = new Float64Array(4 * a.size),
): ArrowFactor | undefined {
  const { size, extra } = a;
  const border = new Float64Array(a.border);
  const corner = new Float64Array(a.corner);
  let logDeterminant = 0;
  // A logarithm for four of them: their product is far from the ends of a double.
  let pivots = 1;
  // Of the column before its entries 1 to 3 below the pivot, of the one before that 2 and 3, of the third 3.
  let p1 = 0;
  let p2 = 0;
  let p3 = 0;
  let q2 = 0;
  let q3 = 0;
  let r3 = 0;
  for (let j = 0, at = 0; j < size; j++, at += 4) {
    const before = a.band[at];
    const pivot = before - r3 * r3 - q2 * q2 - p1 * p1;
    if (!(pivot > before * 1e-14)) return undefined;
    const root = Math.sqrt(pivot);
    pivots *= root;
    if (j % 4 === 3 || j === size - 1) {
      logDeterminant += 2 * Math.log(pivots);
      pivots = 1;
    }
    const first = (a.band[at + 1] - q2 * q3 - p1 * p2) / root;
    const second = (a.band[at + 2] - p1 * p3) / root;
    const third = a.band[at + 3] / root;
    band[at] = root;
    band[at + 1] = first;
    band[at + 2] = second;
    band[at + 3] = third;
    r3 = q3;
    q2 = p2;
    q3 = p3;
    p1 = first;
    p2 = second;
    p3 = third;
    if (extra === 0) continue;
    const reach = Math.min(3, size - 1 - j);
    for (let e = 0; e < extra; e++) border[j * extra + e] /= root;
    for (let d = 1; d <= reach; d++) {
      const l = band[at + d];
      for (let e = 0; e < extra; e++) border[(j + d) * extra + e] -= l * border[j * extra + e];
    }
    for (let e = 0; e < extra; e++) {
      for (let f = e; f < extra; f++) {
        corner[e * extra + f] -= border[j * extra + e] * border[j * extra + f];
      }
    }
  }
  for (let e = 0; e < extra; e++) {
    const pivot = corner[e * extra + e];
    if (!(pivot > a.corner[e * extra + e] * 1e-12)) return undefined;
    const root = Math.sqrt(pivot);
    logDeterminant += 2 * Math.log(root);
    for (let f = e; f < extra; f++) corner[e * extra + f] /= root;
    for (let g = e + 1; g < extra; g++) {
      for (let f = g; f < extra; f++) {
        corner[g * extra + f] -= corner[e * extra + g] * corner[e * extra + f];
      }
    }
  }
  return { matrix: { size, extra, band, border, corner }, logDeterminant };
}

/** Solves L v = b in place, where L is the factor. `first`: b is 0 before it, and so is v. */
export function solveForward({ matrix }: ArrowFactor, b: Float64Array, first = 0): void {
  const { size, extra, band, border, corner } = matrix;
  // What the three columns before take from the next two, one after that and so on, as in `factor`.
  let p1 = 0;
  let p2 = 0;
  let p3 = 0;
  let q2 = 0;
  let q3 = 0;
  let r3 = 0;
  let p = 0;
  let q = 0;
  let r = 0;
  for (let j = first, at = 4 * first; j < size; j++, at += 4) {
    const value = (b[j] - r3 * r - q2 * q - p1 * p) / band[at];
    b[j] = value;
    r = q;
    q = p;
    p = value;
    r3 = q3;
    q2 = p2;
    q3 = p3;
    p1 = band[at + 1];
    p2 = band[at + 2];
    p3 = band[at + 3];
    for (let e = 0; e < extra; e++) b[size + e] -= border[j * extra + e] * value;
  }
  for (let e = 0; e < extra; e++) {
    b[size + e] /= corner[e * extra + e];
    for (let f = e + 1; f < extra; f++) b[size + f] -= corner[e * extra + f] * b[size + e];
  }
}

/** Solves Lᵀ v = b in place. With b standard normal, v is a draw whose precision is the matrix. */
export function solveBackward({ matrix }: ArrowFactor, b: Float64Array): void {
  const { size, extra, band, border, corner } = matrix;
  for (let e = extra - 1; e >= 0; e--) {
    let value = b[size + e];
    for (let f = e + 1; f < extra; f++) value -= corner[e * extra + f] * b[size + f];
    b[size + e] = value / corner[e * extra + e];
  }
  let p = 0;
  let q = 0;
  let r = 0;
  for (let j = size - 1, at = 4 * j; j >= 0; j--, at -= 4) {
    let value = b[j] - band[at + 1] * p - band[at + 2] * q - band[at + 3] * r;
    for (let e = 0; e < extra; e++) value -= border[j * extra + e] * b[size + e];
    value /= band[at];
    b[j] = value;
    r = q;
    q = p;
    p = value;
  }
}
