import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import reference from '../../fixtures/reference/robust_fit/theil_mann_kendall_reference.json';
import scipy from '../../fixtures/reference/trend/scipy_trend.json';
import { kendallScores, upperTail } from '../../src/fit/kendallScores.ts';
import { mannKendall, SURVEYS_FOR_RANKS, type MannKendall } from '../../src/fit/mannKendall.ts';
import { normalTail } from '../../src/fit/normalTail.ts';

function tested(x: readonly number[], y: readonly number[]): MannKendall {
  const test = mannKendall(x, y);
  if (!test.ok) throw new Error(test.reason);
  return test;
}

const counting = (y: readonly number[]) => y.map((_, i) => i);

describe('the exact null distribution of Kendall’s score', () => {
  // The table of Gilbert (1987), A18, and of Kendall (1975), to n = 10, six decimals.
  const { table } = reference['exact_upper_tail_P(S>=s)'];
  const rows = Object.entries(table).flatMap(([n, tails]) =>
    Object.entries(tails).map(([s, p]) => [Number(n), Number(s), p] as const),
  );

  it.each(rows)('of %i values gives a score of %i or more the probability %f', (n, s, p) => {
    const { scores, least } = kendallScores(Array.from({ length: n }, () => 1));
    expect(upperTail(scores, least, s)).toBeCloseTo(p, 6);
  });

  it('adds up to 1, and is the same from both ends, with ties and without', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 6 }), { minLength: 1, maxLength: 8 }),
        (ties) => {
          const { scores } = kendallScores(ties);
          expect(scores.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
          scores.forEach((p, i) => expect(p).toBeCloseTo(scores[scores.length - 1 - i], 14));
        },
      ),
      { seed: 612, numRuns: 60 },
    );
  });

  it('refuses sizes that are no whole numbers from 1', () => {
    expect(() => kendallScores([1, 0])).toThrow(RangeError);
    expect(() => kendallScores([1.5])).toThrow(RangeError);
  });
});

describe('the Mann-Kendall test against published examples', () => {
  it('gives S and the exact p of the EPA’s five values (QA/G-9)', () => {
    const { y, published } = reference.epa_small_sample;
    const { s, twoSided, from } = tested(counting(y), y);
    expect(s).toBe(published.S);
    expect((twoSided / 2).toFixed(3)).toBe(published.p_one_sided.toFixed(3));
    expect(from).toBe('exact distribution');
  });

  it('gives C of the cloud seeding example (Hollander, Wolfe and Chicken, 9.1)', () => {
    const { x, y, published } = reference.theil_cloud_seeding;
    expect(tested(x, y).s).toBe(published.C);
  });

  it('gives S, tau and p of Helsel and Hirsch’s seven points with an outlier', () => {
    const { x, y, computed_here: found } = reference.helsel_hirsch_one_outlier;
    const { s, tau, twoSided } = tested(x, y);
    expect(s).toBe(found.S);
    expect(tau).toBeCloseTo(found.tau, 12);
    expect(twoSided).toBeCloseTo(found.exact_two_sided_p, 6);
  });
});

describe('the Mann-Kendall test against scipy', () => {
  it.each(scipy.kendall.filter((k) => k.method === 'exact'))(
    'agrees with kendalltau’s exact p and tau on $name, to 12 digits',
    ({ x, y, tau, p }) => {
      const found = tested(x, y);
      expect(found.from).toBe('exact distribution');
      expect(found.tau).toBeCloseTo(tau, 12);
      expect(found.twoSided / p).toBeCloseTo(1, 11);
    },
  );

  it.each(scipy.kendall.filter((k) => k.method === 'asymptotic'))(
    'agrees with kendalltau’s tau and variance on $name; it makes no continuity correction',
    ({ x, y, tau, p }) => {
      const found = tested(x, y);
      expect(found.from).toBe('normal approximation');
      expect(found.tau).toBeCloseTo(tau, 12);
      const uncorrected = Math.abs(found.s) / Math.sqrt(found.variance);
      expect(2 * normalTail(uncorrected)).toBeCloseTo(p, 12);
      expect(found.twoSided).toBeGreaterThan(p);
    },
  );

  it.each(scipy.exact_with_ties)('gives p counted over every order: $name', ({ y, s, p }) => {
    const found = tested(counting(y), y);
    expect(found).toMatchObject({ s, from: 'exact distribution' });
    expect(found.twoSided).toBeCloseTo(p, 12);
  });

  it.each(scipy.normal_upper_tail)('gives the normal tail beyond %f to 12 digits', (z, p) => {
    expect(normalTail(z) / p).toBeCloseTo(1, 11);
  });
});

describe('what the Mann-Kendall test promises', () => {
  it('needs five points for any order to be out of the ordinary at 95 %', () => {
    const best = (n: number) => {
      const y = Array.from({ length: n }, (_, i) => i);
      return tested(y, y).twoSided;
    };
    expect(best(SURVEYS_FOR_RANKS)).toBeLessThan(0.05);
    expect(best(SURVEYS_FOR_RANKS - 1)).toBeGreaterThan(0.05);
  });

  it('turns its sign and nothing else when y is turned over', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 3, maxLength: 20 }),
        (y) => {
          const up = mannKendall(counting(y), y);
          const down = mannKendall(
            counting(y),
            y.map((value) => -value),
          );
          fc.pre(up.ok && down.ok);
          expect(down.s + up.s).toBe(0);
          expect(down.twoSided).toBe(up.twoSided);
          expect(down.variance).toBe(up.variance);
        },
      ),
      { seed: 613, numRuns: 100 },
    );
  });

  it('is normal, a step of the score nearer to none, where points share a place', () => {
    // Two and two alike in x: S = 4, its variance (4·3·13 − 2·2·1·9)/18 = 20/3 (Kendall 1975, 4.9), by hand.
    const found = tested([1, 1, 2, 2], [1, 2, 3, 4]);
    expect(found).toMatchObject({ s: 4, from: 'normal approximation' });
    expect(found.variance).toBeCloseTo(20 / 3, 12);
    expect(found.twoSided).toBeCloseTo(2 * normalTail(3 / Math.sqrt(20 / 3)), 12);
    expect(tested([1, 1, 2, 2], [1, 2, 2, 1]).twoSided).toBe(1);
  });

  it('refuses too few points, and points that never differ', () => {
    expect(mannKendall([1, 2], [1, 2])).toMatchObject({ reason: 'too few readings', needed: 3 });
    expect(mannKendall([1, 2, 3], [5, 5, 5])).toMatchObject({ ok: false, reason: 'all alike' });
    expect(mannKendall([1, 1, 1], [5, 6, 7])).toMatchObject({ ok: false, reason: 'all alike' });
    expect(() => mannKendall([1, 2], [1])).toThrow(RangeError);
    expect(() => normalTail(NaN)).toThrow(RangeError);
  });
});
