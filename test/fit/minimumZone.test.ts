import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import examples from '../../fixtures/reference/straightness_examples.json';
import { minimumZone, type MinimumZone } from '../../src/fit/minimumZone.ts';
import { straightness } from '../../src/fit/straightness.ts';
import { places } from './support.ts';

const [autocollimator, parabola, exponential, squareRoot, hookLike] = examples;

function zoneOf(x: readonly number[], z: readonly number[]): MinimumZone {
  const zone = minimumZone(x, z);
  if (!zone.ok) throw new Error(zone.reason);
  return zone;
}

describe('minimum zone against examples', () => {
  // Sources in fixtures/reference/SOURCES.md: published readings of an autocollimator run, and a
  // constructed profile; their minimum zones as exact fractions.
  it('gives the autocollimator run its 3 µm, as the published end-point line does', () => {
    const { x_mm: x, cumulative_um: z, published, computed_here: computed } = autocollimator;
    if (!x || !z || !published || !computed) throw new Error('the fixture lacks its profile');
    const zone = zoneOf(x, z);
    expect(zone.STRt).toBe(3);
    expect(zone.STRt).toBe(published.straightness_um);
    expect(zone.slope).toBe(computed.MZLI.slope);
    expect(zone.midIntercept).toBe(computed.MZLI.mid_intercept);
    // Low at 100 and 500 mm, high at 300 mm between them.
    expect(zone).toMatchObject({ lower: [1, 5], upper: [3], unique: true, n: 7, domain: [0, 600] });
  });

  it('gives the hook-like profile its 5/4 mm, to the last bit of the tenths as doubles hold them', () => {
    const { x_mm: x, y_mm: z, computed_here: computed } = hookLike;
    if (!x || !z || !computed) throw new Error('the fixture lacks its profile');
    const zone = zoneOf(x, z);
    expect(zone.STRt).toBeCloseTo(5 / 4, 15);
    expect(zone.slope).toBeCloseTo(computed.MZLI.slope, 17);
    expect(zone.midIntercept).toBeCloseTo(computed.MZLI.mid_intercept, 15);
    const tenths = zoneOf(
      x,
      z.map((value) => Math.round(value * 10)),
    );
    expect(tenths.STRt).toBe(12.5);
    expect(tenths.midIntercept).toBe(2.25);
  });

  it.each((parabola.discrete ?? []).map((row) => [row.N, row.STRt_MZ] as const))(
    'gives a parabola of %d readings a quarter, its slope 1 and its middle −1/8',
    (count, width) => {
      const x = places(0, 1, count);
      const zone = zoneOf(
        x,
        x.map((at) => at * at),
      );
      expect(zone.STRt).toBeCloseTo(width, 15);
      expect(zone.slope).toBe(1);
      expect(zone.midIntercept).toBeCloseTo(-1 / 8, 15);
      expect(zone.upper).toEqual([0, count - 1]);
      expect(zone.lower).toEqual([(count - 1) / 2]);
    },
  );
});

describe('minimum zone against the best straight line of Chebyshev', () => {
  // Textbook best lines (for example Cheney, Introduction to Approximation Theory), derived again here.
  const count = 40001;
  const x = places(0, 1, count);
  const step = 1 / (count - 1);

  it('of exp on [0, 1], to what a grid can see of the inner touch', () => {
    const zone = zoneOf(x, x.map(Math.exp));
    const { slope, mid_intercept: middle, STRt_MZ: width, touch_points_x: touch } = exponential;
    if (!slope || !middle || !width || !touch) throw new Error('the fixture lacks its values');
    // The nearest place stands at most half a step from the touch: exp″·(step/2)²/2 short.
    const short = ((Math.E - 1) * (step / 2) ** 2) / 2;
    expect(zone.slope).toBeCloseTo(slope, 14);
    expect(zone.STRt).toBeLessThanOrEqual(width + 1e-15);
    expect(zone.STRt).toBeGreaterThanOrEqual(width - short - 1e-15);
    expect(Math.abs(zone.midIntercept - middle)).toBeLessThanOrEqual(short / 2 + 1e-15);
    expect(zone.upper).toEqual([0, count - 1]);
    expect(Math.abs(x[zone.lower[0]] - touch[1])).toBeLessThanOrEqual(step);
  });

  it('of the square root on [0, 1], whose inner touch at 1/4 is on the grid', () => {
    const zone = zoneOf(x, x.map(Math.sqrt));
    expect(zone.STRt).toBe(squareRoot.STRt_MZ);
    expect(zone.slope).toBe(squareRoot.slope);
    expect(zone.midIntercept).toBe(squareRoot.mid_intercept);
    expect([...zone.lower, ...zone.upper].map((i) => x[i])).toEqual([0, 1, 0.25]);
  });
});

