import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import reference from '../../fixtures/reference/robust_fit/theil_mann_kendall_reference.json';
import scipy from '../../fixtures/reference/trend/scipy_trend.json';
import { theilSen, type TheilSen } from '../../src/fit/theilSen.ts';

function fitted(x: readonly number[], y: readonly number[], confidence?: number): TheilSen {
  const fit = theilSen(x, y, confidence);
  if (!fit.ok) throw new Error(fit.reason);
  return fit;
}

describe('the Theil-Sen slope against published examples', () => {
  it('gives the slope of the cloud seeding example (Hollander, Wolfe and Chicken, 9.1)', () => {
    const { x, y, published, computed_here: found } = reference.theil_cloud_seeding;
    const fit = fitted(x, y);
    expect(fit.slope.toFixed(3)).toBe(published.slope.toFixed(3));
    expect(fit.slope).toBeCloseTo(found.slope, 12);
    expect(fit.pairs).toBe(10);
  });

  it('gives slope and intercept of Helsel and Hirsch’s seven points, whatever the outlier', () => {
    const { x, y, published } = reference.helsel_hirsch_one_outlier;
    const fit = fitted(x, y);
    expect(fit.slope).toBe(published.median_slope);
    expect(fit.intercept).toBe(published.intercept_median_y_minus_slope_median_x);
    expect(fitted(x, [1, 2, 3, 4, 5, 6000, 7]).slope).toBe(published.median_slope);
  });

  it('leaves out as many slopes as the exact table allows: of five points none, at 95 %', () => {
    // P(S ≥ 10) = 0.008333 and P(S ≥ 8) = 0.041667 (Gilbert 1987, table A18).
    const { x, y, computed_here: found } = reference.theil_cloud_seeding;
    const slopes = found.sorted_pairwise_slopes;
    const wide = fitted(x, y, 0.95);
    expect(wide.interval?.[0]).toBeCloseTo(slopes[0], 6);
    expect(wide.interval?.[1]).toBeCloseTo(slopes[9], 6);
    expect(wide.coverage).toBeCloseTo(1 - 2 * 0.008333, 5);
    const narrow = fitted(x, y, 0.9);
    expect(narrow.interval?.[0]).toBeCloseTo(slopes[1], 6);
    expect(narrow.interval?.[1]).toBeCloseTo(slopes[8], 6);
    expect(narrow.coverage).toBeCloseTo(1 - 2 * 0.041667, 5);
  });

  it('gives no interval of 95 % to four points', () => {
    expect(fitted([1, 2, 3, 4], [1, 3, 2, 5]).interval).toBeUndefined();
    expect(fitted([1, 2, 3, 4], [1, 3, 2, 5], 0.9).interval).toBeDefined();
  });
});

it.each(scipy.theil_sen)(
  'agrees with scipy’s theilslopes on $name, to 12 digits, interval and all',
  ({ x, y, confidence, slope, intercept, interval }) => {
    const fit = fitted(x, y, confidence);
    expect(fit.slope).toBeCloseTo(slope, 12);
    expect(fit.intercept).toBeCloseTo(intercept, 12);
    expect(fit.interval?.[0]).toBeCloseTo(interval[0], 12);
    expect(fit.interval?.[1]).toBeCloseTo(interval[1], 12);
  },
);

it('covers the true slope as often as it says, exactly counted', () => {
  // Every order of six residuals is alike: the share of orders whose interval covers a slope of 0.
  const values = [0, 1, 2.3, 3.1, 4.6, 7];
  const orders = permutations(values);
  const covering = orders.filter((y) => {
    const { interval } = fitted([0, 1, 2, 3, 4, 5], y, 0.8);
    return interval !== undefined && interval[0] <= 0 && interval[1] >= 0;
  });
  const { coverage } = fitted([0, 1, 2, 3, 4, 5], values, 0.8);
  expect(coverage).toBeGreaterThanOrEqual(0.8);
  expect(covering.length / orders.length).toBeCloseTo(Number(coverage), 12);
});

it('adds what a line adds, and scales with y', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 5, maxLength: 15 }),
      fc.integer({ min: -9, max: 9 }),
      (y, added) => {
        const x = y.map((_, i) => 2 * i + (i % 3));
        const plain = fitted(x, y);
        const tilted = fitted(
          x,
          y.map((value, i) => 3 * value + added * x[i]),
        );
        expect(tilted.slope).toBeCloseTo(3 * plain.slope + added, 9);
      },
    ),
    { seed: 614, numRuns: 100 },
  );
});

it('refuses too few points, points at one x, and a confidence that is none', () => {
  expect(theilSen([1], [1])).toMatchObject({ ok: false, reason: 'too few readings', needed: 2 });
  expect(theilSen([2, 2], [1, 3])).toMatchObject({ ok: false, reason: 'degenerate' });
  expect(() => theilSen([1, 2], [1, 2], 1)).toThrow(RangeError);
  expect(() => theilSen([1, 2], [1, NaN])).toThrow(RangeError);
});

function permutations(values: readonly number[]): number[][] {
  if (values.length <= 1) return [[...values]];
  return values.flatMap((value, i) =>
    permutations([...values.slice(0, i), ...values.slice(i + 1)]).map((rest) => [value, ...rest]),
  );
}
