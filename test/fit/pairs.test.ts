import { describe, expect, it } from 'vitest';
import { checkPairs, rangeOf } from '../../src/fit/pairs.ts';

describe('pairs of x and y', () => {
  it('pass when they are of one length and finite, none at all included', () => {
    expect(() => {
      checkPairs([], []);
      checkPairs([1, 2], [-3, 0]);
    }).not.toThrow();
  });

  it('throw RangeError with both lengths, or with the first bad value and its place', () => {
    expect(() => {
      checkPairs([1, 2], [1]);
    }).toThrow(new RangeError('x and y of one length expected, got 2 and 1'));
    expect(() => {
      checkPairs([1, 2], [1, -Infinity]);
    }).toThrow(new RangeError('finite values expected, got -Infinity at index 1'));
    expect(() => {
      checkPairs([NaN], [1]);
    }).toThrow(new RangeError('finite values expected, got NaN at index 0'));
  });
});

it('the range of values is found however many there are', () => {
  expect(rangeOf([3, -1, 2])).toEqual([-1, 3]);
  expect(rangeOf([-1, 2, 5, 3])).toEqual([-1, 5]);
  expect(rangeOf([7])).toEqual([7, 7]);
  expect(rangeOf([-4, -4, -9])).toEqual([-9, -4]);
  const many = Array.from({ length: 300000 }, (_, i) => i % 1000);
  expect(rangeOf(many)).toEqual([0, 999]);
});
