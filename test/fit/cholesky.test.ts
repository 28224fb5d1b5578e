import { describe, expect, it } from 'vitest';
import { cholesky, forward, solved } from '../../src/fit/cholesky.ts';

// [[4, 2, −2], [2, 10, 5], [−2, 5, 14]]: its factor by hand.
const given = [[4], [2, 10], [-2, 5, 14]].map((row) => Float64Array.from(row));
const [, , c] = [2, 3, Math.sqrt(14 - 1 - 4)];

describe('a triangular factor', () => {
  it('is what multiplies to the matrix, of which the lower half is read', () => {
    expect(cholesky(given).map((row) => Array.from(row))).toEqual([[2], [1, 3], [-1, 2, c]]);
    const whole = [
      [4, 99, 99],
      [2, 10, 99],
      [-2, 5, 14],
    ].map((row) => Float64Array.from(row));
    expect(cholesky(whole)).toEqual(cholesky(given));
  });

  it('solves forward, and both ways, leaving the right side as it is', () => {
    const lower = cholesky(given);
    const half = Float64Array.of(4, 8, 3);
    forward(lower, half);
    expect(Array.from(half)).toEqual([2, 2, (3 + 2 - 4) / c]);
    // (1, 2, 3) times the matrix.
    const right = Float64Array.of(4 + 4 - 6, 2 + 20 + 15, -2 + 10 + 42);
    const kept = Float64Array.from(right);
    Array.from(solved(lower, right)).forEach((v, i) => expect(v).toBeCloseTo(i + 1, 13));
    expect(right).toEqual(kept);
  });

  it('has none for a variable that follows from those before it', () => {
    const twice = [[4], [8, 16], [2, 4, 10]].map((row) => Float64Array.from(row));
    expect(cholesky(twice).map((row) => Array.from(row))).toEqual([[2], [4, 0], [1, 0, 3]]);
    const nearly = [[4], [8, 16 + 1e-9]].map((row) => Float64Array.from(row));
    expect(cholesky(nearly)[1][1]).toBeGreaterThan(0);
    expect(cholesky(nearly, 1e-8)[1][1]).toBe(0);
    expect(cholesky([Float64Array.of(0.5)], 0.5)[0][0]).toBe(0);
  });
});
