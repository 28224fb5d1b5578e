import * as fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import thermometer from '../../fixtures/reference/gum_h3_thermometer.json';
import noInt1 from '../../fixtures/reference/nist_strd/NoInt1.json';
import noInt2 from '../../fixtures/reference/nist_strd/NoInt2.json';
import norris from '../../fixtures/reference/nist_strd/Norris.json';
import { fitLine, fitProportional, lineAt, type LineFit } from '../../src/fit/line.ts';

/** Digits in which two numbers agree: −log10 of the relative difference. */
function digits(found: number | undefined, certified: number): number {
  if (found === undefined) return 0;
  return -Math.log10(Math.abs(found - certified) / Math.abs(certified) + 1e-17);
}

function fitted(x: readonly number[], y: readonly number[]): LineFit {
  const fit = fitLine(x, y);
  if (!fit.ok) throw new Error(fit.reason);
  return fit;
}

describe('a straight line against NIST StRD', () => {
  // NIST Statistical Reference Datasets, Linear Least Squares Regression: Norris, NoInt1, NoInt2.
  it('gives the certified estimates of Norris to 12 digits', () => {
    const fit = fitted(norris.x, norris.y);
    const [intercept, slope] = norris.certified.params;
    expect(digits(fit.intercept, intercept.value)).toBeGreaterThan(12);
    expect(digits(fit.slope, slope.value)).toBeGreaterThan(12);
    expect(fit).toMatchObject({ n: 36, dof: 34, domain: [0.2, 999] });
  });

  it('gives the certified standard errors and residual deviation of Norris to 10 digits', () => {
    const fit = fitted(norris.x, norris.y);
    const [intercept, slope] = norris.certified.params;
    expect(digits(fit.interceptDeviation, intercept.se)).toBeGreaterThan(10);
    expect(digits(fit.slopeDeviation, slope.se)).toBeGreaterThan(10);
    expect(digits(fit.residualDeviation, norris.certified.residual_sd)).toBeGreaterThan(10);
  });

  it.each([
    ['NoInt1', noInt1],
    ['NoInt2', noInt2],
  ])('gives the certified slope of %s to 12 digits, its errors to 12', (_, set) => {
    const fit = fitProportional(set.x, set.y);
    if (!fit.ok) throw new Error(fit.reason);
    const [slope] = set.certified.params;
    expect(digits(fit.slope, slope.value)).toBeGreaterThan(12);
    expect(digits(fit.slopeDeviation, slope.se)).toBeGreaterThan(12);
    expect(digits(fit.residualDeviation, set.certified.residual_sd)).toBeGreaterThan(12);
    expect(fit.dof).toBe(set.residual_df);
  });
});

describe('a straight line against GUM H.3, calibration of a thermometer', () => {
  // JCGM 100:2008, Annex H.3, Table H.6 and H.3.1 to H.3.5; every digit that is printed.
  const { t_degC: t, b_degC: b, t0, published, published_recentred_H_3_5: recentred } = thermometer;
  let fit: LineFit;
  beforeEach(() => {
    fit = fitted(
      t.map((value) => value - t0),
      b,
    );
  });

  it('gives both parameters, their deviations and correlation as printed', () => {
    expect(fit.intercept.toFixed(4)).toBe(published.y1_degC.toFixed(4));
    expect(fit.slope.toFixed(5)).toBe(published.y2.toFixed(5));
    expect(fit.interceptDeviation?.toFixed(4)).toBe(published.s_y1_degC.toFixed(4));
    expect(fit.slopeDeviation?.toFixed(5)).toBe(published.s_y2.toFixed(5));
    expect(fit.correlation.toFixed(3)).toBe(published.r_y1_y2.toFixed(3));
    expect(fit.residualDeviation?.toFixed(4)).toBe(published.s_residual_degC.toFixed(4));
    expect(fit.dof).toBe(published.dof);
  });

  it('predicts the correction at 30 °C, and its uncertainty, as printed', () => {
    const { y, u } = lineAt(fit, 30 - t0);
    expect(y.toFixed(4)).toBe(published.b_at_30_degC.toFixed(4));
    expect(u?.toFixed(4)).toBe(published.uc_b30_degC.toFixed(4));
  });

  it('gives the recentred form, without correlation, and the same prediction from it', () => {
    const centre = t.reduce((sum, value) => sum + value, 0) / t.length;
    expect(centre.toFixed(4)).toBe(recentred.t0_mean_degC.toFixed(4));
    const about = fitted(
      t.map((value) => value - centre),
      b,
    );
    expect(about.intercept.toFixed(4)).toBe(recentred.y1_degC.toFixed(4));
    expect(about.interceptDeviation?.toFixed(4)).toBe(recentred.s_y1_degC.toFixed(4));
    expect(about.slopeDeviation?.toFixed(5)).toBe(recentred.s_y2.toFixed(5));
    expect(Math.abs(about.correlation)).toBeLessThan(1e-12);
    const { y, u } = lineAt(about, 30 - centre);
    expect(y.toFixed(4)).toBe(recentred.b_at_30_degC.toFixed(4));
    expect(u?.toFixed(4)).toBe(recentred.uc_b30_degC.toFixed(4));
  });

  it('gives the residuals that exact recalculation gives, to 7 decimals', () => {
    t.forEach((value, i) => {
      const residual = b[i] - lineAt(fit, value - t0).y;
      expect(residual).toBeCloseTo(thermometer.computed_full_precision.residual[i], 7);
    });
  });
});

