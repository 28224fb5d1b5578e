import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import filip from '../../fixtures/reference/nist_strd/Filip.json';
import norris from '../../fixtures/reference/nist_strd/Norris.json';
import pontius from '../../fixtures/reference/nist_strd/Pontius.json';
import wampler1 from '../../fixtures/reference/nist_strd/Wampler1.json';
import wampler2 from '../../fixtures/reference/nist_strd/Wampler2.json';
import wampler3 from '../../fixtures/reference/nist_strd/Wampler3.json';
import { fitLine } from '../../src/fit/line.ts';
import { fitPolynomial, polynomialAt, type PolynomialFit } from '../../src/fit/polynomial.ts';

/** Digits in which two numbers agree: −log10 of the relative difference. */
function digits(found: number | undefined, certified: number): number {
  if (found === undefined) return 0;
  return -Math.log10(Math.abs(found - certified) / Math.abs(certified) + 1e-17);
}

function fitted(x: readonly number[], y: readonly number[], degree: number): PolynomialFit {
  const fit = fitPolynomial(x, y, degree);
  if (!fit.ok) throw new Error(fit.reason);
  return fit;
}

describe('a polynomial against NIST StRD', () => {
  // NIST Statistical Reference Datasets, Linear Least Squares Regression.
  const sets = [
    ['Norris', norris, 1],
    ['Pontius', pontius, 2],
    ['Wampler1', wampler1, 5],
    ['Wampler2', wampler2, 5],
    ['Wampler3', wampler3, 5],
    ['Filip', filip, 10],
  ] as const;

  it.each(sets)('gives the certified estimates of %s to 13 digits', (_, set, degree) => {
    const fit = fitted(set.x, set.y, degree);
    expect(fit.coefficients).toHaveLength(degree + 1);
    set.certified.params.forEach(({ value }, j) => {
      expect(digits(fit.coefficients[j], value)).toBeGreaterThan(13);
    });
    expect(fit).toMatchObject({ n: set.x.length, dof: set.residual_df });
  });

  it.each(sets.filter(([, set]) => set.certified.residual_sd > 0))(
    'gives the certified standard errors and residual deviation of %s to 13 digits, its R² to 14',
    (_, set, degree) => {
      const fit = fitted(set.x, set.y, degree);
      set.certified.params.forEach(({ se }, j) => {
        expect(digits(fit.deviations?.[j], se)).toBeGreaterThan(13);
        expect(digits(fit.covariance?.[j][j], se * se)).toBeGreaterThan(13);
      });
      expect(digits(fit.residualDeviation, set.certified.residual_sd)).toBeGreaterThan(13);
      expect(digits(fit.rSquared, set.certified.r2)).toBeGreaterThan(14);
    },
  );

  it.each([
    ['Wampler1', wampler1],
    ['Wampler2', wampler2],
  ])('leaves of %s, an exact polynomial, no more than its decimals rounded', (_, set) => {
    const fit = fitted(set.x, set.y, 5);
    expect(fit.residualDeviation).toBeLessThan(1e-14);
    for (const deviation of fit.deviations ?? []) expect(deviation).toBeLessThan(1e-14);
    expect(fit.rSquared).toBe(1);
  });

  it('says how near Filip comes to the limit', () => {
    const { condition } = fitted(filip.x, filip.y, 10);
    expect(condition).toBeGreaterThan(1e9);
    expect(condition).toBeLessThan(1e10);
  });

  it('follows the readings of Filip, where powers of x cancel, to 10 digits of its residuals', () => {
    const fit = fitted(filip.x, filip.y, 10);
    let squares = 0;
    filip.x.forEach((at, i) => (squares += (filip.y[i] - polynomialAt(fit, at)) ** 2));
    expect(digits(Math.sqrt(squares / fit.dof), filip.certified.residual_sd)).toBeGreaterThan(10);
  });
});

