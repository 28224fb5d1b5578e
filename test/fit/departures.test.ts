import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import straightness from '../../fixtures/reference/straightness_examples.json';
import { chords, chordsOn, deepestChord, hollow, hump } from '../../src/fit/departures.ts';
import { places, type Shape } from './support.ts';

const heights = (x: ArrayLike<number>, shape: Shape) => Float64Array.from(x, shape);
const highest = (values: Float64Array) => Math.max(...values);

/** A profile on uneven places with a gauge length from very short to longer than the line. */
const anyProfile = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 60 }), fc.double({ min: -4, max: 4, noNaN: true })), {
    minLength: 3,
    maxLength: 30,
  })
  .chain((points) => {
    let at = 0;
    const x = points.map(([step]) => (at += step));
    const z = Float64Array.from(points, ([, height]) => height);
    return fc.record({
      x: fc.constant(x),
      z: fc.constant(z),
      length: fc.integer({ min: 1, max: Math.ceil((at - x[0]) * 1.2) }),
    });
  });

describe('departures of a parabola z = c·x²', () => {
  // Closed form: a chord over a length L stands c·L²/4 off a parabola at its middle.
  const c = 3e-6;
  const parabola: Shape = (x) => c * x * x;

  it('are c·L²/4 at the middle of a chord that spans the line, to 12 decimals, and no hump', () => {
    const on = chords(0, 1500, 1500);
    const z = heights(on.x, parabola);
    const h = hollow(z, on);
    const middle = on.x.indexOf(750);
    expect(Math.abs(h[middle] - (c * 1500 ** 2) / 4)).toBeLessThan(1e-12);
    expect(highest(h)).toBe(h[middle]);
    on.x.forEach((x, i) => expect(h[i]).toBeCloseTo(c * x * (1500 - x), 11));
    expect(highest(hump(z, on))).toBeLessThan(1e-12);
  });

  it.each([200, 600, 900])(
    'are c·G²/4 wherever an edge of G = %d can lie centred, to 12 decimals',
    (length) => {
      const on = chords(0, 1500, length, { count: 150 });
      const h = hollow(heights(on.x, parabola), on);
      let seen = 0;
      on.x.forEach((x, i) => {
        const centred = [x - length / 2, x + length / 2].every((end) =>
          on.x.some((place) => Math.abs(place - end) < 1e-9),
        );
        if (!centred) return;
        seen++;
        expect(Math.abs(h[i] - (c * length ** 2) / 4)).toBeLessThan(1e-12);
      });
      expect(seen).toBeGreaterThan(10);
      expect(highest(h) - (c * length ** 2) / 4).toBeLessThan(1e-12);
    },
  );

  it('are the same wherever stations count from, a chord of just the gauge length included', () => {
    for (const start of [-5000, 90_000]) {
      const on = chords(start, start + 1500, 600);
      const here = hollow(
        heights(on.x, (x) => parabola(x - start)),
        on,
      );
      const there = chords(0, 1500, 600);
      hollow(heights(there.x, parabola), there).forEach((v, i) =>
        expect(here[i]).toBeCloseTo(v, 9),
      );
    }
  });

  it('taper to 0 at the ends as c·x·(G − x), where the edge must lie within the line', () => {
    const on = chords(0, 1500, 600);
    const h = hollow(heights(on.x, parabola), on);
    on.x.forEach((x, i) => {
      if (x <= 300) expect(h[i]).toBeCloseTo(c * x * (600 - x), 11);
    });
  });

  it('are the same numbers mirrored: humps of −z are the hollows of z, to the last bit', () => {
    const on = chords(0, 1500, 600);
    const z = heights(on.x, (x) => parabola(x) + Math.sin(x / 90));
    const mirrored = z.map((v) => -v);
    expect(hump(mirrored, on)).toEqual(hollow(z, on));
    expect(hollow(mirrored, on)).toEqual(hump(z, on));
  });
});

