import { describe, expect, it } from 'vitest';
import { cholesky, solved } from '../../src/fit/cholesky.ts';
import { cornerDoubt } from '../../src/fit/cornerDoubt.ts';
import { countedWeights } from '../../src/fit/countedWeights.ts';
import { dot } from '../../src/fit/functionals.ts';
import { fitProfile, type Profile } from '../../src/fit/posterior.ts';
import type { SplineBasis } from '../../src/fit/splineBasis.ts';
import type { PlacementReadings } from '../../src/fit/tied.ts';
import { places, readingsOf, seededNormals } from './support.ts';

const LENGTH = 1500;
const AT = [300, 750, 1400] as const;

function fitted(placements: readonly PlacementReadings[]): Profile {
  const profile = fitProfile(placements, 15);
  if (!profile.ok) throw new Error(profile.reason);
  return profile;
}

interface AccountOf {
  readonly held: 'evenly' | 'rougher mid-line';
  /** Readings are as uncertain as stated, or 1.4 times so. */
  readonly noise: 1 | 1.4;
}

/** One account of the profile, the least rough. */
function alone(profile: Profile, { held, noise }: AccountOf): Profile {
  const stated = profile.components.filter((c) => c.noise === noise);
  const ways = [...new Set(stated.map((c) => c.stiffness))];
  const stiffness = ways[held === 'evenly' ? 0 : 2];
  const found = stated.find((c) => c.stiffness === stiffness);
  if (!found) throw new Error('an account of every stiffness expected');
  return { ...profile, components: [{ ...found, weight: 1 }] };
}

function depthWeights(profile: Profile, [from, at, to]: readonly number[] = AT): Float64Array {
  const on = { judged: profile.domain, over: LENGTH, told: 'both as they stand' } as const;
  const weights = countedWeights(profile, { from, at, to }, 'hollow', on);
  if (!weights) throw new Error('a chord with a place under it expected');
  return weights;
}

const corner = (x: number) => -3 * Math.min(x / 750, (LENGTH - x) / 750);
const parabola = (x: number) => (3 * 4 * x * (x - LENGTH)) / LENGTH ** 2;
const read = (shape: (x: number) => number, seed = 3) =>
  readingsOf(shape, places(0, LENGTH, 16), 0.15, { noise: seededNormals(seed) });

/** A curve whose second derivative is a hat over three knots that holds an area of 1: two integrations by
 *  Simpson's rule, which is exact for it. */
function hatCurve({ breaks }: SplineBasis, knot: number): (x: number) => number {
  const [a, b, c] = [breaks[knot - 1], breaks[knot], breaks[knot + 1]];
  const hat = (t: number) => ((t < b ? (t - a) / (b - a) : (c - t) / (c - b)) * 2) / (c - a);
  const simpson = (p: number, q: number, f: (t: number) => number) =>
    ((q - p) / 6) * (f(p) + 4 * f((p + q) / 2) + f(q));
  return (x) =>
    [
      [a, b],
      [b, c],
    ]
      .filter(([p]) => p < x)
      .reduce((z, [p, q]) => z + simpson(p, Math.min(q, x), (t) => (x - t) * hat(t)), 0);
}

/** The same by a dense fit in which every corner has a column of its own: mean and variance of the depth
 *  with no corner, and over no corner and each of the corners, weighed by their marginal likelihoods. */
function dense(
  profile: Profile,
  { x, gap, u }: PlacementReadings,
  { knots, stretch }: { readonly knots: readonly number[]; readonly stretch: number },
) {
  const { basis, components, domain } = profile;
  const [{ roughness, noise, stiffness }] = components;
  const turn = 2 * roughness * Math.sqrt(stretch / LENGTH);
  const chord = AT.map((at) => at + domain[0]);
  const weights = depthWeights(profile, chord);
  const values = new Float64Array(4);
  const within = (at: number) => (at - domain[0]) / LENGTH;
  const fit = (curve?: (s: number) => number) => {
    const n = basis.size + (curve ? 1 : 0);
    const matrix = Array.from({ length: n }, () => new Float64Array(n));
    const right = new Float64Array(n);
    for (let i = 0; i < x.length; i++) {
      const row = new Float64Array(n);
      const first = basis.valuesAt(within(x[i]), values);
      row.set(values, first);
      if (curve) row[basis.size] = curve(within(x[i]));
      const w = 1 / (noise * u[i]) ** 2;
      row.forEach((a, j) => {
        right[j] -= w * a * gap[i];
        row.forEach((b, k) => (matrix[j][k] += w * a * b));
      });
    }
    for (let j = 0; j < basis.size; j++) {
      for (let d = 0; d < 4 && j + d < basis.size; d++) {
        const p = stiffness.penalty[4 * j + d] / roughness ** 2;
        matrix[j][j + d] += p;
        if (d > 0) matrix[j + d][j] += p;
      }
    }
    const figure = new Float64Array(n);
    figure.set(weights);
    let log = 0;
    if (curve) {
      matrix[n - 1][n - 1] += 1 / turn ** 2;
      log -= Math.log(turn);
      const [from, at, to] = chord;
      figure[n - 1] =
        ((to - at) * curve(within(from)) + (at - from) * curve(within(to))) / (to - from) -
        curve(within(at));
    }
    const lower = cholesky(matrix);
    const mean = solved(lower, right);
    lower.forEach((row, i) => (log -= Math.log(row[i])));
    log += 0.5 * dot(mean, right);
    return { log, value: dot(figure, mean), variance: dot(figure, solved(lower, figure)) };
  };
  const none = fit();
  const parts = [
    { weight: 0.5, ...none },
    ...knots.map((knot) => {
      const one = fit(hatCurve(basis, knot));
      return { ...one, weight: (0.5 / knots.length) * Math.exp(one.log - none.log) };
    }),
  ];
  const total = parts.reduce((sum, p) => sum + p.weight, 0);
  const mean = parts.reduce((sum, p) => sum + p.weight * p.value, 0) / total;
  const variance =
    parts.reduce((sum, p) => sum + p.weight * (p.variance + (p.value - mean) ** 2), 0) / total;
  return { shift: mean - none.value, variance: variance - none.variance };
}

