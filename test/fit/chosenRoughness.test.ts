import { describe, expect, it } from 'vitest';
import marginal from '../../fixtures/reference/posterior/marginal_likelihood.json';
import scipyChoice from '../../fixtures/reference/smoothing/scipy_spline_choice.json';
import smoothChoice from '../../fixtures/reference/smoothing/smooth_spline_choice.json';
import { solveForward } from '../../src/fit/arrowSystem.ts';
import { dot } from '../../src/fit/functionals.ts';
import { penalisedFit } from '../../src/fit/penalisedFit.ts';
import { fitProfile, meanCoefficients, type Profile } from '../../src/fit/posterior.ts';
import {
  curve,
  integratedAsInR,
  parametersOf,
  penalisedOn,
  shareOfRange,
} from './penalisedSupport.ts';
import { csvRows, departureWeights, heldEvenly } from './support.ts';

const published = {
  cars: csvRows('smoothing/cars.csv'),
  motorcycle: csvRows('smoothing/lowess_delta.csv'),
};
const rowsOf = (data: string) => published[data as keyof typeof published];

/** Where a criterion is least between two positive numbers: the least of 200 in even ratios, then golden
 *  sections about it. Kiefer (1953), Proc. Amer. Math. Soc. 4, 502. */
function leastOf(criterion: (at: number) => number, low: number, high: number): number {
  const ratio = (high / low) ** (1 / 199);
  const grid = Array.from({ length: 200 }, (_, k) => low * ratio ** k);
  const values = grid.map(criterion);
  const at = values.indexOf(Math.min(...values));
  expect(at).toBeGreaterThan(0);
  expect(at).toBeLessThan(199);
  let [a, b] = [Math.log(grid[at - 1]), Math.log(grid[at + 1])];
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let k = 0; k < 40; k++) {
    const [p, q] = [b - golden * (b - a), a + golden * (b - a)];
    if (criterion(Math.exp(p)) < criterion(Math.exp(q))) b = q;
    else a = p;
  }
  return Math.exp((a + b) / 2);
}

describe('the roughness that generalised cross-validation chooses, by R’s smooth.spline', () => {
  // fixtures/reference/generate_smooth_spline_choice.R; Craven and Wahba (1979), Numer. Math. 31, 377.
  const named = smoothChoice.choices.map((choice) => [choice.data, choice] as const);
  const scoreOf = (data: string, alter?: typeof integratedAsInR) => {
    const rows = rowsOf(data);
    const { sums } = penalisedOn(rows, alter);
    return (penalty: number) => {
      const { parameters, squares } = parametersOf(sums, penalty);
      return squares / rows.length / (1 - parameters / rows.length) ** 2;
    };
  };

  it.each(named)(
    'on %s has R’s curve, effective parameters and score, to 1e-4',
    (data, { at_minimum: r }) => {
      const { sums, scaled } = penalisedOn(rowsOf(data));
      expect(shareOfRange(curve(sums, r.lambda, r.x.map(scaled)), r.y)).toBeLessThan(1e-4);
      const { parameters } = parametersOf(sums, r.lambda);
      expect(Math.abs(parameters / r.df - 1)).toBeLessThan(1e-4);
      expect(Math.abs(scoreOf(data)(r.lambda) / r.gcv - 1)).toBeLessThan(1e-4);
    },
  );

  it.each(named)('on %s is R’s minimum, to 1e-3', (data, { at_minimum: r }) => {
    const chosen = leastOf(scoreOf(data), r.lambda / 1e3, r.lambda * 1e3);
    expect(Math.abs(chosen / r.lambda - 1)).toBeLessThan(1e-3);
  });

  it.each(named)(
    'on %s is R’s minimum to 1e-5 with R’s 0.3330 for 1/3',
    (data, { at_minimum: r }) => {
      const score = scoreOf(data, integratedAsInR);
      const chosen = leastOf(score, r.lambda / 1e3, r.lambda * 1e3);
      expect(Math.abs(chosen / r.lambda - 1)).toBeLessThan(1e-5);
      expect(Math.abs(score(chosen) / r.gcv - 1)).toBeLessThan(1e-10);
    },
  );

  it.each(named)(
    'on %s is where R stops by itself, to 1e-3',
    (data, { at_default_tolerance: r }) => {
      const chosen = leastOf(scoreOf(data), r.lambda / 1e3, r.lambda * 1e3);
      expect(Math.abs(chosen / r.lambda - 1)).toBeLessThan(1e-3);
    },
  );
});

