import { expect, it } from 'vitest';
import { largestOf } from '../../src/fit/largestOf.ts';

const values = Float64Array.of(9, 1, 3, 2, 7);

it('the largest is sought from the first place on and not at the last', () => {
  expect(largestOf(values, 1, 4)).toBe(3);
  expect(largestOf(values, 0, 4)).toBe(9);
  expect(largestOf(values, 1)).toBe(7);
});

it('is 0 where there are none', () => {
  expect(largestOf(values, 2, 2)).toBe(0);
});
