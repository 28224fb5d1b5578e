import { describe, expect, it } from 'vitest';
import { cholesky } from '../../src/fit/cholesky.ts';
import { dot } from '../../src/fit/functionals.ts';
import { fitProfile, meanCoefficients } from '../../src/fit/posterior.ts';
import { splineBasis } from '../../src/fit/splineBasis.ts';
import { stiffnesses } from '../../src/fit/stiffness.ts';
import { departureWeights, heldEvenly, places, readingsOf, seededNormals } from './support.ts';

const breaks = [0, 0.05, 0.11, 0.25, 0.31, 0.4, 0.5, 0.58, 0.7, 0.75, 0.86, 0.95, 1];
const basis = splineBasis(breaks);
const ways = stiffnesses(basis);

/** Second derivative at every knot of the spline with these coefficients. */
const bends = (c: ArrayLike<number>) =>
  breaks.map((_, i) => [0, 1, 2].reduce((sum, a) => sum + basis.bends[3 * i + a] * c[i + a], 0));

describe('the ways in which a profile may be held', () => {
  it('are evenly, and a sixteenth as stiff over the aft, the middle and the fore half', () => {
    const soft = ways.map(({ pieces }) =>
      Array.from(pieces).flatMap((v, i) => (v === 1 ? [] : [breaks[i], breaks[i + 1]])),
    );
    expect(ways.map((w) => w.isEven)).toEqual([true, false, false, false]);
    expect(soft.map((s) => [s[0], s.at(-1)])).toEqual([
      [undefined, undefined],
      [0, 0.5],
      [0.25, 0.75],
      [0.5, 1],
    ]);
    expect(new Set(ways[1].pieces)).toEqual(new Set([1 / 16, 1]));
    expect(ways.reduce((sum, w) => sum + w.share, 0)).toBeCloseTo(1, 12);
  });

  it('penalise ∫ stiffness · z″², by Simpson’s rule, which is exact for it', () => {
    const normal = seededNormals(5);
    const c = Float64Array.from({ length: basis.size }, () => normal());
    const bend = bends(c);
    for (const { pieces, penalty } of ways) {
      let wanted = 0;
      pieces.forEach((stiff, i) => {
        const [p, q] = [bend[i], bend[i + 1]];
        const simpson = (p * p + 4 * ((p + q) / 2) ** 2 + q * q) / 6;
        wanted += stiff * simpson * (breaks[i + 1] - breaks[i]);
      });
      let found = 0;
      for (let j = 0; j < basis.size; j++) {
        for (let d = 0; d < 4 && j + d < basis.size; d++) {
          found += (d === 0 ? 1 : 2) * penalty[4 * j + d] * c[j] * c[j + d];
        }
      }
      expect(found / wanted).toBeCloseTo(1, 10);
    }
  });

  it('differ in their determinants as their matrices do, by dense Cholesky', () => {
    // The integral of two broken lines that are 1 at one knot and 0 at all others, stiffness counted.
    const log = (pieces: Float64Array) => {
      const matrix = breaks.map(() => new Float64Array(breaks.length));
      pieces.forEach((stiff, i) => {
        const w = stiff * (breaks[i + 1] - breaks[i]);
        matrix[i][i] += w / 3;
        matrix[i + 1][i + 1] += w / 3;
        matrix[i][i + 1] += w / 6;
        matrix[i + 1][i] += w / 6;
      });
      return cholesky(matrix).reduce((sum, line, i) => sum + 2 * Math.log(line[i]), 0);
    };
    for (const { pieces, logDeterminant } of ways) {
      expect(logDeterminant).toBeCloseTo(log(pieces) - log(ways[0].pieces), 9);
    }
  });
});

describe('a short hollow at the end of a straight bottom', () => {
  // 1.5 tolerances of 1.5 mm deep over a quarter of the line, read every 100 mm to a tenth of a tolerance.
  const hollow = (x: number) =>
    x < 375 ? (2.25 * (Math.cos((2 * Math.PI * x) / 375) - 1)) / 2 : 0;
  const profileOf = (noise: () => number) => {
    const found = fitProfile([readingsOf(hollow, places(0, 1500, 16), 0.15, { noise })], 15);
    if (!found.ok) throw new Error(found.reason);
    return found;
  };

  it('reads less low, and surer, than where the bottom must be as rough everywhere', () => {
    const off = { either: 0, evenly: 0 };
    for (let seed = 1; seed <= 8; seed++) {
      const profile = profileOf(seededNormals(seed));
      const weights = departureWeights(profile, [0, 187.5, 375]);
      off.either += (dot(weights, meanCoefficients(profile)) - 2.25) / 8;
      off.evenly += (dot(weights, meanCoefficients(heldEvenly(profile))) - 2.25) / 8;
    }
    expect(Math.abs(off.either)).toBeLessThan(Math.abs(off.evenly));
  });

  it('is found to bend in its own half', () => {
    const { components } = profileOf(seededNormals(1));
    const held = [...new Set(components.map((c) => c.stiffness))];
    const weighs = held.map((stiffness) =>
      components.reduce((sum, c) => sum + (c.stiffness === stiffness ? c.weight : 0), 0),
    );
    expect(weighs[1]).toBeGreaterThan(0.5);
    expect(weighs[3]).toBeLessThan(0.01);
  });
});
