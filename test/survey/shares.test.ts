import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wholeShares } from '../../src/survey/shares.ts';

describe('shares in whole per cent', () => {
  it('give what is left over to the largest remainders, the earlier of equals first', () => {
    expect(wholeShares([1, 1, 1])).toEqual([34, 33, 33]);
    expect(wholeShares([0.621, 0.302, 0.077])).toEqual([62, 30, 8]);
    expect(wholeShares([5])).toEqual([100]);
    expect(wholeShares([0, 0])).toEqual([0, 0]);
    expect(wholeShares([])).toEqual([]);
  });

  it('always add up to 100, each within 1 of its exact share', () => {
    const part = fc.double({ min: 0, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 8 }), (parts) => {
        const total = parts.reduce((a, b) => a + b, 0);
        fc.pre(total > 1e-300);
        const shares = wholeShares(parts);
        expect(shares.reduce((a, b) => a + b, 0)).toBe(100);
        shares.forEach((share, i) => {
          expect(Number.isInteger(share)).toBe(true);
          expect(Math.abs(share - (100 * parts[i]) / total)).toBeLessThan(1);
        });
      }),
      { seed: 20261125, numRuns: 200 },
    );
  });

  it('throw RangeError on a part below 0 or not finite', () => {
    expect(() => wholeShares([1, -0.1])).toThrow(RangeError);
    expect(() => wholeShares([1, NaN])).toThrow(RangeError);
    expect(() => wholeShares([Infinity])).toThrow(RangeError);
  });
});
