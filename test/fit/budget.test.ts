import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import thermometer from '../../fixtures/reference/gum_h3_thermometer.json';
import kriging from '../../fixtures/reference/posterior/budget.json';
import { solveForward } from '../../src/fit/arrowSystem.ts';
import { budgetOf, type Budget } from '../../src/fit/budget.ts';
import { countedWeights } from '../../src/fit/countedWeights.ts';
import { dot, slopeWeights } from '../../src/fit/functionals.ts';
import { fitProfile, type Profile } from '../../src/fit/posterior.ts';
import { responseTo } from '../../src/fit/responseTo.ts';
import { tailWeights } from '../../src/fit/tail.ts';
import type { PlacementReadings } from '../../src/fit/tied.ts';
import { heldEvenly, places, readingsOf, seededNormals } from './support.ts';

function fitted(placements: readonly PlacementReadings[], floor = 15): Profile {
  const profile = fitProfile(placements, floor);
  if (!profile.ok) throw new Error(profile.reason);
  return profile;
}

/** Depth of the profile below its chord, as a figure. */
function chordWeights(profile: Profile, [from, at, to]: readonly number[]): Float64Array {
  const on = { judged: profile.domain, over: 1e9, told: 'both as they stand' } as const;
  const weights = countedWeights(profile, { from, at, to }, 'hollow', on);
  if (!weights) throw new Error('a chord with a place under it expected');
  return weights;
}

/** The profile's one account at one roughness and the readings' own uncertainty. */
function alone(profile: Profile, roughness = 0): Profile {
  const stated = profile.components.filter((c) => c.noise === 1);
  return { ...profile, components: [{ ...stated[roughness], weight: 1 }] };
}

function sum(values: Iterable<number>): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}

const readingPart = (budget: Budget) => sum(budget.readings.flatMap((part) => [...part]));

/** Posterior variance of a figure, from the factors alone. */
function posteriorVariance(profile: Profile, weights: Float64Array): number {
  let mean = 0;
  let square = 0;
  for (const { weight, noise, coefficients, factor } of profile.components) {
    const half = new Float64Array(coefficients.length);
    half.set(weights);
    solveForward(factor, half);
    const own = dot(weights, coefficients.subarray(0, weights.length));
    mean += weight * own;
    square += weight * (own * own + noise * noise * dot(half, half));
  }
  return square - mean * mean;
}

const sickle = (x: number) => (x < 900 ? -2.2 * Math.sin((Math.PI * x) / 900) ** 2 : 0);
const noisy = (seed: number) =>
  readingsOf(sickle, places(0, 1500, 16), 0.15, { noise: seededNormals(seed) });

describe.each(kriging.cases)('the budget of $name against exact dense kriging', (reference) => {
  // fixtures/reference/generate_budget.py: kriging weights and prior variances, no spline, no knots.
  const fittedHere = () => fitted(reference.placements, kriging.floor);
  const stations = new Set(reference.placements.flatMap((p) => p.x));
  const atStations = (triple: readonly number[]) => triple.every((x) => stations.has(x));
  const compare = (
    profile: Profile,
    wanted: (typeof reference.departures)[number],
    limits: { parts: number; value: number },
  ) => {
    const budget = budgetOf(profile, chordWeights(profile, wanted.triple), reference.placements);
    const whole = sum(wanted.readings) + wanted.between + wanted.levels;
    const near = (found: number, expected: number) =>
      expect(Math.abs(found - expected) / whole).toBeLessThan(limits.parts);
    budget.readings
      .flatMap((part) => [...part])
      .forEach((part, i) => near(part, wanted.readings[i]));
    near(budget.between, wanted.between);
    near(budget.levels, wanted.levels);
    near(budget.variance, whole);
    expect(Math.abs(budget.value - wanted.mean)).toBeLessThan(limits.value);
  };

  it.each(reference.held_evenly.map((d) => [d.triple.join(', '), d] as const))(
    'takes the departure at %s apart, held evenly: every part to 1e-7 at stations, elsewhere to 0.5 % of the whole',
    (_, wanted) => {
      const parts = atStations(wanted.triple) ? 1e-7 : 5e-3;
      compare(heldEvenly(fittedHere()), wanted, { parts, value: 1e-7 });
    },
  );

  it.each(reference.departures.map((d) => [d.triple.join(', '), d] as const))(
    'takes the departure at %s apart, with all ways of holding it: every part to 0.5 % of the whole',
    (_, wanted) => compare(fittedHere(), wanted, { parts: 5e-3, value: 1e-3 }),
  );

  it('feels a bow of the edge as kriging does, to 1e-7 of its size', () => {
    const profile = heldEvenly(fittedHere());
    const low = profile.domain[0];
    const span = profile.domain[1] - low;
    const shape = responseTo(profile, reference.placements, (p, i) => {
      const s = (reference.placements[p].x[i] - low) / span;
      return 4 * s * (1 - s);
    });
    for (const { triple, bow } of reference.held_evenly) {
      if (!atStations(triple)) continue;
      const weights = chordWeights(profile, triple);
      const { systematic } = budgetOf(profile, weights, reference.placements, [
        { name: 'bow', shape },
      ]);
      expect(Math.abs(Math.sqrt(systematic[0]) - Math.abs(bow))).toBeLessThan(1e-7);
    }
  });
});

