import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../src/fit/normalQuantile.ts';

describe('normalQuantile', () => {
  // Standard normal table to 8 decimals, computed with scipy.special.ndtri (scipy 1.10).
  it.each([
    [0.5, 0],
    [0.75, 0.67448975],
    [0.95, 1.64485363],
    [0.975, 1.95996398],
    [0.999, 3.09023231],
    [1e-6, -4.75342431],
    [1e-12, -7.0344837],
  ])('gives the quantile of %d to 7 digits', (p, z) => {
    expect(Math.abs(normalQuantile(p) - z)).toBeLessThan(1e-6);
  });

  it('is odd about a half', () => {
    expect(normalQuantile(0.25)).toBe(-normalQuantile(0.75));
  });

  it.each([0, 1, -0.1, NaN])('refuses %d, which is no probability between 0 and 1', (p) => {
    expect(() => normalQuantile(p)).toThrow(RangeError);
  });
});
