import { beforeEach, describe, expect, it } from 'vitest';
import carsReference from '../../fixtures/reference/smoothing/cars_reference.json';
import scipySpline from '../../fixtures/reference/smoothing/scipy_spline.json';
import smoothSpline from '../../fixtures/reference/smoothing/smooth_spline.json';
import { Accumulator, type NormalEquations } from '../../src/fit/normalEquations.ts';
import { effectiveParameters, penalisedFit, splineAt } from '../../src/fit/penalisedFit.ts';
import { splineBasis } from '../../src/fit/splineBasis.ts';
import {
  curve,
  integratedAsInR,
  parametersOf,
  penalisedOn,
  shareOfRange,
} from './penalisedSupport.ts';
import { csvRows, places } from './support.ts';

const cars = csvRows('smoothing/cars.csv');
const motorcycle = csvRows('smoothing/lowess_delta.csv');

describe('the penalised spline against R’s printed example on cars', () => {
  // R's example output for smooth.spline(speed, dist); cars: Ezekiel (1930).
  const { cubic_smoothing_spline: spline } = carsReference;
  const published = spline.published_R_output_gcv_choice;
  let sums: NormalEquations;
  let scaled: (at: number) => number;
  beforeEach(() => {
    ({ sums, scaled } = penalisedOn(cars));
  });

  it('predicts at speed 20 as printed, to 1e-4', () => {
    const [at20] = curve(sums, published.lambda, [scaled(20)]);
    expect(Math.abs(at20 / published.fit_at_speed_20 - 1)).toBeLessThan(1e-4);
    const [stiff] = curve(sums, 250, [scaled(20)]);
    const wanted = spline.published_R_output_lambda_250.fit_at_speed_20;
    expect(Math.abs(stiff / wanted - 1)).toBeLessThan(1e-4);
  });

  it('has the printed effective parameters, penalised sum and cross-validation score, to 1e-4', () => {
    const { parameters, squares } = parametersOf(sums, published.lambda);
    expect(Math.abs(parameters / published.df - 1)).toBeLessThan(1e-4);
    const gcv = squares / 50 / (1 - parameters / 50) ** 2;
    expect(Math.abs(gcv / published.gcv - 1)).toBeLessThan(1e-4);
    // R prints the sum about the means of ties; what lies within ties takes no part in the fit.
    const within = [...new Set(cars.map((r) => r[0]))].reduce((total, x) => {
      const y = cars.filter((r) => r[0] === x).map((r) => r[1]);
      const level = y.reduce((sum, v) => sum + v, 0) / y.length;
      return total + y.reduce((sum, v) => sum + (v - level) ** 2, 0);
    }, 0);
    expect(Math.abs((squares - within) / published.penalised_rss - 1)).toBeLessThan(1e-4);
  });

  it('agrees with an independent computation at every speed, to the 6 decimals kept', () => {
    const computed = spline['computed_here_lambda_0.1112206'];
    const speeds = Object.keys(computed.fit).map(Number);
    const found = curve(sums, published.lambda, speeds.map(scaled));
    Object.values(computed.fit).forEach((value, i) => expect(found[i]).toBeCloseTo(value, 5));
    expect(parametersOf(sums, published.lambda).parameters).toBeCloseTo(computed.df, 8);
    const stiff = spline.computed_here_lambda_250;
    expect(curve(sums, 250, [scaled(20)])[0]).toBeCloseTo(stiff.fit_at_speed_20, 7);
  });
});

describe('the penalised spline against R’s smooth.spline on cars and the motorcycle data', () => {
  // fixtures/reference/generate_smooth_spline.R; motorcycle: Silverman (1985), MASS mcycle.
  const named = smoothSpline.fits.map((fit) => [fit.data, fit.lambda, fit] as const);

  it.each(named)('agrees on %s at lambda %d: curve to 1e-4, parameters to 3e-4', (data, _, fit) => {
    const { sums, scaled } = penalisedOn(data === 'cars' ? cars : motorcycle);
    expect(shareOfRange(curve(sums, fit.lambda, fit.x.map(scaled)), fit.y)).toBeLessThan(1e-4);
    const { parameters } = parametersOf(sums, fit.lambda);
    expect(Math.abs(parameters / fit.df - 1)).toBeLessThan(3e-4);
  });

  it.each(named)('agrees on %s at lambda %d to 1e-9 with R’s 0.3330 for 1/3', (data, _, fit) => {
    const { sums, scaled } = penalisedOn(data === 'cars' ? cars : motorcycle, integratedAsInR);
    expect(shareOfRange(curve(sums, fit.lambda, fit.x.map(scaled)), fit.y)).toBeLessThan(1e-9);
    const { parameters } = parametersOf(sums, fit.lambda);
    expect(Math.abs(parameters / fit.df - 1)).toBeLessThan(1e-9);
  });
});

