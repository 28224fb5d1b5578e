import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  add,
  divide,
  exactDifference,
  exactProduct,
  exactSum,
  multiply,
  powerOfTwo,
  subtract,
  type DoubleDouble,
} from '../../src/fit/doubleDouble.ts';

/** A double of whole value as an integer of any size: what JavaScript itself holds without rounding. */
const whole = ([high, low]: DoubleDouble) => BigInt(high) + BigInt(low);
const size = (value: bigint) => (value < 0n ? -value : value);

const integer = fc.maxSafeInteger();
/** Whole numbers of up to 106 bits in two doubles. */
const long = fc
  .tuple(integer, integer)
  .map(([high, low]) => exactSum(high * 2 ** 53, low))
  .filter(([high]) => high !== 0);

describe('two doubles for one number, against integers of any size', () => {
  it('lose nothing of a sum, a difference and a product', () => {
    fc.assert(
      fc.property(integer, integer, (a, b) => {
        expect(whole(exactSum(a, b))).toBe(BigInt(a) + BigInt(b));
        expect(whole(exactDifference(a, b))).toBe(BigInt(a) - BigInt(b));
        expect(whole(exactProduct(a, b))).toBe(BigInt(a) * BigInt(b));
      }),
      { seed: 411, numRuns: 300 },
    );
  });

  it('keep a sum and a product to 2⁻¹⁰² of the operands', () => {
    fc.assert(
      fc.property(long, long, (a, b) => {
        const sum = whole(a) + whole(b);
        expect(size(whole(add(a, b)) - sum) << 102n <= size(sum)).toBe(true);
        expect(
          size(whole(subtract(a, b)) - (whole(a) - whole(b))) << 102n <=
            size(whole(a)) + size(whole(b)),
        ).toBe(true);
        const product = whole(a) * whole(b);
        expect(size(whole(multiply(a, b)) - product) << 102n <= size(product)).toBe(true);
      }),
      { seed: 412, numRuns: 300 },
    );
  });

  it('keep a quotient to 2⁻¹⁰⁰ of itself', () => {
    fc.assert(
      fc.property(long, long, (a, b) => {
        // Scaled by a power of two, which is exact, so that the quotient is a whole number.
        const q = divide(a, b);
        const scaled = whole([q[0] * 2 ** 300, q[1] * 2 ** 300]);
        const left = scaled * whole(b) - (whole(a) << 300n);
        expect(size(left) << 100n <= size(whole(a)) << 300n).toBe(true);
      }),
      { seed: 413, numRuns: 300 },
    );
  });

  it('hold a third to 32 digits', () => {
    const third = divide([1, 0], [3, 0]);
    const back = subtract(multiply(third, [3, 0]), [1, 0]);
    expect(Math.abs(back[0])).toBeLessThan(1e-31);
    expect(third[0]).toBe(1 / 3);
    expect(third[1]).not.toBe(0);
  });
});

it('a power of two divides a magnitude into reach of 1, and nothing divides 0', () => {
  expect([8, 9, 0.3, 5e-324, Number.MAX_VALUE, 0].map(powerOfTwo)).toEqual([
    8,
    8,
    0.25,
    5e-324,
    2 ** 1023,
    1,
  ]);
});