describe('the budget of a straight line against GUM H.3, calibration of a thermometer', () => {
  // JCGM 100:2008, Annex H.3: as the roughness goes to 0 a profile is a least-squares line, and its budget
  // that of the line's parameters. Every digit that is printed; 30 °C lies outside the readings, as there.
  const { t_degC: t, b_degC: b, published, published_recentred_H_3_5: recentred } = thermometer;
  const s = thermometer.computed_full_precision.s;
  const placements = [{ x: t, gap: b.map((value) => -value), u: t.map(() => s) }];
  const lineOf = () => {
    const profile = alone(fitted(placements, 1e-4));
    return { profile, slope: slopeWeights(profile, ...profile.domain) };
  };

  it('gives the standard uncertainty of the slope', () => {
    const { profile, slope } = lineOf();
    const budget = budgetOf(profile, slope, placements);
    expect(budget.value).toBeCloseTo(published.y2, 5);
    expect(Math.sqrt(budget.variance)).toBeCloseTo(published.s_y2, 5);
    expect(readingPart(budget) / budget.variance).toBeGreaterThan(1 - 1e-3);
  });

  it('gives the corrections at 20 °C and 30 °C and at the mean of the readings with theirs', () => {
    const { profile, slope } = lineOf();
    const [low, high] = profile.domain;
    const at = (degrees: number) => {
      // The line's height in the middle of the readings, then along the slope.
      const weights = chordMiddle(profile, low, high).map(
        (w, j) => w + (degrees - (low + high) / 2) * slope[j],
      );
      const { value, variance } = budgetOf(profile, weights, placements);
      return { value, u: Math.sqrt(variance) };
    };
    expect(at(20).value).toBeCloseTo(published.y1_degC, 4);
    expect(at(20).u).toBeCloseTo(published.s_y1_degC, 4);
    expect(at(30).value).toBeCloseTo(published.b_at_30_degC, 4);
    expect(at(30).u).toBeCloseTo(published.uc_b30_degC, 4);
    expect(at(recentred.t0_mean_degC).value).toBeCloseTo(recentred.y1_degC, 4);
    expect(at(recentred.t0_mean_degC).u).toBeCloseTo(recentred.s_y1_degC, 4);
  });
});

/** Mean of the heights at both ends: on a line, its height in the middle. */
function chordMiddle(profile: Profile, low: number, high: number): Float64Array {
  const weights = new Float64Array(profile.basis.size);
  const values = new Float64Array(4);
  for (const x of [low, high]) {
    const first = profile.basis.valuesAt((x - low) / (high - low), values);
    for (let a = 0; a < 4; a++) weights[first + a] += values[a] / 2;
  }
  return weights;
}

