import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { splineBasis, type SplineBasis } from '../../src/fit/splineBasis.ts';
import { cubicCoefficients, places } from './support.ts';

/** Strictly ascending knots, 2 to 12 of them, steps from 1 to 40. */
const anyKnots = fc
  .array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 11 })
  .map((steps) => steps.reduce<number[]>((all, s) => [...all, all[all.length - 1] + s], [-7]));

function penaltyOf({ penalty, size }: SplineBasis, c: readonly number[]): number {
  let sum = 0;
  for (let j = 0; j < size; j++) {
    for (let d = 0; d < 4 && j + d < size; d++) {
      sum += (d === 0 ? 1 : 2) * penalty[4 * j + d] * c[j] * c[j + d];
    }
  }
  return sum;
}

describe('the spline basis', () => {
  it('sums to 1 at every x, with no value below 0', () => {
    fc.assert(
      fc.property(anyKnots, (knots) => {
        const basis = splineBasis(knots);
        const out = new Float64Array(4);
        for (const x of places(knots[0], knots[knots.length - 1], 57)) {
          basis.valuesAt(x, out);
          expect(Math.abs(out[0] + out[1] + out[2] + out[3] - 1)).toBeLessThan(1e-14);
          expect(Math.min(...out)).toBeGreaterThanOrEqual(0);
        }
      }),
      { seed: 111, numRuns: 60 },
    );
  });

  it('reproduces every cubic to 12 digits, by Marsden’s identity', () => {
    const anyCubic = fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(anyKnots, anyCubic, (knots, cubic) => {
        const basis = splineBasis(knots);
        const c = cubicCoefficients(basis, cubic);
        const out = new Float64Array(4);
        const scale = Math.max(1, ...c.map(Math.abs));
        for (const x of places(knots[0], knots[knots.length - 1], 41)) {
          const first = basis.valuesAt(x, out);
          const found = [0, 1, 2, 3].reduce((sum, k) => sum + out[k] * c[first + k], 0);
          const wanted = cubic[0] + x * (cubic[1] + x * (cubic[2] + x * cubic[3]));
          expect(Math.abs(found - wanted) / scale).toBeLessThan(1e-12);
        }
      }),
      { seed: 112, numRuns: 60 },
    );
  });

  it('has its first function alone at the aft end and its last alone at the fore end', () => {
    const basis = splineBasis([0, 2, 3, 7]);
    const out = new Float64Array(4);
    expect(basis.size).toBe(6);
    expect(basis.valuesAt(0, out)).toBe(0);
    expect([...out]).toEqual([1, 0, 0, 0]);
    expect(basis.valuesAt(7, out)).toBe(2);
    expect([...out]).toEqual([0, 0, 0, 1]);
  });
});

describe('the penalty', () => {
  const knots = [-7, -3, 0, 1, 6, 13];

  it('of a parabola c·x² is 4c² times the length, to 12 digits', () => {
    const basis = splineBasis(knots);
    const penalty = penaltyOf(basis, cubicCoefficients(basis, [5, -2, 3, 0]));
    expect(penalty / (4 * 3 ** 2 * 20)).toBeCloseTo(1, 12);
  });

  it('of a cubic c·x² + d·x³ is ∫ (2c + 6dx)² in closed form, to 12 digits', () => {
    const basis = splineBasis(knots);
    const penalty = penaltyOf(basis, cubicCoefficients(basis, [1, 1, 2, -0.5]));
    const cubed = (x: number) => (4 - 3 * x) ** 3 / -9;
    expect(penalty / (cubed(13) - cubed(-7))).toBeCloseTo(1, 12);
  });

  it('of a straight line is 0', () => {
    const basis = splineBasis(knots);
    expect(Math.abs(penaltyOf(basis, cubicCoefficients(basis, [4, 9, 0, 0])))).toBeLessThan(1e-10);
  });
});

describe('what the basis refuses', () => {
  it('throws RangeError on fewer than two knots, knots out of order, twice or not finite', () => {
    expect(() => splineBasis([1])).toThrow(new RangeError('at least 2 knots expected, got 1'));
    expect(() => splineBasis([0, 2, 1])).toThrow('got 1 at 2');
    expect(() => splineBasis([0, 1, 1, 2])).toThrow(RangeError);
    expect(() => splineBasis([0, NaN, 2])).toThrow(RangeError);
    expect(() => splineBasis([0, Infinity])).toThrow(RangeError);
  });

  it('throws RangeError outside its domain: nothing is extrapolated', () => {
    const basis = splineBasis([0, 1, 2]);
    const out = new Float64Array(4);
    expect(() => basis.valuesAt(-1e-9, out)).toThrow(
      new RangeError('x within 0..2 expected, got -1e-9'),
    );
    expect(() => basis.valuesAt(2.0001, out)).toThrow(RangeError);
    expect(() => basis.valuesAt(NaN, out)).toThrow(RangeError);
  });
});
