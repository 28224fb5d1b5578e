import { beforeAll, describe, expect, it } from 'vitest';
import { heightsAt } from '../../src/fit/functionals.ts';
import { fitProfile, type Profile } from '../../src/fit/posterior.ts';
import { posteriorDraws } from '../../src/fit/posteriorDraws.ts';
import { principalModes, type Mode } from '../../src/fit/principalModes.ts';
import { places, readingsOf, seededNormals } from './support.ts';

const at = places(0, 1500, 13);

function profileOf(u: number): Profile {
  const noise = seededNormals(11);
  const readings = readingsOf((x) => ((x - 750) / 750) ** 2, places(0, 1500, 9), u, { noise });
  const profile = fitProfile([readings], 15);
  if (!profile.ok) throw new Error(profile.reason);
  return profile;
}

/** Covariance of the draws' heights, free of a straight line, by the normal equations of a line written out. */
function covariance(profile: Profile): number[][] {
  const draws = posteriorDraws(profile, 0, 200).map(heightsAt(profile, at));
  const middle = at.reduce((a, b) => a + b, 0) / at.length;
  const sxx = at.reduce((sum, x) => sum + (x - middle) ** 2, 0);
  const rows: number[][] = [];
  for (let k = 0; k < draws.length; k += 2) {
    const half = at.map((_, i) => (draws[k][i] - draws[k + 1][i]) / 2);
    const level = half.reduce((a, b) => a + b, 0) / at.length;
    const slope = half.reduce((sum, v, i) => sum + v * (at[i] - middle), 0) / sxx;
    rows.push(half.map((v, i) => v - level - slope * (at[i] - middle)));
  }
  return at.map((_, a) =>
    at.map((__, b) => rows.reduce((sum, row) => sum + row[a] * row[b], 0) / rows.length),
  );
}

const inner = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
  Array.from(a).reduce((sum, v, i) => sum + v * b[i], 0);

describe('the ways in which a profile is most in doubt', () => {
  let profile: Profile;
  let known: number[][];
  let total: number;
  let modes: readonly Mode[];
  let sizes: number[];
  beforeAll(() => {
    profile = profileOf(0.15);
    known = covariance(profile);
    total = known.reduce((sum, line, i) => sum + line[i], 0);
    modes = principalModes(profile, at, { most: 3, share: 1 });
    sizes = modes.map((m) => inner(m, m));
  });

  it('are eigenvectors of its covariance, each as long as the deviation it has', () => {
    // What an eigenvector is: C·v = λ·v, here with |v|² = λ.
    modes.forEach((mode, m) => {
      const image = known.map((line) => inner(line, mode));
      const off = image.map((v, i) => v - sizes[m] * mode[i]);
      expect(Math.sqrt(inner(off, off))).toBeLessThan(1e-6 * total * Math.sqrt(sizes[0]));
    });
  });

  it('come with the largest first, and no other way has more', () => {
    expect(modes).toHaveLength(3);
    expect([...sizes].sort((a, b) => b - a)).toEqual(sizes);
    // The trace is the sum of all; what is left after the first is no less than the second.
    expect(sizes[0]).toBeGreaterThan(total / at.length);
    for (const line of known) {
      const length = Math.sqrt(inner(line, line));
      const seen =
        inner(
          line,
          known.map((other) => inner(other, line)),
        ) /
        length ** 2;
      expect(sizes[0]).toBeGreaterThanOrEqual(seen * (1 - 1e-9));
    }
  });

  it('owe nothing to one another, and none is a straight line', () => {
    for (const [a, b] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ]) {
      expect(Math.abs(inner(modes[a], modes[b]))).toBeLessThan(1e-6 * sizes[0]);
    }
    for (const mode of modes) {
      const size = Math.sqrt(inner(mode, mode));
      expect(Math.abs(mode.reduce((a, b) => a + b, 0))).toBeLessThan(1e-9 * size);
      expect(Math.abs(inner(mode, at))).toBeLessThan(1e-6 * size * 1500);
    }
  });

  it('are as few as tell the share that is asked for, and never more than allowed', () => {
    const told = (share: number) => principalModes(profile, at, { most: 13, share });
    const tight = sizes[0] / total;
    expect(told(tight * 0.999)).toHaveLength(1);
    expect(told(tight * 1.001)).toHaveLength(2);
    expect(principalModes(profile, at, { most: 1, share: 1 })).toEqual([modes[0]]);
    expect(principalModes(profile, at, { most: 0, share: 1 })).toEqual([]);
    expect(told(0)).toEqual([]);
    const most = told(0.99);
    const sum = most.reduce((all, m) => all + inner(m, m), 0);
    expect(sum).toBeGreaterThanOrEqual(0.99 * total);
    expect(sum - inner(most[most.length - 1], most[most.length - 1])).toBeLessThan(0.99 * total);
    expect(sum).toBeLessThanOrEqual(total * (1 + 1e-9));
  });

  it('are larger where readings are coarser', () => {
    const [coarse] = principalModes(profileOf(0.6), at, { most: 1, share: 1 });
    expect(inner(coarse, coarse)).toBeGreaterThan(4 * sizes[0]);
  });

  it('throw RangeError on fewer than 3 places, and at 3 there is one', () => {
    expect(() => principalModes(profile, [0, 1500], { most: 1, share: 1 })).toThrow(
      new RangeError('at least 3 places expected, got 2'),
    );
    const all = principalModes(profile, [0, 750, 1500], { most: 9, share: 2 });
    expect(all.filter((mode) => inner(mode, mode) > 1e-12 * total)).toHaveLength(1);
    for (const mode of all) for (const v of mode) expect(Number.isFinite(v)).toBe(true);
    const [bow] = all;
    // Free of a line, three heights evenly spread can only bow: 1, −2, 1.
    expect(bow[1] / bow[0]).toBeCloseTo(-2, 9);
    expect(bow[2] / bow[0]).toBeCloseTo(1, 9);
  });
});
