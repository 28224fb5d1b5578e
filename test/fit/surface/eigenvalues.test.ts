import { expect, it } from 'vitest';
import { eigenvalues } from '../../../src/fit/surface/eigenvalues.ts';

const matrix = (n: number, entry: (i: number, j: number) => number) =>
  Array.from({ length: n }, (_, i) => Float64Array.from({ length: n }, (_, j) => entry(i, j)));
const sorted = (values: Float64Array) => Array.from(values).sort((a, b) => a - b);

it('are those of second differences in closed form: 2 − 2 cos kπ/(n + 1)', () => {
  // Abramowitz & Stegun (1964) have the zeros of Chebyshev's polynomials, which these are; the form itself is from memory.
  for (const n of [3, 8, 15]) {
    const found = sorted(
      eigenvalues(matrix(n, (i, j) => (i === j ? 2 : Math.abs(i - j) === 1 ? -1 : 0))),
    );
    found.forEach((value, k) =>
      expect(value).toBeCloseTo(2 - 2 * Math.cos(((k + 1) * Math.PI) / (n + 1)), 13),
    );
  }
});

it('are found where sizes lie far apart, to rounding of the largest', () => {
  // D + v vᵀ with D none is of rank one: |v|² and nothing else.
  const v = [1, 1e3, 1e6, -2e3];
  const found = sorted(eigenvalues(matrix(4, (i, j) => v[i] * v[j])));
  const whole = v.reduce((sum, each) => sum + each * each, 0);
  expect(found[3] / whole).toBeCloseTo(1, 14);
  found.slice(0, 3).forEach((value) => expect(Math.abs(value) / whole).toBeLessThan(1e-14));
});

it('are (a + b ± √((a − b)² + 4 c²)) / 2 of two by two, whichever way round and of either sign', () => {
  for (const [a, b, c] of [
    [2, 3, 1],
    [3, 2, 1],
    [5, 5, 2],
    [5, 5, -2],
    [-1, 4, 1e-3],
    [1, 1 + 1e-6, 1e-9],
  ]) {
    const found = sorted(eigenvalues([Float64Array.of(a, c), Float64Array.of(c, b)]));
    const root = Math.hypot(a - b, 2 * c);
    expect(found[0]).toBeCloseTo((a + b - root) / 2, 14);
    expect(found[1]).toBeCloseTo((a + b + root) / 2, 14);
  }
});

it('leave the matrix as it was given, and a diagonal one is its own answer', () => {
  const given = matrix(3, (i, j) => 1 / (i + j + 1));
  const before = given.map((row) => Array.from(row));
  const found = eigenvalues(given);
  expect(given.map((row) => Array.from(row))).toEqual(before);
  expect(found.reduce((sum, value) => sum + value, 0)).toBeCloseTo(1 + 1 / 3 + 1 / 5, 14);
  // Determinant of Hilbert's matrix of order 3: 1/2160.
  expect(found.reduce((product, value) => product * value, 1)).toBeCloseTo(1 / 2160, 15);
  expect(Array.from(eigenvalues(matrix(3, (i, j) => (i === j ? 3 - i : 0))))).toEqual([3, 2, 1]);
});
