import { describe, expect, it } from 'vitest';
import {
  backwardBand,
  bandMatrix,
  factorBand,
  forwardBand,
  type BandMatrix,
} from '../../../src/fit/surface/bandSystem.ts';

const SIZE = 7;
const HALF = 2;
const EXTRA = 3;
const WHOLE = SIZE + EXTRA;

/** A positive definite matrix of that form, in its places and in full. */
function given(): { readonly matrix: BandMatrix; readonly full: number[][] } {
  const matrix = bandMatrix(SIZE, HALF, EXTRA);
  const full = Array.from({ length: WHOLE }, () => new Array<number>(WHOLE).fill(0));
  const put = (i: number, j: number, v: number) => {
    full[i][j] = v;
    full[j][i] = v;
  };
  for (let j = 0; j < SIZE; j++) {
    for (let d = 0; d <= HALF && j + d < SIZE; d++) {
      const v = d === 0 ? 9 + j : Math.sin(1 + j * 3 + d);
      matrix.band[j * (HALF + 1) + d] = v;
      put(j, j + d, v);
    }
    for (let e = 0; e < EXTRA; e++) {
      const v = Math.cos(j + 2 * e);
      matrix.border[j * EXTRA + e] = v;
      put(j, SIZE + e, v);
    }
  }
  for (let e = 0; e < EXTRA; e++) {
    for (let f = e; f < EXTRA; f++) {
      const v = e === f ? 12 + e : 0.7 * (e + f);
      matrix.corner[e * EXTRA + f] = v;
      put(SIZE + e, SIZE + f, v);
    }
  }
  return { matrix, full };
}

/** Gauss and Jordan's elimination with pivots: a solution and the determinant by another way. */
function dense(full: readonly (readonly number[])[], right: ArrayLike<number>) {
  const rows = full.map((row, i) => [...row, right[i]]);
  const n = rows.length;
  let determinant = 1;
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c; r < n; r++) if (Math.abs(rows[r][c]) > Math.abs(rows[best][c])) best = r;
    if (best !== c) determinant = -determinant;
    [rows[c], rows[best]] = [rows[best], rows[c]];
    determinant *= rows[c][c];
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const share = rows[r][c] / rows[c][c];
      for (let k = c; k <= n; k++) rows[r][k] -= share * rows[c][k];
    }
  }
  return { solution: rows.map((row, i) => row[n] / row[i]), determinant };
}

const RIGHT = Array.from({ length: WHOLE }, (_, i) => Math.sin(i * i + 1));
const without = (full: readonly (readonly number[])[], gone: number) => ({
  full: full.filter((_, i) => i !== gone).map((row) => row.filter((_, j) => j !== gone)),
  right: RIGHT.filter((_, i) => i !== gone),
});

function solve(matrix: BandMatrix, held?: Uint8Array) {
  const factor = factorBand(matrix, held);
  if (!factor) throw new Error('not positive definite');
  const v = Float64Array.from(RIGHT);
  forwardBand(factor, v);
  const half = Float64Array.from(v);
  backwardBand(factor, v);
  return { factor, half, solution: Array.from(v) };
}

describe('a band with a border', () => {
  it('is solved, and has its determinant, as by elimination in full', () => {
    const { matrix, full } = given();
    const wanted = dense(full, RIGHT);
    const { factor, half, solution } = solve(matrix);
    solution.forEach((v, i) => expect(v).toBeCloseTo(wanted.solution[i], 12));
    expect(factor.logDeterminant).toBeCloseTo(Math.log(wanted.determinant), 11);
    expect(Array.from(factor.held)).toEqual([0, 0, 0]);
    // Half the way there: its square is the right side against the solution.
    const square = half.reduce((sum, v) => sum + v * v, 0);
    expect(square).toBeCloseTo(
      RIGHT.reduce((sum, v, i) => sum + v * solution[i], 0),
      12,
    );
  });

  it('is left as it was given', () => {
    const { matrix } = given();
    factorBand(matrix);
    expect(matrix).toEqual(given().matrix);
  });

  it('is solved without a border', () => {
    const { matrix, full } = given();
    const bare = bandMatrix(SIZE, HALF, 0);
    bare.band.set(matrix.band);
    const factor = factorBand(bare);
    if (!factor) throw new Error('not positive definite');
    const v = Float64Array.from(RIGHT.slice(0, SIZE));
    forwardBand(factor, v);
    backwardBand(factor, v);
    const wanted = dense(
      full.slice(0, SIZE).map((row) => row.slice(0, SIZE)),
      RIGHT.slice(0, SIZE),
    );
    v.forEach((value, i) => expect(value).toBeCloseTo(wanted.solution[i], 12));
    expect(factor.logDeterminant).toBeCloseTo(Math.log(wanted.determinant), 11);
  });

  it.each([0, 1, 2])(
    'holds dense unknown %i at none when told to, the others as if it were not there',
    (e) => {
      const { matrix, full } = given();
      const held = Uint8Array.from({ length: EXTRA }, (_, i) => (i === e ? 1 : 0));
      const { factor, solution, half } = solve(matrix, held);
      const rest = without(full, SIZE + e);
      const wanted = dense(rest.full, rest.right);
      expect(solution[SIZE + e]).toBe(0);
      expect(half[SIZE + e]).toBe(0);
      solution
        .filter((_, i) => i !== SIZE + e)
        .forEach((v, i) => expect(v).toBeCloseTo(wanted.solution[i], 12));
      expect(factor.logDeterminant).toBeCloseTo(Math.log(wanted.determinant), 11);
      expect(Array.from(factor.held)).toEqual(Array.from(held));
    },
  );

  it('finds by itself the dense unknown that follows from those before it, and holds that', () => {
    const { matrix, full } = given();
    // The last is the sum of the first and of twice the second: entry by entry, so that nothing is left of it.
    const follow = given().matrix;
    for (let j = 0; j < SIZE; j++) {
      const edge = j * EXTRA;
      follow.border[edge + 2] = follow.border[edge] + 2 * follow.border[edge + 1];
    }
    const { corner } = follow;
    corner[2] = corner[0] + 2 * corner[1];
    corner[5] = corner[1] + 2 * corner[4];
    corner[8] = corner[2] + 2 * corner[5];
    const { factor, solution } = solve(follow);
    expect(Array.from(factor.held)).toEqual([0, 0, 1]);
    const rest = without(full, WHOLE - 1);
    dense(rest.full, rest.right).solution.forEach((v, i) => expect(solution[i]).toBeCloseTo(v, 11));
    expect(factorBand(follow, Uint8Array.of(0, 0, 0))).toBeUndefined();
    expect(factorBand(matrix, Uint8Array.of(0, 0, 0))).toBeDefined();
  });

  it('is refused where the band is not positive definite, or not beyond rounding', () => {
    for (const pivot of [0, -1]) {
      const { matrix } = given();
      matrix.band[3 * (HALF + 1)] = pivot;
      expect(factorBand(matrix)).toBeUndefined();
    }
    const { matrix } = given();
    // Two unknowns of one meaning.
    matrix.band.fill(0);
    for (let j = 0; j < SIZE; j++) matrix.band[j * (HALF + 1)] = 1;
    matrix.band[1] = 1;
    expect(factorBand(matrix)).toBeUndefined();
  });
});