describe('a polynomial of degree 1', () => {
  it('is the least-squares line, its deviations and correlation included', () => {
    const line = fitLine(norris.x, norris.y);
    const fit = fitted(norris.x, norris.y, 1);
    if (!line.ok) throw new Error(line.reason);
    const { covariance, deviations, coefficients } = fit;
    if (!covariance || !deviations) throw new Error('deviations expected');
    expect(digits(coefficients[0], line.intercept)).toBeGreaterThan(12);
    expect(digits(coefficients[1], line.slope)).toBeGreaterThan(12);
    const correlation = covariance[0][1] / (deviations[0] * deviations[1]);
    expect(digits(correlation, line.correlation)).toBeGreaterThan(12);
    expect(covariance[0][1]).toBe(covariance[1][0]);
    expect(fit.domain).toEqual(line.domain);
  });
});

const cubic = fc.record({
  x: fc.uniqueArray(fc.integer({ min: -300, max: 300 }), { minLength: 6, maxLength: 20 }),
  b: fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 4, maxLength: 4 }),
});

describe('a polynomial of any kind', () => {
  it('is found again from readings on it, to 12 digits of its largest term', () => {
    fc.assert(
      fc.property(cubic, ({ x, b }) => {
        const fit = fitted(
          x,
          x.map((at) => b[0] + at * (b[1] + at * (b[2] + at * b[3]))),
          3,
        );
        b.forEach((value, j) => expect(fit.coefficients[j]).toBeCloseTo(value, 12));
        expect(fit.residualDeviation).toBeLessThan(1e-12);
      }),
      { seed: 441, numRuns: 200 },
    );
  });

  it('leaves residuals orthogonal to every power', () => {
    fc.assert(
      fc.property(cubic, ({ x, b }) => {
        const y = x.map((at, i) => b[i % 4] + (at % 7));
        const fit = fitted(x, y, 2);
        for (const power of [0, 1, 2]) {
          let sum = 0;
          x.forEach((at, i) => (sum += (y[i] - polynomialAt(fit, at)) * (at / 300) ** power));
          expect(sum).toBeCloseTo(0, 10);
        }
      }),
      { seed: 442, numRuns: 200 },
    );
  });

  it('does not care for the order of its readings', () => {
    const back = fitted([...filip.x].reverse(), [...filip.y].reverse(), 10);
    fitted(filip.x, filip.y, 10).coefficients.forEach((value, j) => {
      expect(digits(back.coefficients[j], value)).toBeGreaterThan(15);
    });
  });

  it('changes its coefficients by the unit of x and y alone, and its condition not at all', () => {
    const fit = fitted(pontius.x, pontius.y, 2);
    const scaled = fitted(
      pontius.x.map((at) => at * 1024),
      pontius.y.map((value) => value / 8),
      2,
    );
    fit.coefficients.forEach((value, j) => {
      expect(scaled.coefficients[j]).toBe(value / 8 / 1024 ** j);
    });
    expect(scaled.condition).toBe(fit.condition);
  });

  it('goes through as many readings as it has coefficients, and then claims no deviations', () => {
    const x = [-2, 0, 1, 4, 5];
    const y = [3, -1, 2, 2, 7];
    const fit = fitted(x, y, 4);
    x.forEach((at, i) => expect(polynomialAt(fit, at)).toBeCloseTo(y[i], 12));
    expect(fit.dof).toBe(0);
    expect(fit.residualDeviation).toBeUndefined();
    expect(fit.deviations).toBeUndefined();
    expect(fit.covariance).toBeUndefined();
  });

  it('of degree 0 is the mean with its standard error', () => {
    const fit = fitted([4, 4, 4, 4], [1, 2, 3, 6], 0);
    expect(fit.coefficients).toEqual([3]);
    expect(fit.deviations?.[0]).toBeCloseTo(Math.sqrt(14 / 3 / 4), 14);
    expect(fit.rSquared).toBe(0);
    expect(fit.condition).toBe(1);
  });

  it('leaves R² out where nothing varies', () => {
    expect(fitted([1, 2, 3], [5, 5, 5], 1).rSquared).toBeUndefined();
    expect(fitted([1, 2, 3], [0, 0, 0], 1).coefficients).toEqual([0, 0]);
  });
});