describe('departures by hulls', () => {
  it('are those of every chord tried one by one, on any profile and gauge length', () => {
    fc.assert(
      fc.property(anyProfile, ({ x, z, length }) => {
        const on = chordsOn(x, length);
        const h = hollow(z, on);
        const r = hump(z, on);
        for (let i = 0; i < x.length; i++) {
          expect(h[i]).toBeCloseTo(deepestChord(z, on, i, 1).depth, 10);
          expect(r[i]).toBeCloseTo(deepestChord(z, on, i, -1).depth, 10);
        }
      }),
      { seed: 131, numRuns: 400 },
    );
  });

  it('are those of every chord on 700 places too, and on fewer after that', () => {
    for (const count of [700, 260, 40]) {
      const x = places(200, 1700, count);
      const z = heights(x, (at) => Math.sin(at / 110) + Math.sin(at / 37) / 3);
      const on = chordsOn(x, 900);
      const h = hollow(z, on);
      for (let i = 0; i < count; i += Math.ceil(count / 20)) {
        expect(h[i]).toBeCloseTo(deepestChord(z, on, i, 1).depth, 10);
      }
      // One edge over a parabola-like arc touches everywhere: every place is a corner of its hull.
      const arc = hump(
        heights(x, (at) => at * at * 1e-6),
        chordsOn(x, 1500),
      );
      expect(highest(arc)).toBeLessThan(1e-12);
    }
  });

  it('are changed by no straight line, to 9 decimals', () => {
    const anyLine = fc.tuple(
      fc.double({ min: -100, max: 100, noNaN: true }),
      fc.double({ min: -0.1, max: 0.1, noNaN: true }),
    );
    fc.assert(
      fc.property(anyProfile, anyLine, ({ x, z, length }, [level, slope]) => {
        const on = chordsOn(x, length);
        const laid = z.map((v, i) => v + level + slope * x[i]);
        const before = [...hollow(z, on), ...hump(z, on)];
        [...hollow(laid, on), ...hump(laid, on)].forEach((v, i) =>
          expect(v).toBeCloseTo(before[i], 9),
        );
      }),
      { seed: 132, numRuns: 200 },
    );
  });

  it('do not shrink when the edge may be longer', () => {
    fc.assert(
      fc.property(anyProfile, ({ x, z, length }) => {
        const short = hollow(z, chordsOn(x, length));
        const long = hollow(z, chordsOn(x, length * 1.5));
        short.forEach((v, i) => expect(long[i]).toBeGreaterThanOrEqual(v - 1e-12));
      }),
      { seed: 133, numRuns: 200 },
    );
  });

  it('show the chord on which the deepest place lies', () => {
    const on = chords(0, 1500, 900);
    const z = heights(on.x, (x) => -2 * Math.exp(-(((x - 700) / 150) ** 2)));
    const h = hollow(z, on);
    const i = h.indexOf(highest(h));
    const { from, to, depth } = deepestChord(z, on, i, 1);
    const share = (on.x[i] - on.x[from]) / (on.x[to] - on.x[from]);
    expect(depth).toBeCloseTo(h[i], 12);
    expect(z[from] + share * (z[to] - z[from]) - z[i]).toBeCloseTo(depth, 12);
    expect(on.x[to] - on.x[from]).toBeLessThanOrEqual(900 + 1e-6);
  });
});

describe('ten windows a gauge length', () => {
  /** What ten windows lose of the largest departure, as a share, and that they are fewer. */
  const lost = (shape: Shape, length: number) => {
    const all = chords(0, 1500, length);
    const ten = chords(0, 1500, length, { windows: 10 });
    expect(ten.starts.length).toBeLessThan(all.starts.length);
    const z = heights(all.x, shape);
    return Math.max(
      ...[hollow, hump].map((departure) => {
        const exact = highest(departure(z, all));
        const found = highest(departure(z, ten));
        expect(found).toBeLessThanOrEqual(exact);
        return exact === 0 ? 0 : 1 - found / exact;
      }),
    );
  };
  const lengths = [500, 600, 750, 900, 1000];
  const wave =
    (pitch: number, phase: number): Shape =>
    (x) =>
      Math.sin((2 * Math.PI * x) / pitch + phase);

  it('begin at the aft end, once each, no farther apart than a tenth, and reach the fore end', () => {
    for (const length of lengths) {
      const all = chords(100, 1600, length);
      const ten = chords(100, 1600, length, { windows: 10 });
      for (const { x, starts, reach } of [all, ten]) {
        const at = [...starts].map((i) => x[i]);
        expect(at[0]).toBe(100);
        expect(new Set(starts).size).toBe(starts.length);
        expect(reach[starts[starts.length - 1]]).toBe(x.length - 1);
        at.slice(1).forEach((start, k) => {
          expect(start - at[k]).toBeGreaterThan(0);
          expect(start - at[k]).toBeLessThanOrEqual(length / 10 + 1e-9);
        });
      }
    }
  });

  it('lose nothing of a hollow that one chord of the gauge length spans, wherever it lies', () => {
    for (const length of lengths) {
      const half = 0.45 * length;
      for (const centre of places(half, 1500 - half, 19)) {
        const wedge: Shape = (x) => Math.min(0, Math.abs(x - centre) / half - 1);
        const all = chords(0, 1500, length);
        const ten = chords(0, 1500, length, { windows: 10 });
        const z = heights(all.x, wedge);
        expect(highest(hollow(z, ten))).toBe(highest(hollow(z, all)));
      }
    }
  });

  it('lose no more than rounding of a parabola', () => {
    for (const length of lengths) expect(lost((x) => 3e-6 * x * x, length)).toBeLessThan(1e-3);
  });

  it('lose at most 1.1 % on waves of two gauge lengths and more, at any phase', () => {
    for (const length of lengths) {
      for (const pitch of [2, 2.5, 3].map((times) => times * length)) {
        for (const phase of places(0, 6.2, 32)) {
          expect(lost(wave(pitch, phase), length)).toBeLessThan(0.011);
        }
      }
    }
  });

  it('lose at most 3.5 % on waves and rounded hollows of any length, wherever they lie', () => {
    for (const length of lengths) {
      for (const times of [0.6, 1, 1.1, 1.2, 1.5]) {
        for (const phase of places(0, 6.2, 16)) {
          expect(lost(wave(times * length, phase), length)).toBeLessThan(0.035);
        }
      }
      for (const wide of [0.2, 0.3, 0.4, 0.6].map((times) => times * length)) {
        for (const centre of places(200, 1300, 23)) {
          const round: Shape = (x) => -Math.exp(-(((x - centre) / wide) ** 2));
          expect(lost(round, length)).toBeLessThan(0.035);
        }
      }
    }
  });
});

