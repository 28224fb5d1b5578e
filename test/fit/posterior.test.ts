import { beforeEach, describe, expect, it } from 'vitest';
import kriging from '../../fixtures/reference/posterior/wiener_kriging.json';
import { solveForward } from '../../src/fit/arrowSystem.ts';
import { dot, heightsAt } from '../../src/fit/functionals.ts';
import {
  fitProfile,
  meanCoefficients,
  placementLines,
  type Profile,
} from '../../src/fit/posterior.ts';
import { posteriorDraws } from '../../src/fit/posteriorDraws.ts';
import type { PlacementReadings } from '../../src/fit/tied.ts';
import { departureWeights, places, readingsOf, type Shape } from './support.ts';

function fitted(placements: readonly PlacementReadings[], floor = 15): Profile {
  const profile = fitProfile(placements, floor, Infinity, 'all');
  if (!profile.ok) throw new Error(profile.reason);
  return profile;
}

describe.each(kriging.cases)('the posterior of $name against exact dense kriging', (reference) => {
  // fixtures/reference/generate_wiener_kriging.py: integrated Wiener process with a flat prior on every
  // line, no knots (Wahba 1978), at each of the fit's stiffness, roughness and noise levels.
  let profile: Profile;
  let weights: readonly Float64Array[];
  beforeEach(() => {
    profile = fitted(reference.placements, kriging.floor);
    weights = kriging.triples.map((triple) => departureWeights(profile, triple));
  });

  /** Mean and standard deviation of a departure in one component, from its factor. */
  const momentsIn = (k: number, w: Float64Array) => {
    const { coefficients, factor, noise } = profile.components[k];
    const half = new Float64Array(coefficients.length);
    half.set(w);
    solveForward(factor, half);
    return { mean: dot(w, coefficients), sd: noise * Math.sqrt(dot(half, half)) };
  };

  // Held evenly, the exact mean is a spline whose second derivative is a broken line with its knots at the stations: it
  // lies in the fit's space. Where the stiffness changes that derivative jumps, which the fit bridges over two knots.
  const tied = reference.components.map((component, k) => ({ ...component, k }));
  const even = tied.filter((c) => c.rougher === null);
  const weightOf = (those: readonly { weight: number }[]) =>
    those.reduce((sum, { weight }) => sum + weight, 0);

  it('has the same levels, weighted as the exact marginal likelihood weights them, to 1e-9 where held evenly', () => {
    expect(profile.components).toHaveLength(reference.components.length);
    tied.forEach(({ roughness, noise, weight, k }) => {
      const found = profile.components[k];
      expect(found.roughness / roughness).toBeCloseTo(1, 12);
      expect(found.noise).toBeCloseTo(noise, 12);
      expect(Math.abs(found.weight - weight)).toBeLessThan(1e-3);
    });
    const foundEven = weightOf(even.map(({ k }) => profile.components[k]));
    even.forEach(({ weight, k }) => {
      const share = profile.components[k].weight / foundEven;
      expect(Math.abs(share - weight / weightOf(even))).toBeLessThan(1e-9);
    });
  });

  it('has the exact mean of every departure, at stations and between, to 1e-8 mm where held evenly, else to 0.02', () => {
    tied.forEach(({ departures, rougher, k }) => {
      departures.forEach(({ mean }, i) => {
        const off = Math.abs(momentsIn(k, weights[i]).mean - mean);
        expect(off).toBeLessThan(rougher ? 0.02 : 1e-8);
      });
    });
  });

  it('has the exact deviation to 1e-7 where all places are stations and it is held evenly, elsewhere to 5 %', () => {
    const stations = new Set(reference.placements.flatMap((p) => p.x));
    tied.forEach(({ departures, rougher, k }) => {
      departures.forEach(({ sd }, i) => {
        const isExact = !rougher && kriging.triples[i].every((x) => stations.has(x));
        const off = Math.abs(momentsIn(k, weights[i]).sd / sd - 1);
        expect(off).toBeLessThan(isExact ? 1e-7 : 0.05);
      });
    });
  });

  it('has draws with the averaged mean to a fiftieth of the deviation, and that deviation to 5 %', () => {
    const draws = posteriorDraws(profile, 0, 2000);
    reference.averaged.forEach(({ mean, sd }, i) => {
      const values = draws.map((c) => dot(weights[i], c));
      const found = values.reduce((sum, v) => sum + v, 0) / values.length;
      const squares = values.reduce((sum, v) => sum + (v - found) ** 2, 0);
      expect(Math.abs(found - mean) / sd).toBeLessThan(0.02);
      expect(Math.abs(Math.sqrt(squares / (values.length - 1)) / sd - 1)).toBeLessThan(0.05);
    });
  });

  it('has the mean that its levels average to', () => {
    const mean = meanCoefficients(profile);
    reference.averaged.forEach((wanted, i) => {
      expect(Math.abs(dot(weights[i], mean) - wanted.mean)).toBeLessThan(1e-3);
    });
  });
});

