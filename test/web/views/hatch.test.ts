import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hatchPath } from '../../../web/views/hatch.ts';

const strokes = (path: string) =>
  [...path.matchAll(/M(-?[\d.]+),(-?[\d.]+)L(-?[\d.]+),(-?[\d.]+)/g)].map((m) =>
    m.slice(1).map(Number),
  );

test('every stroke lies inside its box and at 45 degrees, rising or falling as asked', () => {
  const size = fc.double({ min: 0.5, max: 500, noNaN: true });
  fc.assert(
    fc.property(size, size, size, size, fc.boolean(), (x, y, width, height, rising) => {
      const gap = Math.max(width, height) / 7;
      for (const [x0, y0, x1, y1] of strokes(
        hatchPath({ x, y, width, height }, gap, rising ? 'rising' : 'falling'),
      )) {
        expect(Math.min(x0, x1)).toBeGreaterThanOrEqual(x - 0.01);
        expect(Math.max(x0, x1)).toBeLessThanOrEqual(x + width + 0.01);
        expect(Math.min(y0, y1)).toBeGreaterThanOrEqual(y - 0.01);
        expect(Math.max(y0, y1)).toBeLessThanOrEqual(y + height + 0.01);
        // Rising on the page: further right is further up, where y is smaller.
        expect(Math.abs(y1 - y0 - (rising ? -1 : 1) * (x1 - x0))).toBeLessThan(0.03);
      }
    }),
    { seed: 7 },
  );
});

test('a box wide enough for its strokes has them, and a gap that is no distance is refused', () => {
  expect(strokes(hatchPath({ x: 0, y: 0, width: 100, height: 10 }, 5, 'rising')).length).toBe(22);
  expect(() => hatchPath({ x: 0, y: 0, width: 1, height: 1 }, 0, 'rising')).toThrow(RangeError);
});