/** Whole numbers small enough for every product below to be exact; several readings may share a place. */
const profile = fc
  .array(fc.tuple(fc.integer({ min: -60, max: 60 }), fc.integer({ min: -25, max: 25 })), {
    minLength: 2,
    maxLength: 24,
  })
  .map((points) => ({ x: points.map((p) => p[0]), z: points.map((p) => p[1]) }))
  .filter(({ x }) => new Set(x).size > 1);

/** Least separation over the slopes of all pairs, as an exact fraction. */
function overAllPairs(x: readonly number[], z: readonly number[]): number {
  let best = { over: Infinity, under: 1 };
  for (let a = 0; a < x.length; a++) {
    for (let b = 0; b < x.length; b++) {
      const run = x[b] - x[a];
      if (run <= 0) continue;
      const heights = x.map((at, i) => z[i] * run - at * (z[b] - z[a]));
      const over = Math.max(...heights) - Math.min(...heights);
      if (over * best.under < best.over * run) best = { over, under: run };
    }
  }
  return best.over / best.under;
}

describe('minimum zone of any profile', () => {
  it('is as narrow as the best of all pairs of readings, to the last bit', () => {
    fc.assert(
      fc.property(profile, ({ x, z }) => {
        expect(zoneOf(x, z).STRt).toBe(overAllPairs(x, z));
      }),
      { seed: 431, numRuns: 2000 },
    );
  });

  it('holds every reading between its lines, and the readings it names on them', () => {
    fc.assert(
      fc.property(profile, ({ x, z }) => {
        const zone = zoneOf(x, z);
        const offMiddle = x.map((at, i) => z[i] - zone.midIntercept - zone.slope * at);
        for (const off of offMiddle) {
          expect(Math.abs(off)).toBeLessThanOrEqual(zone.STRt / 2 + 1e-12);
        }
        for (const i of zone.upper) expect(offMiddle[i]).toBeCloseTo(zone.STRt / 2, 11);
        for (const i of zone.lower) expect(offMiddle[i]).toBeCloseTo(-zone.STRt / 2, 11);
      }),
      { seed: 432, numRuns: 500 },
    );
  });

  it('is held so that no turn makes it narrower: one touch between two of the other side', () => {
    fc.assert(
      fc.property(profile, ({ x, z }) => {
        const { upper, lower, unique } = zoneOf(x, z);
        const [u, l] = [upper.map((i) => x[i]), lower.map((i) => x[i])];
        if (unique) {
          expect(u.length + l.length).toBeGreaterThanOrEqual(3);
          // Their spans overlap: neither line's touches lie all to one side of the other's.
          expect(Math.max(u[0], l[0])).toBeLessThanOrEqual(
            Math.min(Math.max(...u), Math.max(...l)),
          );
          expect(u).toEqual([...u].sort((a, b) => a - b));
          expect(l).toEqual([...l].sort((a, b) => a - b));
        } else {
          expect(u).toEqual(l);
          expect(u).toHaveLength(1);
        }
      }),
      { seed: 433, numRuns: 500 },
    );
  });

  it('is never wider than what stands about the least-squares line', () => {
    fc.assert(
      fc.property(profile, ({ x, z }) => {
        const about = straightness(x, z);
        fc.pre(about.ok);
        expect(zoneOf(x, z).STRt).toBeLessThanOrEqual(about.STRt + 1e-11);
      }),
      { seed: 434, numRuns: 500 },
    );
  });

  it('keeps its width and its touching readings when a straight line is added', () => {
    const whole = fc.integer({ min: -1000, max: 1000 });
    fc.assert(
      fc.property(profile, whole, whole, ({ x, z }, offset, tilt) => {
        const plain = zoneOf(x, z);
        const tilted = zoneOf(
          x,
          z.map((value, i) => value + offset + tilt * x[i]),
        );
        expect(tilted.STRt).toBe(plain.STRt);
        expect(tilted).toMatchObject({ upper: plain.upper, lower: plain.lower });
        expect(tilted.slope).toBeCloseTo(plain.slope + tilt, 10);
        expect(tilted.midIntercept).toBeCloseTo(plain.midIntercept + offset, 10);
      }),
      { seed: 435, numRuns: 500 },
    );
  });

  it('is its own mirror image to the last bit, turned over or end for end', () => {
    const coordinate = fc.double({ min: -50, max: 50, noNaN: true });
    const uneven = fc
      .array(fc.tuple(coordinate, coordinate), { minLength: 2, maxLength: 20 })
      .map((points) => ({ x: points.map((p) => p[0] + 0), z: points.map((p) => p[1]) }))
      .filter(({ x }) => new Set(x.map((at) => at.toFixed(6))).size === x.length);
    fc.assert(
      fc.property(fc.oneof(profile, uneven), ({ x, z }) => {
        const plain = zoneOf(x, z);
        const over = zoneOf(
          x,
          z.map((value) => -value),
        );
        expect(over.STRt).toBe(plain.STRt);
        expect(over.slope + plain.slope).toBe(0);
        expect(over.midIntercept + plain.midIntercept).toBe(0);
        const around = zoneOf(
          x.map((at) => -at),
          z,
        );
        expect(around.STRt).toBe(plain.STRt);
        expect(around.slope + plain.slope).toBe(0);
        expect(around.midIntercept).toBe(plain.midIntercept);
      }),
      { seed: 436, numRuns: 500 },
    );
  });

  it('does not depend on the order of the readings', () => {
    fc.assert(
      fc.property(profile, ({ x, z }) => {
        const { STRt, slope, midIntercept } = zoneOf(x, z);
        const back = zoneOf([...x].reverse(), [...z].reverse());
        expect(back).toMatchObject({ STRt, slope, midIntercept });
      }),
      { seed: 437, numRuns: 200 },
    );
  });
});

