/** Eigenvalues of a small symmetric matrix, in no order.
 *  Source: Jacobi (1846), by cyclic rotations, as in Golub & Van Loan, Matrix Computations, 8.5. */
export function eigenvalues(given: readonly Float64Array[]): Float64Array {
  const a = given.map((row) => Float64Array.from(row));
  const n = a.length;
  let size = 0;
  for (const row of a) for (const value of row) size += value * value;
  for (let sweep = 0; sweep < 60; sweep++) {
    let off = 0;
    for (let p = 0; p < n; p++) for (let q = p + 1; q < n; q++) off += a[p][q] ** 2;
    if (off <= 1e-30 * size) break;
    for (let p = 0; p < n; p++) for (let q = p + 1; q < n; q++) rotate(a, p, q);
  }
  return Float64Array.from(a, (row, i) => row[i]);
}

function rotate(a: readonly Float64Array[], p: number, q: number): void {
  if (a[p][q] === 0) return;
  const theta = (a[q][q] - a[p][p]) / (2 * a[p][q]);
  const t = Math.sign(theta || 1) / (Math.abs(theta) + Math.hypot(theta, 1));
  const c = 1 / Math.hypot(t, 1);
  const s = t * c;
  for (let k = 0; k < a.length; k++) {
    const [kp, kq] = [a[k][p], a[k][q]];
    a[k][p] = c * kp - s * kq;
    a[k][q] = s * kp + c * kq;
  }
  for (let k = 0; k < a.length; k++) {
    const [pk, qk] = [a[p][k], a[q][k]];
    a[p][k] = c * pk - s * qk;
    a[q][k] = s * pk + c * qk;
  }
}