describe('draws', () => {
  let profile: Profile;
  beforeEach(() => {
    profile = fitted(kriging.cases[1].placements);
  });

  it('come in pairs mirrored about the mean of their level', () => {
    const means = profile.components.map((c) => c.coefficients.subarray(0, profile.basis.size));
    const draws = posteriorDraws(profile, 0, 20);
    expect(draws).toHaveLength(40);
    for (let k = 0; k < 40; k += 2) {
      const middle = draws[k].map((v, j) => (v + draws[k + 1][j]) / 2);
      const nearest = Math.min(
        ...means.map((mean) => Math.max(...mean.map((v, j) => Math.abs(v - middle[j])))),
      );
      expect(nearest).toBeLessThan(1e-9);
    }
  });

  it('take the levels in van der Corput’s order: a half of the weight first, a quarter, three quarters', () => {
    const draws = posteriorDraws(profile, 0, 7);
    [1 / 2, 1 / 4, 3 / 4, 1 / 8, 5 / 8, 3 / 8, 7 / 8].forEach((share, k) => {
      let sum = 0;
      const level = profile.components.find(({ weight }) => (sum += weight) > share);
      const mean = level?.coefficients ?? [];
      draws[2 * k].forEach((v, j) => expect((v + draws[2 * k + 1][j]) / 2).toBeCloseTo(mean[j], 9));
    });
  });

  it('are the same every time, and carried on where they left off', () => {
    const whole = posteriorDraws(profile, 0, 30);
    expect(posteriorDraws(profile, 0, 30)).toEqual(whole);
    expect([...posteriorDraws(profile, 0, 11), ...posteriorDraws(profile, 11, 30)]).toEqual(whole);
  });

  it('throw RangeError on a sequence that does not run upwards from 0 in whole pairs', () => {
    expect(() => posteriorDraws(profile, -1, 5)).toThrow(RangeError);
    expect(() => posteriorDraws(profile, 5, 5)).toThrow(RangeError);
    expect(() => posteriorDraws(profile, 0, 2.5)).toThrow(RangeError);
  });
});

describe('two tied placements', () => {
  const shape: Shape = (x) => 2e-6 * (x - 700) ** 2 - 0.4 * Math.sin(x / 250);
  const aft = places(20, 920, 19);
  const fore = places(620, 1520, 19);
  const first = { offset: 1.5, tilt: 0.002 };
  const second = { offset: -4, tilt: -0.005 };
  let tied: Profile;
  beforeEach(() => {
    tied = fitted([readingsOf(shape, aft, 1e-4, first), readingsOf(shape, fore, 1e-4, second)]);
  });

  it('give the profile that one placement gives, but for a straight line, free of noise to 1e-5', () => {
    const all = [...new Set([...aft, ...fore])].sort((a, b) => a - b);
    const single = fitted([readingsOf(shape, all, 1e-4)]);
    const x = places(20, 1520, 151);
    const one = heightsAt(single, x)(meanCoefficients(single));
    const two = heightsAt(tied, x)(meanCoefficients(tied));
    const off = two.map((v, i) => v - one[i]);
    x.forEach((at, i) => {
      const line = off[0] + ((off[150] - off[0]) * (at - 20)) / 1500;
      expect(Math.abs(off[i] - line)).toBeLessThan(1e-5);
    });
  });

  it('are told the offset and tilt by which the second lay differs from the first', () => {
    const [datum, line] = placementLines(tied);
    expect(datum).toEqual({ offset: 0, tilt: 0 });
    expect(line.tilt).toBeCloseTo(second.tilt - first.tilt, 6);
    // Offsets are told at the domain's aft end, here x = 20.
    const there = second.offset - first.offset + (second.tilt - first.tilt) * 20;
    expect(line.offset).toBeCloseTo(there, 3);
  });

  it('count every reading, each station once', () => {
    expect(tied.n).toBe(38);
    expect(tied.stations).toBe(31);
    expect(tied.domain).toEqual([20, 1520]);
    expect(meanCoefficients(tied)).toHaveLength(tied.basis.size);
    expect(tied.components.reduce((sum, c) => sum + c.weight, 0)).toBeCloseTo(1, 12);
  });
});

