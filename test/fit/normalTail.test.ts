import { expect, it } from 'vitest';
import { normalTail } from '../../src/fit/normalTail.ts';

it('has the values of the handbook’s table on either hand of none', () => {
  // Abramowitz & Stegun (1964), table 26.1: P(x) to 15 places, here 1 − P(x).
  for (const [z, beyond] of [
    [0, 0.5],
    [1, 0.158655253931457],
    [2, 0.022750131948179],
    [3, 0.00134989803163],
  ]) {
    expect(normalTail(z)).toBeCloseTo(beyond, 14);
    expect(normalTail(-z)).toBeCloseTo(1 - beyond, 14);
  }
});

it('is refused what is no figure', () => {
  for (const z of [NaN, Infinity, -Infinity]) {
    expect(() => normalTail(z)).toThrow(`a finite number expected, got ${z}`);
  }
});
