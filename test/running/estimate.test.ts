import { describe, expect, test } from 'vitest';
import { normalSequence } from '../../src/fit/normalSequence.ts';
import { drawn, expected, uncertainty } from '../../src/running/estimate.ts';

// JCGM 100:2008 (GUM): 4.3.7 a/√3 and 4.3.9 a/√6, from memory, as in fixtures/reference/gum_type_b_rules.json.
test('bounds are rectangular: middle, and half-width over √3', () => {
  const estimate = { low: 540, high: 590 };
  expect(expected(estimate)).toBe(565);
  expect(uncertainty(estimate)).toBeCloseTo(25 / Math.sqrt(3), 12);
});

test('with a likeliest value they are triangular: half-width over √6 where it is the middle', () => {
  expect(uncertainty({ low: 540, high: 590, likeliest: 565 })).toBeCloseTo(25 / Math.sqrt(6), 12);
});

test('a figure given as it is has no doubt, one with u has that', () => {
  expect([uncertainty({ value: 3 }), uncertainty({ value: 3, u: 0.2 })]).toEqual([0, 0.2]);
});

describe('draws', () => {
  const normals = normalSequence(20_000);
  test.each([
    { low: 540, high: 590 },
    { low: 540, high: 590, likeliest: 580 },
    { low: 0, high: 10, likeliest: 0 },
    { value: 7, u: 2 },
  ])('of %o have its expectation and uncertainty within 2 %', (estimate) => {
    const values = Array.from(normals, (z) => drawn(estimate, z));
    const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
    const deviation = Math.sqrt(
      values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length,
    );
    expect(Math.abs(mean - expected(estimate))).toBeLessThan(0.02 * uncertainty(estimate));
    expect(Math.abs(deviation / uncertainty(estimate) - 1)).toBeLessThan(0.02);
  });
});

test.each([
  { low: 2, high: 1 },
  { low: 0, high: 1, likeliest: 2 },
  { value: Number.NaN },
  { value: 1, u: -1 },
])('%o is refused', (estimate) => {
  expect(() => uncertainty(estimate)).toThrow(RangeError);
});
