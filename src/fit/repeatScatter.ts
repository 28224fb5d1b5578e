import type { ReadingColumns } from './tied.ts';

/** What readings of one station in one placement leave behind, about the first of them. */
interface Seen {
  readonly y0: number;
  readonly t0: number;
  n: number;
  y: number;
  yy: number;
  t: number;
  tt: number;
  ty: number;
}

/** What repeats say of the scatter of one reading: sum of squares and degrees of freedom, to be pooled
 *  over lines before a deviation is taken. Each station has its own height and each placement its own
 *  offset and tilt; what is left over is scatter. Stations count as one when nearer than `same`.
 *  x and gaps as in `PlacementReadings`; squares in the gaps' unit squared. Time grows with the number of readings,
 *  memory with that of stations. */
export function repeatScatter(
  placements: readonly Pick<ReadingColumns, 'x' | 'gap'>[],
  same: number,
): { readonly squares: number; readonly dof: number } {
  const unknowns = 2 * (placements.length - 1);
  let low = Infinity;
  let high = -Infinity;
  for (const { x } of placements) {
    for (let i = 0; i < x.length; i++) {
      if (x[i] < low) low = x[i];
      if (x[i] > high) high = x[i];
    }
  }
  const centre = (low + high) / 2;
  const half = (high - low) / 2 || 1;
  const stations = new Map<number, (Seen | undefined)[]>();
  placements.forEach(({ x, gap }, p) => {
    for (let i = 0; i < x.length; i++) {
      const key = Math.round(x[i] / same);
      const t = (x[i] - centre) / half;
      let here = stations.get(key);
      if (here === undefined) stations.set(key, (here = []));
      const seen = here[p];
      if (seen === undefined) {
        here[p] = { y0: gap[i], t0: t, n: 1, y: 0, yy: 0, t: 0, tt: 0, ty: 0 };
        continue;
      }
      const dy = gap[i] - seen.y0;
      const dt = t - seen.t0;
      seen.n += 1;
      seen.y += dy;
      seen.yy += dy * dy;
      seen.t += dt;
      seen.tt += dt * dt;
      seen.ty += dt * dy;
    }
  });

  const matrix = Array.from({ length: unknowns }, () => new Float64Array(unknowns));
  const right = new Float64Array(unknowns);
  let squares = 0;
  let dof = 0;
  for (const here of stations.values()) {
    const parts = here.flatMap((seen, p) => (seen === undefined ? [] : [{ p, ...seen }]));
    const n = parts.reduce((sum, part) => sum + part.n, 0);
    dof += n - 1;
    const level = parts.reduce((sum, part) => sum + part.n * part.y0 + part.y, 0) / n;
    const middle = new Float64Array(unknowns);
    for (const { p, n: count, t0, t } of parts) {
      if (p === 0) continue;
      middle[2 * p - 2] += count / n;
      middle[2 * p - 1] += (count * t0 + t) / n;
    }
    for (const part of parts) {
      // Sums over the part of (y − level)² and of the rows of its unknowns about their middle.
      const dy = part.y0 - level;
      squares += part.yy + 2 * dy * part.y + part.n * dy * dy;
      const tilt = 2 * part.p - 1;
      const sums = (e: number): { constant: number; slope: number } => ({
        constant: (e === tilt - 1 ? 1 : e === tilt ? part.t0 : 0) - middle[e],
        slope: part.p > 0 && e === tilt ? 1 : 0,
      });
      for (let e = 0; e < unknowns; e++) {
        const a = sums(e);
        right[e] += a.constant * (part.n * dy + part.y) + a.slope * (part.ty + dy * part.t);
        for (let f = 0; f < unknowns; f++) {
          const b = sums(f);
          matrix[e][f] +=
            part.n * a.constant * b.constant +
            (a.constant * b.slope + b.constant * a.slope) * part.t +
            a.slope * b.slope * part.tt;
        }
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