describe('what a polynomial refuses', () => {
  it('says how many readings it needs, and at how many places', () => {
    expect(fitPolynomial([1, 2], [1, 2], 2)).toEqual({
      ok: false,
      reason: 'too few readings',
      n: 2,
      needed: 3,
    });
    expect(fitPolynomial([1, 2, 2, 1], [1, 2, 3, 4], 2)).toEqual({
      ok: false,
      reason: 'degenerate',
      n: 4,
      needed: 3,
    });
    expect(fitPolynomial([], [], 0)).toMatchObject({ ok: false, n: 0, needed: 1 });
  });

  it('calls powers that resemble each other ill-conditioned, with the number', () => {
    // Filip's readings a hundred further from 0: the same curve, its powers of x all but one column.
    const far = fitPolynomial(
      filip.x.map((at) => at - 100),
      filip.y,
      10,
    );
    expect(far).toMatchObject({ ok: false, reason: 'ill-conditioned', n: 82, limit: 1e11 });
    if (far.ok || far.reason !== 'ill-conditioned') throw new Error('a refusal expected');
    expect(far.condition).toBeGreaterThan(1e15);
    // Of a lower degree the same readings are no trouble.
    expect(
      fitPolynomial(
        filip.x.map((at) => at - 100),
        filip.y,
        3,
      ).ok,
    ).toBe(true);
  });

  it('is spoiled by the last digit of a reading no more than its condition number says', () => {
    // Wampler's polynomial 1 + x + … + x⁵, whose readings are exact here, moved towards the limit.
    for (const [from, least] of [
      [0, 1e3],
      [60, 1e6],
      [400, 9e10],
    ]) {
      const x = Array.from({ length: 21 }, (_, i) => from + i);
      const y = x.map((at) => [1, 1, 1, 1, 1, 1].reduce((sum, b) => sum * at + b, 0));
      const fit = fitted(x, y, 5);
      const off = fitted(
        x,
        y.map((value, i) => value * (1 + (i % 2 ? 1 : -1) * 2 ** -52)),
        5,
      );
      const length = (values: readonly number[]) => Math.hypot(...values);
      expect(fit.condition).toBeGreaterThan(least);
      let moved = 0;
      fit.coefficients.forEach((b, j) => {
        expect(b).toBeCloseTo(1, 11);
        const column = length(x.map((at) => at ** j));
        moved = Math.max(moved, (Math.abs(off.coefficients[j] - b) * column) / length(y));
      });
      expect(moved).toBeGreaterThan(0);
      expect(moved).toBeLessThan(fit.condition * 2 ** -51);
    }
  });

  it('calls places that differ by rounding only ill-conditioned', () => {
    const found = fitPolynomial([0.1 + 0.2, 0.3, 0.3], [1, 2, 5], 1);
    expect(found).toMatchObject({ ok: false, reason: 'ill-conditioned' });
  });

  it('still gives a number, infinity, where the powers leave the range of a double', () => {
    // Forty neighbouring doubles from 1 on.
    const far = Array.from({ length: 40 }, (_, i) => 1 + i * 2 ** -52);
    expect(fitPolynomial(far, far, 39)).toMatchObject({
      reason: 'ill-conditioned',
      condition: Infinity,
    });
  });

  it('throws RangeError on what the caller got wrong', () => {
    expect(() => fitPolynomial([1, 2], [1], 1)).toThrow(RangeError);
    expect(() => fitPolynomial([1, NaN], [1, 2], 1)).toThrow('index 1');
    expect(() => fitPolynomial([1, 2], [1, 2], -1)).toThrow(RangeError);
    expect(() => fitPolynomial([1, 2, 3], [1, 2, 3], 0.5)).toThrow(RangeError);
    expect(() => fitPolynomial([0, 1e-200, 2e-200], [1e200, 3e200, 1e200], 1)).toThrow(RangeError);
  });

  it('leaves what it was given as it was', () => {
    const x = Object.freeze([0, 1, 2]);
    expect(fitted(x, Object.freeze([0, 1, 4]), 2).coefficients[2]).toBeCloseTo(1, 14);
  });
});
