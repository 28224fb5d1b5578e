import { describe, expect, it } from 'vitest';
import { heightsAt } from '../../src/fit/functionals.ts';
import { fitProfile } from '../../src/fit/posterior.ts';
import { chosenAt, rowsOf } from '../../src/fit/readingRows.ts';
import { responseTo } from '../../src/fit/responseTo.ts';
import { places, readingsOf, seededNormals } from './support.ts';

const noise = seededNormals(3);
const shape = (x: number) => -2 * Math.exp(-(((x - 600) / 200) ** 2));
const readings = [
  readingsOf(shape, places(0, 1000, 9), 0.2, { noise }),
  readingsOf(shape, places(500, 1500, 9), 0.3, { noise, offset: 3, tilt: 0.002 }),
];
const profile = fitProfile(readings, 15);
if (!profile.ok) throw new Error(profile.reason);
const rows = rowsOf(profile, 0);

describe('what a reading sees', () => {
  it('is the height of the profile there in each account, and less its placement’s own line', () => {
    const bare = rows.row(700, 0);
    const tilted = rows.row(700, 1);
    expect(bare.place).toBeCloseTo(700 / 1500, 12);
    profile.components.forEach(({ coefficients }, k) => {
      const height = heightsAt(profile, [700])(coefficients)[0];
      expect(bare.means[k]).toBeCloseTo(height, 12);
      const size = profile.basis.size;
      const edge = coefficients[size] + coefficients[size + 1] * bare.place;
      expect(tilted.means[k]).toBeCloseTo(height - edge, 12);
    });
    expect(rows.row(700, 0)).toBe(bare);
    expect(rows.row(700, 1)).not.toBe(bare);
  });

  it('covaries with another by how much that one’s change moves it', () => {
    // A changed gap shifts the coefficients by −A⁻¹ row / u²: the covariance without the noise squared.
    profile.components.forEach((component, k) => {
      const one = { ...profile, components: [{ ...component, weight: 1 }] };
      for (const [p, i] of [
        [0, 2],
        [1, 6],
      ]) {
        const { x, u } = readings[p];
        const shift = responseTo(one, readings, (q, j) => (q === p && j === i ? 1 : 0));
        const moved = heightsAt(profile, [700])(shift)[0];
        const wanted = -moved * u[i] ** 2 * component.noise ** 2;
        const [seen, other] = [rows.row(700, 0), rows.row(x[i], p)];
        expect(rows.covariance(seen, other, k)).toBeCloseTo(wanted, 10);
        expect(rows.covariance(other, seen, k)).toBeCloseTo(wanted, 10);
      }
    });
  });

  it('scatters in draws as its covariance says, in pairs about an account’s mean', () => {
    const one = rowsOf({ ...profile, components: [{ ...profile.components[0], weight: 1 }] }, 0);
    const row = one.row(1200, 1);
    const seen = one.draws(0, 500).map(({ unknowns }) => one.at(row, unknowns) - row.means[0]);
    const square = seen.reduce((sum, v) => sum + v * v, 0) / seen.length;
    expect(Math.abs(square / one.covariance(row, row, 0) - 1)).toBeLessThan(0.12);
    for (let k = 0; k < seen.length; k += 2) expect(seen[k] + seen[k + 1]).toBeCloseTo(0, 9);
    expect(one.draws(3, 5)).toEqual(one.draws(0, 5).slice(6));
    expect(one.draws(0, 1)[0].noise).toBe(profile.components[0].noise);
  });

  it('is extrapolated nowhere, but for rounding', () => {
    expect(rows.row(-1e-7, 0).place).toBe(0);
    expect(rows.row(1500 + 1e-7, 0).place).toBe(1);
    for (const x of [-1, 1501, NaN]) {
      expect(() => rows.row(x, 0)).toThrow(`x within 0..1500 expected, got ${x}`);
    }
  });
});

describe('the accounts that are kept', () => {
  const of = (weights: readonly number[], negligible?: number) =>
    rowsOf(
      { ...profile, components: weights.map((weight) => ({ ...profile.components[0], weight })) },
      negligible,
    ).components.map(({ weight }) => weight);

  it('are the heaviest that together leave no more than is negligible, their weights made up to 1', () => {
    const kept = of([0.01, 0.6, 0.005, 0.385], 0.02);
    expect(kept).toHaveLength(2);
    expect(kept[0]).toBeCloseTo(0.6 / 0.985, 12);
    expect(kept[1]).toBeCloseTo(0.385 / 0.985, 12);
    expect(of([0.01, 0.6, 0.005, 0.385])).toEqual(kept);
  });

  it('are all of them, as they stand, where nothing is', () => {
    expect(of([0.01, 0.6, 0.005, 0.385], 0)).toEqual([0.01, 0.6, 0.005, 0.385]);
  });
});

describe('the account of a draw', () => {
  it('comes as often as it weighs in every beginning of the sequence', () => {
    // van der Corput's levels in base 2: 1/2, 1/4, 3/4, 1/8, 5/8, 3/8, 7/8.
    const halves = [{ weight: 0.3 }, { weight: 0.3 }, { weight: 0.4 }];
    expect([0, 1, 2, 3, 4, 5, 6].map((k) => chosenAt(halves, k))).toEqual([1, 0, 2, 0, 2, 1, 2]);
    expect(chosenAt([{ weight: 0.5 }, { weight: 0.5 }], 0)).toBe(1);
  });

  it('is the last where rounding leaves the weights short of 1', () => {
    expect(chosenAt([{ weight: 0.2 }, { weight: 0.2 }], 2)).toBe(1);
  });
});
