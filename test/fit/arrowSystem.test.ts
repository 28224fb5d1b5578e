import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arrowMatrix,
  factor,
  solveBackward,
  solveForward,
  type ArrowFactor,
  type ArrowMatrix,
} from '../../src/fit/arrowSystem.ts';
import { seededNormals } from './support.ts';

/** Dense copy of an arrow matrix. */
function dense({ size, extra, band, border, corner }: ArrowMatrix): number[][] {
  const n = size + extra;
  const a = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  for (let j = 0; j < size; j++) {
    for (let d = 0; d < 4 && j + d < size; d++) {
      a[j][j + d] = band[4 * j + d];
      a[j + d][j] = band[4 * j + d];
    }
    for (let e = 0; e < extra; e++) {
      a[j][size + e] = border[j * extra + e];
      a[size + e][j] = border[j * extra + e];
    }
  }
  for (let e = 0; e < extra; e++) {
    for (let f = 0; f < extra; f++) a[size + e][size + f] = corner[e * extra + f];
  }
  return a;
}

/** Gaussian elimination with partial pivoting: solution and log of the determinant. */
function eliminate(matrix: number[][], right: readonly number[]) {
  const n = right.length;
  const a = matrix.map((row, i) => [...row, right[i]]);
  let logDeterminant = 0;
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i][k]) > Math.abs(a[best][k])) best = i;
    [a[k], a[best]] = [a[best], a[k]];
    logDeterminant += Math.log(Math.abs(a[k][k]));
    for (let i = k + 1; i < n; i++) {
      const times = a[i][k] / a[k][k];
      for (let j = k; j <= n; j++) a[i][j] -= times * a[k][j];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let value = a[i][n];
    for (let j = i + 1; j < n; j++) value -= a[i][j] * x[j];
    x[i] = value / a[i][i];
  }
  return { x, logDeterminant };
}

/** A matrix of the arrow's shape that is positive definite because it is a sum of squares:
 *  rows with four neighbours in the band and all of the dense columns. */
function anyArrow(seed: number, size: number, extra: number): ArrowMatrix {
  const normal = seededNormals(seed);
  const a = arrowMatrix(size, extra);
  for (let row = 0; row < 3 * (size + extra); row++) {
    const first = row % (size - 3);
    const values = [normal(), normal(), normal(), normal()];
    const more = Array.from({ length: extra }, normal);
    for (let i = 0; i < 4; i++) {
      for (let j = i; j < 4; j++) a.band[4 * (first + i) + j - i] += values[i] * values[j];
      for (let e = 0; e < extra; e++) a.border[(first + i) * extra + e] += values[i] * more[e];
    }
    for (let e = 0; e < extra; e++) {
      for (let f = 0; f < extra; f++) a.corner[e * extra + f] += more[e] * more[f];
    }
  }
  return a;
}

function factored(a: ArrowMatrix): ArrowFactor {
  const found = factor(a);
  if (!found) throw new Error('positive definite expected');
  return found;
}

const anySystem = fc.record({
  seed: fc.integer({ min: 1, max: 1e6 }),
  size: fc.integer({ min: 4, max: 24 }),
  extra: fc.integer({ min: 0, max: 6 }),
});

describe('an arrow system', () => {
  it('is solved as dense Gaussian elimination solves it, to 9 digits', () => {
    fc.assert(
      fc.property(anySystem, ({ seed, size, extra }) => {
        const a = anyArrow(seed, size, extra);
        const right = Array.from({ length: size + extra }, seededNormals(seed + 1));
        const { x } = eliminate(dense(a), right);
        const found = Float64Array.from(right);
        const f = factored(a);
        solveForward(f, found);
        solveBackward(f, found);
        const scale = Math.max(...x.map(Math.abs));
        x.forEach((value, i) => expect(Math.abs(found[i] - value) / scale).toBeLessThan(1e-9));
      }),
      { seed: 121, numRuns: 100 },
    );
  });

  it('has the log determinant that elimination finds, to 9 digits', () => {
    fc.assert(
      fc.property(anySystem, ({ seed, size, extra }) => {
        const a = anyArrow(seed, size, extra);
        const wanted = eliminate(dense(a), new Array<number>(size + extra).fill(0)).logDeterminant;
        expect(Math.abs(factored(a).logDeterminant - wanted)).toBeLessThan(
          1e-9 * (1 + Math.abs(wanted)),
        );
      }),
      { seed: 122, numRuns: 100 },
    );
  });

  it('is left as it was when it is factored', () => {
    const a = anyArrow(5, 8, 2);
    const before = dense(a);
    factored(a);
    expect(dense(a)).toEqual(before);
  });

  it('gives draws whose precision is the matrix: L⁻ᵀL⁻¹ is its inverse', () => {
    const a = anyArrow(9, 9, 4);
    const n = 13;
    const f = factored(a);
    const unit = (k: number) => Float64Array.from({ length: n }, (_, i) => (i === k ? 1 : 0));
    const covariance = Array.from({ length: n }, () => new Array<number>(n).fill(0));
    for (let k = 0; k < n; k++) {
      const draw = unit(k);
      solveBackward(f, draw);
      for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) covariance[i][j] += draw[i] * draw[j];
    }
    const matrix = dense(a);
    for (let k = 0; k < n; k++) {
      const { x } = eliminate(matrix, [...unit(k)]);
      x.forEach((value, i) => expect(covariance[i][k]).toBeCloseTo(value, 10));
    }
  });
});

describe('an arrow system that is not positive definite', () => {
  it('is refused when a band column is determined by nothing', () => {
    const a = anyArrow(3, 8, 0);
    for (let d = 0; d <= 3; d++) a.band[4 * (7 - d) + d] = 0;
    expect(factor(a)).toBeUndefined();
  });

  it('is refused when a dense column is determined by nothing, the last one too', () => {
    const a = anyArrow(3, 8, 1);
    a.border.fill(0);
    a.corner.fill(0);
    expect(factor(a)).toBeUndefined();
  });

  it('is refused when two dense columns say the same', () => {
    const a = anyArrow(4, 8, 2);
    for (let j = 0; j < 8; j++) a.border[2 * j + 1] = a.border[2 * j];
    a.corner.fill(a.corner[0]);
    expect(factor(a)).toBeUndefined();
  });

  it('is refused when a pivot is negative', () => {
    const a = anyArrow(6, 8, 1);
    a.band[4 * 3] = -1;
    expect(factor(a)).toBeUndefined();
  });
});