/** Knots nearest to 750 mm and to every half spacing (50 mm) as far as three either way. */
function knotsAround({ basis }: Profile): number[] {
  const near = Array.from({ length: 7 }, (_, k) => 0.5 + ((k - 3) * 50) / LENGTH);
  const distances = (at: number) => Array.from(basis.breaks, (b) => Math.abs(b - at));
  return near.map((at) => distances(at).indexOf(Math.min(...distances(at))));
}

describe('the doubt that a corner brings', () => {
  it.each([
    { shape: corner, held: 'evenly', noise: 1, aft: 0, stretch: LENGTH },
    { shape: parabola, held: 'evenly', noise: 1, aft: 0, stretch: LENGTH },
    { shape: corner, held: 'rougher mid-line', noise: 1, aft: 0, stretch: LENGTH },
    { shape: corner, held: 'evenly', noise: 1.4, aft: 0, stretch: LENGTH },
    { shape: corner, held: 'evenly', noise: 1, aft: 200, stretch: LENGTH / 3 },
  ] as const)(
    'is that of a dense fit with a column for each corner, to 1e-6: $held, noise × $noise, from $aft mm, judged over $stretch',
    ({ shape, held, noise, aft, stretch }) => {
      const at = places(0, LENGTH, 16).map((x) => x + aft);
      const readings = readingsOf((x) => shape(x - aft), at, 0.15, { noise: seededNormals(3) });
      const profile = alone(fitted([readings]), { held, noise });
      const chord = AT.map((x) => x + aft);
      const weights = depthWeights(profile, chord);
      const found = cornerDoubt(profile, weights, [750 + aft], stretch);
      const wanted = dense(profile, readings, { knots: knotsAround(profile), stretch });
      expect(found.shift).toBeCloseTo(wanted.shift, 6);
      expect(found.variance).toBeCloseTo(Math.max(0, wanted.variance), 6);
    },
  );

  it('is looked for on the line alone where a place is near its end', () => {
    const profile = fitted([read(corner)]);
    const { breaks } = profile.basis;
    const aft = cornerDoubt(profile, depthWeights(profile), [0], LENGTH);
    const fore = cornerDoubt(profile, depthWeights(profile), [LENGTH], LENGTH);
    expect(breaks[0]).toBe(0);
    for (const { shift, variance } of [aft, fore]) {
      expect(Number.isFinite(shift) && Number.isFinite(variance)).toBe(true);
    }
  });

  it('is the same of readings laid in two tied placements as of one, where the second adds nothing', () => {
    const readings = read(corner);
    const part = (from: number, to: number): PlacementReadings => ({
      x: [...readings.x].slice(from, to),
      gap: [...readings.gap].slice(from, to),
      u: [...readings.u].slice(from, to),
    });
    // Two stations fix the second placement's own line and say nothing of the profile between them.
    const one = fitted([readings]);
    const two = fitted([readings, { ...part(3, 5) }]);
    const found = [one, two].map((p) => cornerDoubt(p, depthWeights(p), [750], LENGTH));
    expect(found[1].shift).toBeCloseTo(found[0].shift, 2);
    expect(found[1].variance).toBeCloseTo(found[0].variance, 3);
  });

  it('makes a depth at a corner deeper and less sure, one on an even curve hardly', () => {
    const at = (shape: (x: number) => number) => {
      const profile = fitted([read(shape)]);
      return cornerDoubt(profile, depthWeights(profile), [750], LENGTH);
    };
    expect(at(corner).shift).toBeGreaterThan(0.02);
    expect(at(corner).variance).toBeGreaterThan(0);
    expect(Math.abs(at(parabola).shift)).toBeLessThan(0.02);
  });

  it('is mirrored with the profile to the last bit', () => {
    const readings = read(corner, 8);
    const profile = fitted([readings]);
    const mirrored = fitted([{ ...readings, gap: Array.from(readings.gap, (g) => -g) }]);
    const one = cornerDoubt(profile, depthWeights(profile), AT, LENGTH);
    const other = cornerDoubt(mirrored, depthWeights(mirrored), AT, LENGTH);
    expect(other.shift).toBe(-one.shift);
    expect(other.variance).toBe(one.variance);
  });

  it('owes nothing to how placements lie', () => {
    const level = fitted([read(corner)]);
    const laid = fitted([
      readingsOf(corner, places(0, LENGTH, 16), 0.15, {
        noise: seededNormals(3),
        offset: 31,
        tilt: 0.004,
      }),
    ]);
    const one = cornerDoubt(level, depthWeights(level), AT, LENGTH);
    const other = cornerDoubt(laid, depthWeights(laid), AT, LENGTH);
    expect(other.shift).toBeCloseTo(one.shift, 8);
    expect(other.variance).toBeCloseTo(one.variance, 8);
  });

  it('is none at the ends of a line, where nothing can turn', () => {
    const profile = fitted([read(corner)]);
    const found = cornerDoubt(profile, depthWeights(profile), [-200, LENGTH + 200], LENGTH);
    expect(found).toEqual({ shift: 0, variance: 0 });
  });
});