describe('departures against worked straightness examples', () => {
  it('are the end-point deviations of an autocollimator run where one chord shows them', () => {
    // Lecture slides on straightness by autocollimator: deviations from the end-point line
    // +2 and −1 µm. Their sum is the largest departure from the run's own hull chords.
    const [run] = straightness;
    if (!('x_mm' in run && 'cumulative_um' in run && 'published' in run)) throw new Error('run');
    const { x_mm: x, cumulative_um: z, published } = run;
    if (!x || !z || !published) throw new Error('run');
    const line = z.map((v, i) => v - (z[0] + ((z[6] - z[0]) * (x[i] - x[0])) / (x[6] - x[0])));
    expect(Math.max(...line)).toBe(published.endpoint_line_deviation_max);
    expect(Math.min(...line)).toBe(published.endpoint_line_deviation_min);
    const on = chordsOn(x, 600);
    const r = hump(Float64Array.from(line), on);
    // The highest place stands 2 above the end-point line and 3 above the chord that joins the two
    // lows beside it: the published straightness.
    expect(r[3]).toBe(published.straightness_um);
    expect(highest(r)).toBe(published.straightness_um);
  });

  it('are a quarter of the length squared for x² on 0..1, as the least-squares range also is', () => {
    // Closed form, calculus: chord gap, least-squares and minimum-zone ranges of an arc agree.
    for (const n of [5, 9, 11]) {
      const x = places(0, 1, n);
      const h = hollow(
        heights(x, (v) => v * v),
        chordsOn(x, 1),
      );
      expect(highest(h)).toBeCloseTo(0.25, 12);
    }
  });

  it('are 2 × 0.105933 at most for eˣ on 0..1: twice the best line’s error', () => {
    // Chebyshev's best line to eˣ on 0..1 (for example Cheney, Introduction to Approximation Theory)
    // touches both ends, so the chord between them stands off by twice the error, at ln(e − 1).
    const chebyshev = straightness.find((s) => s.name === 'closed_form_minimax_exp');
    if (!chebyshev?.max_error) throw new Error('closed form');
    const x = [0, 0.2, Math.log(Math.E - 1), 0.8, 1];
    const h = hollow(heights(x, Math.exp), chordsOn(x, 1));
    expect(highest(h)).toBeCloseTo(2 * chebyshev.max_error, 12);
  });
});

describe('the places looked at', () => {
  it('let a chord of exactly the gauge length start at every step and end at the fore end', () => {
    const on = chords(10, 1507, 400);
    expect(on.x[0]).toBe(10);
    expect(on.x[on.x.length - 1]).toBe(1507);
    expect([...on.x].some((x) => Math.abs(x - 1107) < 1e-9)).toBe(true);
    const [first] = on.reach;
    expect(on.x[first]).toBeCloseTo(410, 9);
    on.x.forEach((x, i) => {
      expect(on.x[on.reach[i]] - x).toBeLessThanOrEqual(400 + 1e-5);
      if (i > 0) expect(x).toBeGreaterThan(on.x[i - 1]);
    });
  });

  it('throw RangeError on an empty range, a length that is not positive, places out of order', () => {
    expect(() => chords(5, 5, 100)).toThrow(RangeError);
    expect(() => chords(0, NaN, 100)).toThrow(new RangeError('a range is expected, got 0 to NaN'));
    expect(() => chords(0, 100, 0)).toThrow(
      new RangeError('a positive gauge length expected, got 0'),
    );
    expect(() => chordsOn([1], 10)).toThrow(new RangeError('at least 2 places expected, got 1'));
    expect(() => chordsOn([1, 1, 2], 10)).toThrow(
      new RangeError('strictly ascending places expected'),
    );
  });
});
