import { max, min } from 'simple-statistics';
import type { PlacementReadings } from './tied.ts';

/** What repeats say of the scatter of one reading: sum of squares and degrees of freedom, to be pooled
 *  over lines before a deviation is taken. Each station has its own height and each placement its own
 *  offset and tilt; what is left over is scatter. Stations count as one when nearer than `same`.
 *  x and gaps as in `PlacementReadings`; squares in the gaps' unit squared. */
export function repeatScatter(
  placements: readonly PlacementReadings[],
  same: number,
): { readonly squares: number; readonly dof: number } {
  const unknowns = 2 * (placements.length - 1);
  const stations = new Map<number, { y: number; row: Float64Array }[]>();
  const all = placements.flatMap((p) => p.x);
  const centre = (min(all) + max(all)) / 2;
  const half = (max(all) - min(all)) / 2 || 1;
  placements.forEach(({ x, gap }, p) => {
    x.forEach((at, i) => {
      const row = new Float64Array(unknowns);
      if (p > 0) {
        row[2 * p - 2] = 1;
        row[2 * p - 1] = (at - centre) / half;
      }
      const key = Math.round(at / same);
      const seen = stations.get(key);
      if (seen) seen.push({ y: gap[i], row });
      else stations.set(key, [{ y: gap[i], row }]);
    });
  });

  const matrix = Array.from({ length: unknowns }, () => new Float64Array(unknowns));
  const right = new Float64Array(unknowns);
  let squares = 0;
  let dof = 0;
  for (const seen of stations.values()) {
    const level = seen.reduce((sum, s) => sum + s.y, 0) / seen.length;
    const middle = new Float64Array(unknowns);
    for (const s of seen) for (let e = 0; e < unknowns; e++) middle[e] += s.row[e] / seen.length;
    dof += seen.length - 1;
    for (const s of seen) {
      const y = s.y - level;
      const row = s.row.map((v, e) => v - middle[e]);
      squares += y * y;
      for (let e = 0; e < unknowns; e++) {
        right[e] += row[e] * y;
        for (let f = 0; f < unknowns; f++) matrix[e][f] += row[e] * row[f];
      }
    }
  }
  return eliminate(matrix, right, squares, dof);
}

/** Takes off what offsets and tilts explain; an unknown that the others already determine
 *  (or that no repeat touches) costs no degree of freedom. */
function eliminate(
  matrix: Float64Array[],
  right: Float64Array,
  squares: number,
  dof: number,
): { readonly squares: number; readonly dof: number } {
  const whole = matrix.map((row, e) => row[e]);
  for (let e = 0; e < right.length; e++) {
    const pivot = matrix[e][e];
    if (pivot <= 1e-9 * whole[e] || pivot === 0) continue;
    squares -= (right[e] * right[e]) / pivot;
    dof -= 1;
    for (let g = e + 1; g < right.length; g++) {
      const factor = matrix[g][e] / pivot;
      for (let f = e; f < right.length; f++) matrix[g][f] -= factor * matrix[e][f];
      right[g] -= factor * right[e];
    }
  }
  return { squares: Math.max(0, squares), dof };
}