describe('a budget', () => {
  const two = [
    readingsOf(sickle, places(0, 900, 10), 0.15, { noise: seededNormals(3), tilt: 0.002 }),
    readingsOf(sickle, places(600, 1500, 10), 0.2, { noise: seededNormals(4), offset: 5 }),
  ];

  it('adds up to the posterior variance, for a departure and for the tail angle', () => {
    for (const placements of [[noisy(1)], two]) {
      const profile = fitted(placements);
      const tail = tailWeights(profile, 0, 300, 1500);
      if (!tail) throw new Error('a tail expected');
      for (const weights of [chordWeights(profile, [0, 430, 1010]), tail]) {
        const budget = budgetOf(profile, weights, placements);
        const { readings, between, levels, variance } = budget;
        expect(readings.map((part) => part.length)).toEqual(placements.map((p) => p.x.length));
        expect(readingPart(budget) + between + levels).toBeCloseTo(variance, 12);
        const whole = posteriorVariance(profile, weights);
        expect(Math.abs(variance / whole - 1)).toBeLessThan(1e-6);
      }
    }
  });

  it('has for each reading what moving that reading alone moves, to 1e-6', () => {
    const profile = fitted(two);
    const weights = chordWeights(profile, [100, 450, 900]);
    const budget = budgetOf(profile, weights, two);
    const step = 0.01;
    two.forEach(({ x }, p) => {
      for (let i = 0; i < x.length; i += 3) {
        const moved = fitted(
          two.map((q, k) =>
            k === p ? { ...q, gap: q.gap.map((g, j) => (j === i ? g + step : g)) } : q,
          ),
        );
        const part = sum(
          profile.components.map(({ weight, noise, coefficients }, k) => {
            const shift = moved.components[k].coefficients.map((c, j) => c - coefficients[j]);
            const answer = dot(weights, shift.subarray(0, weights.length)) / step;
            return weight * (noise * two[p].u[i] * answer) ** 2;
          }),
        );
        expect(Math.abs(budget.readings[p][i] / part - 1)).toBeLessThan(1e-6);
      }
    });
  });

  it('has readings that matter half as much when all their uncertainties are halved on a straight line', () => {
    const line = readingsOf((x) => 0.001 * x, places(0, 1500, 12), 0.2);
    const half = { ...line, u: line.u.map((u) => u / 2) };
    const [whole, halved] = [line, half].map((readings) => {
      const profile = alone(fitted([readings], 2e-3));
      return readingPart(budgetOf(profile, slopeWeights(profile, 0, 1500), [readings]));
    });
    expect(Math.sqrt(halved / whole)).toBeCloseTo(0.5, 5);
  });

  it('scales with its unit: readings, uncertainties and floor halved halve every part', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1000 }), (seed) => {
        const readings = noisy(seed);
        const half = {
          x: readings.x,
          gap: readings.gap.map((g) => g / 2),
          u: readings.u.map((u) => u / 2),
        };
        const [one, other] = [
          { readings, floor: 15 },
          { readings: half, floor: 7.5 },
        ].map(({ readings: given, floor }) => {
          const profile = fitted([given], floor);
          return budgetOf(profile, chordWeights(profile, [0, 450, 900]), [given]);
        });
        expect(other.value).toBeCloseTo(one.value / 2, 9);
        expect(readingPart(other)).toBeCloseTo(readingPart(one) / 4, 9);
        expect(other.between).toBeCloseTo(one.between / 4, 9);
        expect(other.levels).toBeCloseTo(one.levels / 4, 9);
      }),
      { seed: 20261125, numRuns: 15 },
    );
  });

  it('is the same when a straight line is added to the readings', () => {
    const change = fc.record({
      offset: fc.double({ min: -40, max: 40, noNaN: true }),
      tilt: fc.double({ min: -0.03, max: 0.03, noNaN: true }),
    });
    const plain = noisy(7);
    const profile = fitted([plain]);
    const before = budgetOf(profile, chordWeights(profile, [0, 450, 900]), [plain]);
    fc.assert(
      fc.property(change, ({ offset, tilt }) => {
        const moved = { ...plain, gap: plain.gap.map((g, i) => g + offset + tilt * plain.x[i]) };
        const again = fitted([moved]);
        const after = budgetOf(again, chordWeights(again, [0, 450, 900]), [moved]);
        expect(after.value).toBeCloseTo(before.value, 7);
        expect(readingPart(after)).toBeCloseTo(readingPart(before), 8);
        expect(after.between).toBeCloseTo(before.between, 8);
        expect(after.levels).toBeCloseTo(before.levels, 8);
      }),
      { seed: 20261125, numRuns: 15 },
    );
  });

  it('does not grow when a reading is added, and its between shrinks with a station in the middle', () => {
    const coarse = readingsOf(sickle, places(0, 1500, 7), 0.1);
    const fine = readingsOf(sickle, places(0, 1500, 13), 0.1);
    const [few, many] = [coarse, fine].map((readings) => {
      const profile = alone(fitted([readings]), 4);
      return budgetOf(profile, chordWeights(profile, [0, 375, 900]), [readings]);
    });
    expect(many.variance).toBeLessThan(few.variance);
    expect(many.between).toBeLessThan(few.between / 4);
  });

  it('says how many times their stated uncertainty the readings bear out', () => {
    const stated = { ...noisy(2), u: noisy(2).u.map((u) => u / 2) };
    const profile = fitted([stated]);
    const weights = chordWeights(profile, [0, 450, 900]);
    expect(budgetOf(profile, weights, [stated]).noise).toBeGreaterThan(1.2);
    expect(budgetOf(alone(profile), weights, [stated]).noise).toBe(1);
  });

  it('adds what systematic modes bring, one a mode, in their order', () => {
    const profile = fitted([noisy(1)]);
    const weights = chordWeights(profile, [0, 450, 900]);
    const shape = new Float64Array(profile.basis.size).fill(0);
    shape[5] = 0.5;
    const straight = Float64Array.from({ length: profile.basis.size }, () => 3);
    const budget = budgetOf(
      profile,
      weights,
      [noisy(1)],
      [
        { name: 'bend', shape },
        { name: 'lift', shape: straight },
      ],
    );
    const without = budgetOf(profile, weights, [noisy(1)]);
    expect(budget.systematic[0]).toBeCloseTo((0.5 * weights[5]) ** 2, 12);
    expect(budget.systematic[1]).toBeCloseTo(0, 12);
    expect(budget.variance).toBeCloseTo(without.variance + budget.systematic[0], 12);
  });

  it('throws RangeError on weights, readings or modes of another profile', () => {
    const readings = noisy(1);
    const profile = fitted([readings]);
    const weights = chordWeights(profile, [0, 450, 900]);
    const short = { ...readings, x: readings.x.slice(1) };
    expect(() => budgetOf(profile, weights.slice(1), [readings])).toThrow(RangeError);
    expect(() => budgetOf(profile, weights, [short])).toThrow(RangeError);
    expect(() => budgetOf(profile, weights, [readings, { x: [], gap: [], u: [] }])).toThrow(
      RangeError,
    );
    const mode = { name: 'bow', shape: new Float64Array(3) };
    expect(() => budgetOf(profile, weights, [readings], [mode])).toThrow(/bow/);
  });
});
