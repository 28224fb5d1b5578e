import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { extremes } from '../../src/fit/extremes.ts';

const series = fc.array(
  fc.record({
    x: fc.double({ min: 0, max: 1500, noNaN: true }),
    z: fc.double({ min: -9, max: 9, noNaN: true }),
  }),
  { minLength: 1, maxLength: 400 },
);

describe('a series thinned to its extremes', () => {
  test('keeps the lowest and the highest of every stretch, and so of the whole', () => {
    fc.assert(
      fc.property(series, fc.integer({ min: 1, max: 40 }), (points, columns) => {
        const x = points.map((p) => p.x);
        const z = points.map((p) => p.z);
        const kept = extremes(x, z, columns);
        expect(kept.length).toBeLessThanOrEqual(2 * columns);
        expect([...kept]).toEqual([...new Set(kept)].sort((a, b) => a - b));
        const low = Math.min(...x);
        const width = (Math.max(...x) - low) / columns;
        const column = (i: number) =>
          width > 0 ? Math.min(columns - 1, Math.floor((x[i] - low) * (1 / width))) : 0;
        for (let c = 0; c < columns; c += 1) {
          const all = z.filter((_, i) => column(i) === c);
          const left = [...kept].filter((i) => column(i) === c).map((i) => z[i]);
          if (all.length === 0) continue;
          expect(Math.min(...left)).toBe(Math.min(...all));
          expect(Math.max(...left)).toBe(Math.max(...all));
        }
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  test('a spike of one reading in a million stays', () => {
    const x = Float64Array.from({ length: 1_000_000 }, (_, i) => i);
    const z = new Float64Array(1_000_000);
    z[723_456] = 1;
    z[123_457] = -1;
    const kept = [...extremes(x, z, 1000)];
    expect(kept.length).toBeLessThanOrEqual(2000);
    expect(kept).toContain(723_456);
    expect(kept).toContain(123_457);
  });

  test('keeps all where there are few, and throws on lengths that differ or no column', () => {
    expect([...extremes([3, 1, 2], [0, 0, 0], 2)]).toEqual([0, 1, 2]);
    expect(() => extremes([1], [1, 2], 1)).toThrow(RangeError);
    expect(() => extremes([1], [1], 0)).toThrow('1 column or more expected, got 0');
  });
});