describe('what a straight line refuses', () => {
  it('says how many readings it needs when there are too few', () => {
    expect(fitLine([1], [2])).toEqual({ ok: false, reason: 'too few readings', n: 1, needed: 2 });
    expect(fitLine([], [])).toMatchObject({ ok: false, n: 0 });
    expect(fitProportional([], [])).toMatchObject({ ok: false, reason: 'too few readings' });
  });

  it('calls readings that all lie at one x degenerate, rounding included', () => {
    expect(fitLine([3, 3, 3], [1, 2, 4])).toMatchObject({ ok: false, reason: 'degenerate' });
    expect(fitLine([0, 0], [1, 2])).toMatchObject({ ok: false, reason: 'degenerate' });
    // One place, differing by rounding only.
    expect(fitLine([0.1 + 0.2, 0.3, 0.3], [1, 2, 5])).toMatchObject({ reason: 'degenerate' });
    expect(fitProportional([0, 0], [1, 2])).toMatchObject({ ok: false, reason: 'degenerate' });
  });

  it('throws RangeError on unequal lengths and on values that are not finite', () => {
    expect(() => fitLine([1, 2], [1])).toThrow(RangeError);
    expect(() => fitLine([1, NaN], [1, 2])).toThrow(RangeError);
    expect(() => fitLine([1, 2], [1, Infinity])).toThrow(RangeError);
    expect(() => fitProportional([1], [1, 2])).toThrow(RangeError);
  });

  it('leaves the deviations out, rather than 0, when no degree of freedom is left', () => {
    const two = fitted([0, 10], [1, 3]);
    expect(two).toMatchObject({ intercept: 1, slope: 0.2, dof: 0 });
    expect(two.slopeDeviation).toBeUndefined();
    expect(lineAt(two, 5)).toEqual({ y: 2 });
    expect(fitProportional([2], [3])).toEqual({ ok: true, slope: 1.5, n: 1, dof: 0 });
  });
});

it('leaves residuals that are orthogonal to the design', () => {
  const point = fc.tuple(fc.integer({ min: -3000, max: 3000 }), fc.integer({ min: -50, max: 50 }));
  fc.assert(
    fc.property(fc.array(point, { minLength: 3, maxLength: 30 }), (points) => {
      const x = points.map((p) => p[0]);
      const y = points.map((p) => p[1]);
      const fit = fitLine(x, y);
      fc.pre(fit.ok);
      const residuals = x.map((at, i) => y[i] - lineAt(fit, at).y);
      expect(residuals.reduce((sum, r) => sum + r, 0)).toBeCloseTo(0, 8);
      expect(residuals.reduce((sum, r, i) => sum + (r * x[i]) / 3000, 0)).toBeCloseTo(0, 8);
    }),
    { seed: 101, numRuns: 200 },
  );
});
