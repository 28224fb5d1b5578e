import * as fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import { dot, heightsAt, slopeWeights } from '../../src/fit/functionals.ts';
import { splineBasis, type SplineBasis } from '../../src/fit/splineBasis.ts';
import { cubicCoefficients, places } from './support.ts';

const domain = [40, 1540] as const;
let on: { readonly basis: SplineBasis; readonly domain: typeof domain };
beforeEach(() => {
  on = { basis: splineBasis([0, 0.1, 0.25, 0.3, 0.55, 0.8, 1]), domain };
});

/** Coefficients of a + b·x + c·x² + d·x³ with x in mm: the basis has x scaled to 0..1. */
function inMillimetres([a, b, c, d]: readonly number[]): Float64Array {
  const [low, high] = domain;
  const span = high - low;
  return Float64Array.from(
    cubicCoefficients(on.basis, [
      a + b * low + c * low ** 2 + d * low ** 3,
      (b + 2 * c * low + 3 * d * low ** 2) * span,
      (c + 3 * d * low) * span ** 2,
      d * span ** 3,
    ]),
  );
}

const anyStretch = fc
  .tuple(fc.integer({ min: 40, max: 1500 }), fc.integer({ min: 20, max: 1500 }))
  .map(([p, length]) => [p, Math.min(1540, p + length)] as const);

describe('the least-squares slope over a stretch', () => {
  it('of a parabola c·x² is c·(p + q), to 10 digits, wherever the stretch lies', () => {
    const c = 3e-6;
    const parabola = inMillimetres([5, 0, c, 0]);
    fc.assert(
      fc.property(anyStretch, ([p, q]) => {
        expect(dot(slopeWeights(on, p, q), parabola) / (c * (p + q))).toBeCloseTo(1, 10);
      }),
      { seed: 151, numRuns: 100 },
    );
  });

  it('of a straight line is its slope, and adding a line adds just that', () => {
    const line = inMillimetres([-7, 0.004, 0, 0]);
    fc.assert(
      fc.property(anyStretch, ([p, q]) => {
        expect(dot(slopeWeights(on, p, q), line)).toBeCloseTo(0.004, 12);
      }),
      { seed: 152, numRuns: 50 },
    );
  });

  it('of a cubic is that of a fine least-squares line through it', () => {
    const [p, q] = [210, 905];
    const cubic = (x: number) => 2e-9 * x ** 3 - 1e-6 * x * x;
    const fine = Array.from({ length: 20000 }, (_, i) => p + ((i + 0.5) * (q - p)) / 20000);
    const middle = (p + q) / 2;
    const sxy = fine.reduce((sum, x) => sum + (x - middle) * cubic(x), 0);
    const sxx = fine.reduce((sum, x) => sum + (x - middle) ** 2, 0);
    const found = dot(slopeWeights(on, p, q), inMillimetres([0, 0, -1e-6, 2e-9]));
    expect(found / (sxy / sxx)).toBeCloseTo(1, 7);
  });
});

describe('heights', () => {
  it('at places are those of the cubic that the coefficients stand for, to 11 decimals', () => {
    const x = places(40, 1540, 37);
    const z = heightsAt(on, x)(inMillimetres([1, -2e-3, 3e-6, -1e-9]));
    x.forEach((at, i) => {
      expect(z[i]).toBeCloseTo(1 - 2e-3 * at + 3e-6 * at * at - 1e-9 * at ** 3, 11);
    });
  });

  it('and slopes throw RangeError outside the readings: nothing is extrapolated', () => {
    expect(() => heightsAt(on, [39])).toThrow(RangeError);
    expect(() => heightsAt(on, [100, 1541])).toThrow(/nothing is extrapolated/);
    expect(() => slopeWeights(on, 0, 300)).toThrow(RangeError);
    expect(() => slopeWeights(on, 300, 1600)).toThrow(RangeError);
    expect(() => slopeWeights(on, 300, 300)).toThrow(
      new RangeError('a stretch expected, got 300 to 300'),
    );
    expect(() => slopeWeights(on, 300, NaN)).toThrow(RangeError);
  });
});
