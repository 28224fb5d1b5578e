import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { pairedMoments } from '../../src/fit/pairedMoments.ts';

const anyPairs = fc.array(
  fc.tuple(
    fc.double({ min: -9, max: 9, noNaN: true }),
    fc.double({ min: -9, max: 9, noNaN: true }),
  ),
  { minLength: 1, maxLength: 40 },
);

it('moments of pairs change in no bit when the two of every pair are swapped', () => {
  fc.assert(
    fc.property(anyPairs, (pairs) => {
      const swapped = pairedMoments(pairs.flatMap(([a, b]) => [b, a]));
      expect(swapped).toEqual(pairedMoments(pairs.flat()));
    }),
    { seed: 171, numRuns: 200 },
  );
});

it('moments of pairs are mean and sample standard deviation: 5 and √(32/7) for a known eight', () => {
  // 2 4 4 4 5 5 7 9, the common textbook example: mean 5, squares 32.
  const { mean, deviation } = pairedMoments([2, 4, 4, 4, 5, 5, 7, 9]);
  expect(mean).toBe(5);
  expect(deviation).toBeCloseTo(Math.sqrt(32 / 7), 14);
});

it('moments of pairs throw RangeError on an odd number of values and on none', () => {
  expect(() => pairedMoments([1, 2, 3])).toThrow(new RangeError('values in pairs expected, got 3'));
  expect(() => pairedMoments([])).toThrow(RangeError);
});