describe('the penalised spline against scipy’s make_smoothing_spline', () => {
  // fixtures/reference/generate_scipy_spline.py; unscaled x, unequal weights.
  it.each(scipySpline.fits.map((fit) => [fit.data, fit.lam, fit] as const))(
    'agrees on %s at lam %d to 1e-8, at the readings and between',
    (_, lam, fit) => {
      const sums = new Accumulator(splineBasis(fit.x), 1);
      fit.x.forEach((x, i) => sums.add(x, fit.y[i], fit.w[i], 0));
      expect(shareOfRange(curve(sums.sums(), lam, fit.at), fit.fit)).toBeLessThan(1e-8);
    },
  );
});

describe('the penalised spline', () => {
  const knots = places(0, 1, 9);
  const sumsOf = (rows: readonly number[][], placements = 1) => {
    const sums = new Accumulator(splineBasis(knots), placements);
    for (const [x, y, placement] of rows) sums.add(x, y, 4, placement);
    return sums.sums();
  };
  const wavy = places(0, 1, 13).map((x) => [x, Math.sin(9 * x), 0]);

  it('has the penalised sum of squares that its own curve has', () => {
    const sums = sumsOf(wavy);
    const fit = penalisedFit(sums, 0.01);
    if (!fit.ok) throw new Error(fit.reason);
    const z = splineAt(
      sums.basis,
      fit.coefficients,
      wavy.map((r) => r[0]),
    );
    const squares = wavy.reduce((sum, [, y], i) => sum + 4 * (y - z[i]) ** 2, 0);
    const { squares: told } = parametersOf(sums, 0.01);
    expect(told).toBeCloseTo(squares, 10);
    // The rest is penalty · ∫ z″², here by second differences on a fine grid.
    const fine = splineAt(sums.basis, fit.coefficients, places(0, 1, 4001));
    let rough = 0;
    for (let i = 1; i < 4000; i++) {
      rough += ((fine[i - 1] - 2 * fine[i] + fine[i + 1]) * 4000 ** 2) ** 2 / 4000;
    }
    expect((fit.penalisedSquares - squares) / (0.01 * rough)).toBeCloseTo(1, 2);
  });

  it('tends to the least-squares line as the penalty grows, with two parameters left', () => {
    const sums = sumsOf(places(0, 1, 11).map((x, i) => [x, 3 - 2 * x + (i % 2), 0]));
    const z = curve(sums, 1e5, [0, 0.5, 1]);
    expect(z[0] - 2 * z[1] + z[2]).toBeCloseTo(0, 4);
    expect(parametersOf(sums, 1e5).parameters).toBeCloseTo(2, 4);
  });

  it('refuses readings that do not determine a line, and a placement without readings', () => {
    const refusal = { ok: false, reason: 'not determined' };
    expect(penalisedFit(sumsOf([[0.5, 1, 0]]), 1)).toEqual(refusal);
    expect(penalisedFit(sumsOf(wavy, 2), 1)).toEqual(refusal);
    expect(effectiveParameters(sumsOf([[0.5, 1, 0]]), 1)).toEqual(refusal);
  });

  it('goes through the readings where they determine every coefficient and nothing is penalised', () => {
    const basis = splineBasis([0, 0.5, 1]);
    const sums = new Accumulator(basis, 1);
    const rows = [0, 0.2, 0.5, 0.8, 1].map((x) => [x, Math.cos(7 * x)]);
    for (const [x, y] of rows) sums.add(x, y, 1, 0);
    const x = rows.map((r) => r[0]);
    curve(sums.sums(), 0, x).forEach((z, i) => expect(z).toBeCloseTo(rows[i][1], 10));
    expect(parametersOf(sums.sums(), 0).parameters).toBeCloseTo(5, 10);
  });

  it('throws RangeError on a penalty below 0 or not a number', () => {
    expect(() => penalisedFit(sumsOf(wavy), -1)).toThrow(
      new RangeError('penalty of 0 or more expected, got -1'),
    );
    expect(() => penalisedFit(sumsOf(wavy), NaN)).toThrow(RangeError);
  });
});
