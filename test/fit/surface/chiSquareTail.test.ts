import { expect, it } from 'vitest';
import chiSquare from '../../../fixtures/reference/surface/chi_square.json';
import { chiSquareTail } from '../../../src/fit/surface/chiSquareTail.ts';

it('agrees with scipy to 1e-10 of the value', () => {
  // fixtures/reference/generate_surface_network.py
  for (const { x, dof, tail } of chiSquare) {
    expect(Math.abs(chiSquareTail(x, dof) / tail - 1)).toBeLessThan(1e-10);
  }
});

it('is exp(−x/2) at two degrees of freedom and exp(−x/2) (1 + x/2) at four', () => {
  // Abramowitz & Stegun (1964), 26.4.21, the sum of Poisson's terms.
  for (const x of [1e-6, 0.5, 3.9999, 4, 4.0001, 5.9999, 6, 6.0001, 40, 300]) {
    expect(chiSquareTail(x, 2) / Math.exp(-x / 2)).toBeCloseTo(1, 11);
    expect(chiSquareTail(x, 4) / (Math.exp(-x / 2) * (1 + x / 2))).toBeCloseTo(1, 11);
  }
});

it('is 1 of nothing, and refuses a sum of squares that is none and no degrees of freedom', () => {
  expect(chiSquareTail(0, 3)).toBe(1);
  expect(() => chiSquareTail(-1, 2)).toThrow('x from 0 expected, got -1');
  expect(() => chiSquareTail(Infinity, 2)).toThrow('x from 0 expected, got Infinity');
  expect(() => chiSquareTail(NaN, 2)).toThrow(RangeError);
  expect(() => chiSquareTail(1, 0)).toThrow('degrees of freedom from 1 expected, got 0');
});