describe('a log of many readings', () => {
  it('keeps to a fixed set of knots, and still gives a parabola to 2e-4 mm', () => {
    const c = 3e-6;
    const profile = fitted([readingsOf((x) => c * x * x, places(0, 1500, 3001), 0.01)]);
    expect(profile.basis.breaks).toHaveLength(129);
    expect(profile).toMatchObject({ n: 3001, stations: 129 });
    const weights = departureWeights(profile, [0, 750, 1500]);
    const depth = dot(weights, meanCoefficients(profile));
    expect(Math.abs(depth - (c * 1500 ** 2) / 4)).toBeLessThan(2e-4);
  });
});

describe('the knots', () => {
  const breaksOf = (x: readonly number[]) => [
    ...fitted([readingsOf((at) => at / 500, x, 0.1)]).basis.breaks,
  ];

  it('stand at every station and evenly between, no farther apart than a 64th of the line', () => {
    const breaks = breaksOf([500, 530, 1300, 560, 2100]);
    expect(breaks[0]).toBe(0);
    expect(breaks[breaks.length - 1]).toBe(1);
    for (const station of [30, 60, 800]) {
      expect(Math.min(...breaks.map((b) => Math.abs(b - station / 1600)))).toBeLessThan(1e-12);
    }
    const steps = breaks.slice(1).map((b, i) => b - breaks[i]);
    // Thirty of 1600 mm are more than a 64th (25 mm): two steps each; 740 are 30 steps, 800 are 32.
    expect(steps).toHaveLength(2 + 2 + 30 + 32);
    steps.forEach((step, i) => {
      const wanted = i < 4 ? 15 / 1600 : i < 34 ? 740 / 30 / 1600 : 1 / 64;
      expect(step).toBeCloseTo(wanted, 12);
    });
  });

  it('are one where stations differ by rounding only', () => {
    const x = [0, 0.1 + 0.2, 0.3, 0.6, 1];
    expect(breaksOf(x)).toHaveLength(breaksOf([0, 0.3, 0.6, 1]).length);
  });

  it('stand at 128 stations still, and at 129 even places for more', () => {
    const uneven = (count: number) => Array.from({ length: count }, (_, i) => 3 * i + (i % 2));
    const x = uneven(128);
    const breaks = breaksOf(x);
    expect(breaks).toHaveLength(128);
    x.forEach((at, i) => expect(breaks[i]).toBeCloseTo(at / x[127], 12));
    breaksOf(uneven(129)).forEach((b, i) => expect(b).toBe(i / 128));
  });
});

describe('a profile that readings cannot give', () => {
  const good = readingsOf((x) => x / 100, [0, 100, 200, 300], 0.1);

  it('is refused with what is needed when there are fewer than four stations', () => {
    const refusal = { ok: false, reason: 'too few readings', n: 3, needed: 4 };
    expect(fitProfile([readingsOf((x) => x, [0, 100, 100, 100, 200], 0.1)], 15)).toEqual(refusal);
    expect(fitProfile([], 15)).toMatchObject({ ok: false, n: 0 });
    expect(fitProfile([good], 15).ok).toBe(true);
  });

  it('is refused as not tied when a placement has too few readings for a line of its own', () => {
    const refusal = { ok: false, reason: 'not tied' };
    expect(fitProfile([good, { x: [], gap: [], u: [] }], 15)).toMatchObject(refusal);
    expect(fitProfile([good, { x: [100], gap: [1], u: [0.1] }], 15)).toMatchObject(refusal);
  });

  it('throws RangeError on unequal lengths, values not finite, u or floor not positive', () => {
    const { x, gap, u } = good;
    expect(() => fitProfile([{ x, gap: gap.slice(1), u }], 15)).toThrow(
      new RangeError('x, gap and u of one length expected, got 4, 3, 4'),
    );
    expect(() => fitProfile([{ x, gap, u: u.slice(1) }], 15)).toThrow(RangeError);
    expect(() => fitProfile([{ x: [0, 1, NaN, 3], gap, u }], 15)).toThrow(
      /finite x and gap and a positive u expected, got NaN, .*, 0.1/,
    );
    expect(() => fitProfile([{ x, gap: [0, 1, Infinity, 3], u }], 15)).toThrow(RangeError);
    expect(() => fitProfile([{ x, gap, u: [0.1, 0, 0.1, 0.1] }], 15)).toThrow(RangeError);
    expect(() => fitProfile([{ x, gap, u: [0.1, Infinity, 0.1, 0.1] }], 15)).toThrow(RangeError);
    expect(() => fitProfile([good], 0)).toThrow(new RangeError('a positive floor expected, got 0'));
    expect(() => fitProfile([good], 15, NaN)).toThrow(
      new RangeError('a positive stretch expected, got NaN'),
    );
    expect(() => fitProfile([good], NaN)).toThrow(RangeError);
  });
});
