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
 *  to working precision: the data does not determine every unknown. */
export function factor(a: ArrowMatrix): ArrowFactor | undefined {
  const { size, extra } = a;
  const band = new Float64Array(a.band);
  const border = new Float64Array(a.border);
  const corner = new Float64Array(a.corner);
  let logDeterminant = 0;
  for (let j = 0; j < size; j++) {
    const before = a.band[4 * j];
    const pivot = band[4 * j];
    if (!(pivot > before * 1e-14)) return undefined;
    const root = Math.sqrt(pivot);
    logDeterminant += 2 * Math.log(root);
    band[4 * j] = root;
    const reach = Math.min(3, size - 1 - j);
    for (let d = 1; d <= 3; d++) band[4 * j + d] /= root;
    for (let e = 0; e < extra; e++) border[j * extra + e] /= root;
    for (let d = 1; d <= reach; d++) {
      const l = band[4 * j + d];
      for (let c = d; c <= reach; c++) band[4 * (j + d) + c - d] -= l * band[4 * j + c];
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
  for (let j = first; j < size; j++) {
    b[j] /= band[4 * j];
    const value = b[j];
    const reach = Math.min(3, size - 1 - j);
    for (let d = 1; d <= reach; d++) b[j + d] -= band[4 * j + d] * value;
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
  for (let j = size - 1; j >= 0; j--) {
    let value = b[j];
    const reach = Math.min(3, size - 1 - j);
    for (let d = 1; d <= reach; d++) value -= band[4 * j + d] * b[j + d];
    for (let e = 0; e < extra; e++) value -= border[j * extra + e] * b[size + e];
    b[j] = value / band[4 * j];
  }
}