describe('minimum zone in the corners', () => {
  it('is nothing wide for two readings, and for readings on a line, whatever their last bits', () => {
    expect(zoneOf([0, 10], [1, 3])).toMatchObject({ STRt: 0, slope: 0.2, midIntercept: 1 });
    const x = places(0, 3, 31);
    const onLine = zoneOf(
      x,
      x.map((at) => 0.1 * at + 0.7),
    );
    expect(onLine.STRt).toBeLessThan(3e-16);
  });

  it('takes the middle of the slopes where two readings at one place are the whole width', () => {
    // Readings of 0 and 4 at x = 5 between ends at 2: any slope up to 2/5 either way encloses them.
    const zone = zoneOf([0, 5, 5, 10], [2, 0, 4, 2]);
    expect(zone).toMatchObject({ STRt: 4, slope: 0, midIntercept: 2, unique: false });
    expect(zone).toMatchObject({ upper: [2], lower: [1] });
    expect(zoneOf([0, 5, 5, 10], [3, 0, 4, 2]).slope).toBeCloseTo(-0.1, 15);
  });

  it('names both touches on either side where the hull runs parallel', () => {
    const zone = zoneOf([0, 1, 3, 4], [0, 2, 2, 0]);
    expect(zone).toMatchObject({ STRt: 2, slope: 0, upper: [1, 2], lower: [0, 3], unique: true });
  });

  it('names the ends of a straight side, not the readings along it', () => {
    const flat = zoneOf([0, 1, 2, 3, 4], [0, 0, 0, 0, 0]);
    expect(flat).toMatchObject({ STRt: 0, upper: [0, 4], lower: [0, 4], unique: true });
    const roof = zoneOf([0, 1, 2, 3, 4], [0, 1, 1, 1, 0]);
    expect(roof).toMatchObject({ STRt: 1, upper: [1, 3], lower: [0, 4] });
  });

  it('takes the outermost of several readings at one place, in whatever order they come', () => {
    const x = [0, 4, 2, 2, 2, 0];
    expect(zoneOf(x, [0, 0, 1, 5, 3, -1])).toMatchObject({ STRt: 5.5, upper: [3], lower: [5, 1] });
    expect(zoneOf(x, [0, 0, -1, -5, -3, 1])).toMatchObject({
      STRt: 5.5,
      lower: [3],
      upper: [5, 1],
    });
  });

  it('names the first of readings that are the same', () => {
    expect(zoneOf([0, 1, 1, 2], [0, 5, 5, 0])).toMatchObject({ upper: [1], lower: [0, 3] });
    expect(zoneOf([0, 1, 1, 2], [5, 0, 0, 5])).toMatchObject({ lower: [1], upper: [0, 3] });
  });

  it('decides ties of the last bit, where differences multiplied in doubles err', () => {
    // In whole-number arithmetic on these doubles the middle reading is below the others' line, and
    // above it; (z₃ − z₂)(x₂ − x₁) less (z₂ − z₁)(x₃ − x₂) in doubles has the other sign.
    const hollow = zoneOf([0, 0.4, 1.6333333333333333], [0.1, 0.14, 0.26333333333333336]);
    expect(hollow).toMatchObject({ upper: [0, 2], lower: [1] });
    expect(hollow.STRt).toBeGreaterThan(0);
    expect(hollow.STRt).toBeLessThan(3e-17);
    const proud = zoneOf([0, 1 / 3, 29 / 30], [0.1, 0.13333333333333333, 0.19666666666666666]);
    expect(proud).toMatchObject({ upper: [1], lower: [0, 2] });
    // The middle stands 2⁻⁵² above the chord, exactly.
    const x = [0, 1 + 2 ** -27, 2];
    const zone = zoneOf(x, [0, 1 + 2 ** -27 + 2 ** -52, 2]);
    expect(zone).toMatchObject({ STRt: 2 ** -52, upper: [1], lower: [0, 2] });
  });

  it('keeps its digits at very large and very small sizes', () => {
    const x = [0, 1, 2, 3];
    const z = [0, 3, 1, 2];
    const plain = zoneOf(x, z);
    for (const power of [2 ** -1000, 2 ** -600, 2 ** 600, 2 ** 1000]) {
      const zone = zoneOf(
        x,
        z.map((value) => value * power),
      );
      expect(zone.STRt).toBe(plain.STRt * power);
      expect(zone.upper).toEqual(plain.upper);
    }
  });

  it('refuses too few and degenerate readings, and throws on what is no number', () => {
    expect(minimumZone([1], [2])).toEqual({
      ok: false,
      reason: 'too few readings',
      n: 1,
      needed: 2,
    });
    expect(minimumZone([3, 3, 3], [1, 2, 4])).toMatchObject({ ok: false, reason: 'degenerate' });
    expect(() => minimumZone([1, 2], [1])).toThrow(RangeError);
    expect(() => minimumZone([1, Infinity], [1, 2])).toThrow('index 1');
    const close = new RangeError('finite slopes expected, got readings 0 and 1 too close in x');
    expect(() => minimumZone([0, 5e-324, 1], [0, 1, 0])).toThrow(close);
    const far = new RangeError('finite lines expected, got Infinity');
    expect(() => minimumZone([0, 1, 2], [1.7e308, -1.7e308, 1.7e308])).toThrow(far);
  });
});
