/** A symmetric system whose matrix is a band of any half-width with a few dense columns at its end: a panel's spline
 *  coefficients, taken across the panel station by station, then an offset and a tilt for each placement. */
export interface BandMatrix {
  readonly size: number;
  /** Half-width: entries farther than this from the diagonal are none. */
  readonly half: number;
  /** Dense columns after the band. */
  readonly extra: number;
  /** `band[j·(half + 1) + d]`: entry (j, j + d). */
  readonly band: Float64Array;
  /** `border[j·extra + e]`: entry (j, size + e). */
  readonly border: Float64Array;
  /** `corner[e·extra + f]`: entry (size + e, size + f), f from e on; the rest is not read. */
  readonly corner: Float64Array;
}

export function bandMatrix(size: number, half: number, extra: number): BandMatrix {
  return {
    size,
    half,
    extra,
    band: new Float64Array(size * (half + 1)),
    border: new Float64Array(size * extra),
    corner: new Float64Array(extra * extra),
  };
}

/** Upper Cholesky factor, in the places of the matrix. */
export interface BandFactor {
  readonly matrix: BandMatrix;
  /** log of the determinant, without the unknowns that are held. */
  readonly logDeterminant: number;
  /** 1 for each dense unknown that is held at none, because the others and the datum settle it. */
  readonly held: Uint8Array;
}

/** What is left of a dense unknown, as a share of what it began with, below which it is rounding. */
const NOTHING_LEFT = 1e-8;

/** Factors a copy. `held`: dense unknowns to be held at none; absent: those that follow from the unknowns before them,
 *  which is how a network known up to a plane shows it. Refuses (`undefined`) a matrix that is not positive definite
 *  without them. */
export function factorBand(given: BandMatrix, held?: Uint8Array): BandFactor | undefined {
  const { size, half, extra } = given;
  const stride = half + 1;
  const band = new Float64Array(given.band);
  const border = new Float64Array(given.border);
  const corner = new Float64Array(given.corner);
  let logDeterminant = 0;
  for (let j = 0; j < size; j++) {
    const own = j * stride;
    const pivot = band[own];
    if (!(pivot > given.band[own] * 1e-14)) return undefined;
    const root = Math.sqrt(pivot);
    logDeterminant += 2 * Math.log(root);
    const reach = Math.min(half, size - 1 - j);
    band[own] = root;
    for (let d = 1; d <= reach; d++) band[own + d] /= root;
    const edge = j * extra;
    for (let e = 0; e < extra; e++) border[edge + e] /= root;
    for (let d = 1; d <= reach; d++) {
      const l = band[own + d];
      if (l === 0) continue;
      const row = (j + d) * stride - d;
      for (let c = d; c <= reach; c++) band[row + c] -= l * band[own + c];
      const next = (j + d) * extra;
      for (let e = 0; e < extra; e++) border[next + e] -= l * border[edge + e];
    }
    for (let e = 0; e < extra; e++) {
      const l = border[edge + e];
      if (l === 0) continue;
      const row = e * extra;
      for (let f = e; f < extra; f++) corner[row + f] -= l * border[edge + f];
    }
  }
  const none = new Uint8Array(extra);
  for (let e = 0; e < extra; e++) {
    const row = e * extra;
    const pivot = corner[row + e];
    const nothing = !(pivot > given.corner[row + e] * NOTHING_LEFT);
    if (held ? held[e] === 1 : nothing) {
      none[e] = 1;
      continue;
    }
    if (nothing) return undefined;
    const root = Math.sqrt(pivot);
    logDeterminant += 2 * Math.log(root);
    for (let f = e; f < extra; f++) corner[row + f] /= root;
    for (let g = e + 1; g < extra; g++) {
      const l = corner[row + g];
      for (let f = g; f < extra; f++) corner[g * extra + f] -= l * corner[row + f];
    }
  }
  return { matrix: { size, half, extra, band, border, corner }, logDeterminant, held: none };
}

/** Solves L v = b in place, L the factor's transpose; unknowns that are held come out as none. */
export function forwardBand({ matrix, held }: BandFactor, b: Float64Array): void {
  const { size, half, extra, band, border, corner } = matrix;
  for (let j = 0; j < size; j++) {
    const own = j * (half + 1);
    b[j] /= band[own];
    const value = b[j];
    if (value === 0) continue;
    const reach = Math.min(half, size - 1 - j);
    for (let d = 1; d <= reach; d++) b[j + d] -= band[own + d] * value;
    for (let e = 0; e < extra; e++) b[size + e] -= border[j * extra + e] * value;
  }
  for (let e = 0; e < extra; e++) {
    if (held[e] === 1) {
      b[size + e] = 0;
      continue;
    }
    b[size + e] /= corner[e * extra + e];
    for (let f = e + 1; f < extra; f++) b[size + f] -= corner[e * extra + f] * b[size + e];
  }
}

/** Solves Lᵀ v = b in place. With b standard normal, v is a draw whose precision is the matrix. */
export function backwardBand({ matrix, held }: BandFactor, b: Float64Array): void {
  const { size, half, extra, band, border, corner } = matrix;
  for (let e = extra - 1; e >= 0; e--) {
    if (held[e] === 1) {
      b[size + e] = 0;
      continue;
    }
    let value = b[size + e];
    for (let f = e + 1; f < extra; f++) value -= corner[e * extra + f] * b[size + f];
    b[size + e] = value / corner[e * extra + e];
  }
  for (let j = size - 1; j >= 0; j--) {
    const own = j * (half + 1);
    let value = b[j];
    const reach = Math.min(half, size - 1 - j);
    for (let d = 1; d <= reach; d++) value -= band[own + d] * b[j + d];
    for (let e = 0; e < extra; e++) value -= border[j * extra + e] * b[size + e];
    b[j] = value / band[own];
  }
}