describe('the roughness that generalised cross-validation chooses, by scipy', () => {
  // fixtures/reference/generate_scipy_spline_choice.py: ties averaged, the numerator without weights.
  const named = scipyChoice.choices.map((choice) => [choice.data, choice] as const);

  it.each(named)('on %s has scipy’s curve, to 1e-8', (data, { lam, x, fit }) => {
    const { sums, scaled } = penalisedOn(rowsOf(data));
    expect(shareOfRange(curve(sums, lam, x.map(scaled)), fit)).toBeLessThan(1e-8);
  });

  it.each(named)('on %s is scipy’s, to 1e-4', (data, { lam, x }) => {
    const rows = rowsOf(data);
    const { sums, scaled } = penalisedOn(rows);
    const places = x.map(scaled);
    const means = x.map((at) => {
      const tied = rows.filter((r) => r[0] === at).map((r) => r[1]);
      return tied.reduce((sum, y) => sum + y, 0) / tied.length;
    });
    const score = (penalty: number) => {
      const z = curve(sums, penalty, places);
      const squares = means.reduce((sum, y, i) => sum + (y - z[i]) ** 2, 0);
      const { parameters } = parametersOf(sums, penalty);
      return squares / (1 - parameters / x.length) ** 2;
    };
    const chosen = leastOf(score, lam / 1e3, lam * 1e3);
    expect(Math.abs(chosen / lam - 1)).toBeLessThan(1e-4);
  });
});

describe.each(marginal.cases)(
  'the roughness that the marginal likelihood chooses on $data',
  (reference) => {
    // fixtures/reference/generate_marginal_likelihood.py: dense, without knots, ties as they are.
    const { data, u, floor } = reference;
    const profileOn = (): Profile => {
      const rows = rowsOf(data);
      const x = rows.map((r) => r[0]);
      const profile = fitProfile(
        [{ x, gap: rows.map((r) => -r[1]), u: x.map(() => u) }],
        floor,
        Infinity,
        'all',
      );
      if (!profile.ok) throw new Error(profile.reason);
      return heldEvenly(profile);
    };

    it('is, of all levels, the one that dense linear algebra weights most', () => {
      const { components } = profileOn();
      const most = components.reduce((best, c) => (c.weight > best.weight ? c : best));
      expect(most.roughness / reference.most_weighted.roughness).toBeCloseTo(1, 12);
      expect(most.noise).toBeCloseTo(reference.most_weighted.noise, 12);
    });

    it('has every level weighted as dense linear algebra weights it, to 1e-6', () => {
      const { components } = profileOn();
      expect(components).toHaveLength(reference.components.length);
      reference.components.forEach(({ weight }, k) => {
        expect(Math.abs(components[k].weight - weight)).toBeLessThan(1e-6);
      });
    });

    it('has its peak, at the noise stated, where dense linear algebra has it, to 1e-4', () => {
      // Restricted likelihood of a penalised spline: Wood (2017), Generalized Additive Models, 6.2.
      const { sums } = penalisedOn(rowsOf(data), undefined, 1 / (u * u));
      const minusLog = (roughness: number) => {
        const fit = penalisedFit(sums, 1 / roughness ** 2);
        if (!fit.ok) throw new Error(fit.reason);
        const { factor, penalisedSquares } = fit;
        return (
          (sums.basis.size - 2) * Math.log(roughness) +
          0.5 * (factor.logDeterminant + penalisedSquares)
        );
      };
      const { roughness } = reference.peak_at_stated_noise;
      const peak = leastOf(minusLog, floor, floor * 400);
      expect(Math.abs(peak / roughness - 1)).toBeLessThan(1e-4);
    });

    it('gives the departures that dense linear algebra gives, and their deviations, to 1e-6', () => {
      const profile = profileOn();
      reference.triples.forEach((triple, i) => {
        const { mean, sd } = reference.averaged[i];
        const weights = departureWeights(profile, triple);
        expect(Math.abs(dot(weights, meanCoefficients(profile)) - mean)).toBeLessThan(1e-6 * sd);
        const square = profile.components.reduce((sum, { weight, coefficients, factor, noise }) => {
          const half = new Float64Array(coefficients.length);
          half.set(weights);
          solveForward(factor, half);
          const off = dot(weights, coefficients) - mean;
          return sum + weight * (noise * noise * dot(half, half) + off * off);
        }, 0);
        expect(Math.abs(Math.sqrt(square) / sd - 1)).toBeLessThan(1e-6);
      });
    });
  },
);
