import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import thermometer from '../../fixtures/reference/gum_h3_thermometer.json';
import engel from '../../fixtures/reference/robust_fit/lad_quantile_reference.json';
import scipy from '../../fixtures/reference/trend/scipy_trend.json';
import { fitLine } from '../../src/fit/line.ts';
import {
  fitWeightedLine,
  reaches,
  weightedLineAt,
  widening,
  type WeightedLine,
} from '../../src/fit/weightedLine.ts';
import { csvRows } from './support.ts';

function fitted(x: readonly number[], y: readonly number[], u: readonly number[]): WeightedLine {
  const fit = fitWeightedLine(x, y, u);
  if (!fit.ok) throw new Error(fit.reason);
  return fit;
}

describe('a line through points of known uncertainty, against GUM H.3', () => {
  // JCGM 100:2008, Annex H.3: every point with the residual deviation found there as its uncertainty.
  const { t_degC: t, b_degC: b, t0, published, published_recentred_H_3_5: recentred } = thermometer;
  const s = thermometer.computed_full_precision.s;
  const fit = fitted(
    t.map((value) => value - t0),
    b,
    t.map(() => s),
  );

  it('gives slope, intercept and their uncertainties as printed', () => {
    const atZero = weightedLineAt(fit, 0);
    expect(fit.slope.toFixed(5)).toBe(published.y2.toFixed(5));
    expect(fit.slopeUncertainty.toFixed(5)).toBe(published.s_y2.toFixed(5));
    expect(atZero.y.toFixed(4)).toBe(published.y1_degC.toFixed(4));
    expect(atZero.u.toFixed(4)).toBe(published.s_y1_degC.toFixed(4));
    expect(fit.dof).toBe(published.dof);
  });

  it('gives the recentred form of H.3.5, where level and slope are not correlated', () => {
    expect((fit.centre + t0).toFixed(4)).toBe(recentred.t0_mean_degC.toFixed(4));
    expect(fit.level.toFixed(4)).toBe(recentred.y1_degC.toFixed(4));
    expect(fit.levelUncertainty.toFixed(4)).toBe(recentred.s_y1_degC.toFixed(4));
  });

  it('predicts the correction at 30 °C, and its uncertainty, as printed', () => {
    const { y, u } = weightedLineAt(fit, 30 - t0);
    expect(y.toFixed(4)).toBe(published.b_at_30_degC.toFixed(4));
    expect(u.toFixed(4)).toBe(published.uc_b30_degC.toFixed(4));
  });

  it('finds points that scatter just as stated: a Birge ratio of 1', () => {
    expect(fit.birgeRatio).toBeCloseTo(1, 10);
    expect(fit.chiSquare).toBeCloseTo(published.dof, 8);
  });
});

describe('a weighted line against an independent library', () => {
  it.each(scipy.weighted_line)('agrees with scipy on $name', ({ x, y, u, ...reference }) => {
    // scipy's curve_fit with absolute_sigma; and its closed form in long double, to 9 digits.
    const fit = fitted(x, y, u);
    const atZero = weightedLineAt(fit, 0);
    const { curve_fit: near, closed_form: exact } = reference;
    expect(fit.slope).toBeCloseTo(exact.slope, 9);
    expect(atZero.y / exact.intercept).toBeCloseTo(1, 9);
    expect(fit.chiSquare / exact.chi_square).toBeCloseTo(1, 8);
    expect(fit.slopeUncertainty / near.u_slope).toBeCloseTo(1, 4);
    expect(atZero.u / near.u_intercept).toBeCloseTo(1, 4);
  });

  it('gives the published least-squares line of Engel’s households', () => {
    // Koenker and Bassett (1982), Econometrica 50, 43, as statsmodels and R print it.
    const rows = csvRows('robust_fit/engel.csv');
    const [x, y] = [rows.map((row) => row[0]), rows.map((row) => row[1])];
    const { intercept, slope } = engel.engel.published_least_squares;
    const fit = fitted(
      x,
      y,
      x.map(() => 1),
    );
    expect(weightedLineAt(fit, 0).y.toFixed(4)).toBe(intercept.toFixed(4));
    expect(fit.slope.toFixed(7)).toBe(slope.toFixed(7));
    const plain = fitLine(x, y);
    expect(plain.ok && plain.slope).toBeCloseTo(fit.slope, 10);
  });
});

describe('where a line reaches a height', () => {
  const fit = fitted([0, 1, 2, 3], [0, 1.1, 1.9, 3], [0.1, 0.1, 0.1, 0.1]);

  it('gives the stretch at whose ends the height lies k uncertainties off the line', () => {
    const stretch = reaches(fit, 5, 1.96);
    if (!stretch.ok) throw new Error('no stretch');
    expect(stretch.from).toBeLessThan(stretch.to);
    for (const end of [stretch.from, stretch.to]) {
      const { y, u } = weightedLineAt(fit, end);
      expect(Math.abs(y - 5) / u).toBeCloseTo(1.96, 9);
    }
  });

  it('gives none where the slope cannot be told from level', () => {
    const flat = fitted([0, 1, 2], [1, 1.05, 0.98], [0.1, 0.1, 0.1]);
    expect(reaches(flat, 5, 1.96)).toEqual({ ok: false });
  });
});

describe('what a weighted line refuses, and how it widens', () => {
  it('says how many points it needs, and calls points at one x degenerate', () => {
    expect(fitWeightedLine([1], [1], [1])).toMatchObject({ reason: 'too few readings', needed: 2 });
    expect(fitWeightedLine([2, 2], [1, 3], [1, 1])).toMatchObject({ reason: 'degenerate' });
  });

  it('throws RangeError on an uncertainty that is not positive, and on unequal lengths', () => {
    expect(() => fitWeightedLine([1, 2], [1, 2], [1, 0])).toThrow(RangeError);
    expect(() => fitWeightedLine([1, 2], [1, 2], [1, -1])).toThrow(RangeError);
    expect(() => fitWeightedLine([1, 2], [1, 2], [1])).toThrow(RangeError);
    expect(() => fitWeightedLine([1, NaN], [1, 2], [1, 1])).toThrow(RangeError);
  });

  it('widens for points that stand too far off, never narrows, and leaves two points as they are', () => {
    expect(widening(fitted([0, 1, 2], [0, 3, 0], [0.1, 0.1, 0.1]))).toBeGreaterThan(10);
    expect(widening(fitted([0, 1, 2], [0, 1, 2.01], [1, 1, 1]))).toBe(1);
    const two = fitted([0, 1], [0, 1], [1, 1]);
    expect(two.birgeRatio).toBeUndefined();
    expect(widening(two)).toBe(1);
  });

  it('counts a point read twice like one read with 1/√2 of its uncertainty', () => {
    const point = fc.record({
      x: fc.integer({ min: -100, max: 100 }),
      y: fc.integer({ min: -100, max: 100 }),
      u: fc.integer({ min: 1, max: 20 }),
    });
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 12 }), (points) => {
        const of = (all: typeof points, share: number) =>
          fitWeightedLine(
            all.map((p) => p.x),
            all.map((p) => p.y),
            all.map((p) => p.u * share),
          );
        const twice = of([...points, ...points], 1);
        const once = of(points, Math.SQRT1_2);
        fc.pre(twice.ok && once.ok);
        expect(twice.slope).toBeCloseTo(once.slope, 9);
        expect(twice.slopeUncertainty / once.slopeUncertainty).toBeCloseTo(1, 9);
        expect(twice.levelUncertainty / once.levelUncertainty).toBeCloseTo(1, 9);
      }),
      { seed: 611, numRuns: 100 },
    );
  });
});
