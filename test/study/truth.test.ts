import { describe, expect, it } from 'vitest';
import { FAMILIES } from '../../study/families.ts';
import { truthOf } from '../../study/truth.ts';

// Departures and angles of these shapes have closed forms, worked out by hand beside each check.

const ground = { length: 1500, tolerance: 1.5, over: 1500, tail: 300 };

describe('the truth of a shape', () => {
  it('scales a parabola so that it is as deep mid-line as was asked', () => {
    const truth = truthOf((s) => 7 * s * (s - 1), 3, ground);
    expect(truth?.larger).toBe('hollow');
    expect(truth?.hollow).toBeCloseTo(3, 9);
    expect(truth?.hump).toBeCloseTo(0, 9);
    expect(truth?.height(750)).toBeCloseTo(-3, 9);
  });

  it('gives a shorter edge the deeper parabola: the gap grows with the square of the chord', () => {
    const truth = truthOf((s) => s * (s - 1), 3, { ...ground, over: 900 });
    // Under a chord c of a parabola of depth d over L the gap is d (c/L)².
    expect(truth?.height(750)).toBeCloseTo(-3 * (1500 / 900) ** 2, 9);
  });

  it('gives a wedge tail its depth at the corner, and an angle turned towards the water', () => {
    const truth = truthOf((s) => Math.max(0, 1 - 4 * s), 2, ground);
    // The chord from (0, 1) to (1, 0) stands 3/4 over the corner at 1/4.
    expect(truth?.height(0)).toBeCloseTo(2 / 0.75, 9);
    expect(truth?.tailAngle).toBeGreaterThan(0);
  });

  it('gives a parabola the tail angle of its two stretches: a parabola slopes on average as in its middle', () => {
    const truth = truthOf((s) => 4 * s * (s - 1), 3, ground);
    // z = 12 s (s − 1): slope 12 (2 s − 1) / 1500 at s = 0.1 and s = 0.6.
    const degrees = (((12 * (0.2 - -0.8)) / 1500) * 180) / Math.PI;
    expect(truth?.tailAngle).toBeCloseTo(degrees, 6);
  });

  it('swaps hollow and hump, and turns the tail the other way, when the shape is mirrored', () => {
    const shape = (s: number) => Math.max(0, 1 - 3 * s) - s * s;
    const one = truthOf(shape, 2, ground);
    const other = truthOf((s) => -shape(s), 2, ground);
    expect(other?.hollow).toBe(one?.hump);
    expect(other?.hump).toBe(one?.hollow);
    expect(other?.tailAngle).toBeCloseTo(-(one?.tailAngle ?? NaN), 12);
  });

  it('has none for a straight line, whatever its size', () => {
    expect(truthOf(() => 0, 2, ground)).toBeUndefined();
  });
});

describe('the families', () => {
  it('are 24 or more, each with a name of its own', () => {
    const names = new Set(FAMILIES.map((f) => f.name));
    expect(names.size).toBe(FAMILIES.length);
    expect(names.size).toBeGreaterThanOrEqual(24);
  });

  it.each(FAMILIES.map((f) => [f.name, f.shape] as const))(
    'hold a departure of exactly the tolerance, under a long and a short edge: %s',
    (_, shape) => {
      for (const over of [1500, 900]) {
        const truth = truthOf(shape, 1.5, { ...ground, over });
        expect(truth && Math.max(truth.hollow, truth.hump)).toBeCloseTo(1.5, 8);
      }
    },
  );
});
