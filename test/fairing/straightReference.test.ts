import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { heightOn, straightReference } from '../../src/fairing/straightReference.ts';

const x = Array.from({ length: 101 }, (_, i) => i * 15);
const L = 1500;
const profiles = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), {
  minLength: 101,
  maxLength: 101,
});

test('a hollow parabola is spanned by the line that touches its ends', () => {
  const c = 4 / L ** 2;
  const z = x.map((at) => c * (at - L / 2) ** 2 * 4);
  const line = straightReference('touching the high spots', { x, z });
  expect(heightOn(line, 0)).toBeCloseTo(4, 12);
  expect(heightOn(line, L)).toBeCloseTo(4, 12);
});

test('a humped parabola is touched at its top by a level line', () => {
  const z = x.map((at) => 5 - ((at - L / 2) / 300) ** 2);
  const line = straightReference('touching the high spots', { x, z });
  expect(line.slope).toBeCloseTo(0, 12);
  expect(heightOn(line, L / 2)).toBeCloseTo(5, 12);
});

test('a straight surface is its own reference either way', () => {
  const z = x.map((at) => 2 - at / 400);
  for (const kind of ['touching the high spots', 'best straight line'] as const) {
    const line = straightReference(kind, { x, z });
    for (const [i, at] of x.entries()) expect(heightOn(line, at)).toBeCloseTo(z[i], 9);
  }
});

test('the surface nowhere stands above a line that touches the high spots', () => {
  fc.assert(
    fc.property(profiles, (z) => {
      const line = straightReference('touching the high spots', { x, z });
      return x.every((at, i) => z[i] <= heightOn(line, at) + 1e-9);
    }),
    { seed: 11, numRuns: 200 },
  );
});

test('no other line over the surface leaves less to fill', () => {
  fc.assert(
    fc.property(profiles, fc.double({ min: -0.05, max: 0.05, noNaN: true }), (z, slope) => {
      const line = straightReference('touching the high spots', { x, z });
      // The lowest line of that slope that lies over the surface, by its definition.
      const level = Math.max(...x.map((at, i) => z[i] - slope * (at - L / 2)));
      return heightOn(line, L / 2) <= level + 1e-9;
    }),
    { seed: 12, numRuns: 500 },
  );
});

test('adding a straight line to the surface adds it to the reference', () => {
  fc.assert(
    fc.property(profiles, fc.double({ min: -0.1, max: 0.1, noNaN: true }), (z, tilt) => {
      const tilted = z.map((value, i) => value + 3 + tilt * x[i]);
      return (['touching the high spots', 'best straight line'] as const).every((kind) => {
        const before = straightReference(kind, { x, z });
        const after = straightReference(kind, { x, z: tilted });
        return [0, 400, L].every(
          (at) => Math.abs(heightOn(after, at) - heightOn(before, at) - 3 - tilt * at) < 1e-6,
        );
      });
    }),
    { seed: 13, numRuns: 200 },
  );
});

test('the best straight line is the least-squares line', () => {
  // Normal equations by hand: x 0, 1, 2, 3; z 1, 2, 2, 4 give 0.9 + 0.9 x.
  const line = straightReference('best straight line', { x: [0, 1, 2, 3], z: [1, 2, 2, 4] });
  expect(heightOn(line, 0)).toBeCloseTo(0.9, 12);
  expect(heightOn(line, 1)).toBeCloseTo(1.8, 12);
});

test('fewer than two places, or places that do not ascend, are refused', () => {
  expect(() => straightReference('best straight line', { x: [0], z: [0] })).toThrow(RangeError);
  expect(() => straightReference('best straight line', { x: [0, 0], z: [0, 1] })).toThrow(
    RangeError,
  );
});
