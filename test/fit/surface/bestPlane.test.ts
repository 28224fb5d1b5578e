import { describe, expect, it } from 'vitest';
import { bestPlane } from '../../../src/fit/surface/bestPlane.ts';

/** Places on a grid far from where stations are counted from, and much closer athwart than along. */
const X0 = 4e6;
const Y0 = -300;
const nodes = Array.from({ length: 35 }, (_, i) => ({
  x: X0 + 125 * (i % 7) ** 1.5,
  y: Y0 + 0.02 * Math.floor(i / 7) ** 2,
  w: 1 + (i % 3),
  z: Math.sin(i * i),
}));
const columns = [nodes.map(({ x }) => x), nodes.map(({ y }) => y)] as const;
const weights = nodes.map(({ w }) => w);
const local = nodes.map(({ x, y }) => [(x - X0) / 1000, (y - Y0) / 0.3] as const);

describe('taking the best plane off heights', () => {
  it.each([
    ['a plane', false, (a: number, b: number) => 3 - 2 * a + 5 * b],
    ['a plane and a twist', true, (a: number, b: number) => 3 - 2 * a + 5 * b + 4 * a * b],
  ])('leaves nothing of %s, wherever its places lie', (_, twist, shape) => {
    const z = Float64Array.from(local, ([a, b]) => shape(a, b));
    bestPlane(...columns, weights, twist)(z);
    expect(Math.max(...z.map(Math.abs))).toBeLessThan(1e-12);
  });

  it.each([false, true])(
    'leaves what is orthogonal, weighted, to all that it takes off (twist: %s)',
    (twist) => {
      // The normal equations of least squares, whatever the unknowns are scaled by.
      const z = Float64Array.from(nodes, (node) => node.z);
      bestPlane(...columns, weights, twist)(z);
      const against = (of: (a: number, b: number) => number) =>
        local.reduce((sum, [a, b], i) => sum + weights[i] * z[i] * of(a, b), 0);
      for (const of of [() => 1, (a: number) => a, (_: number, b: number) => b]) {
        expect(Math.abs(against(of))).toBeLessThan(1e-12);
      }
      const product = Math.abs(against((a, b) => a * b));
      if (twist) expect(product).toBeLessThan(1e-12);
      else expect(product).toBeGreaterThan(0.1);
    },
  );

  it('heeds no place of no weight, and still takes the plane off there', () => {
    const held = weights.map((w, i) => (i === 3 ? 0 : w));
    const shape = ([a, b]: readonly [number, number]) => 1 + a - b;
    const z = Float64Array.from(local, (at, i) => (i === 3 ? 50 : shape(at)));
    bestPlane(...columns, held, false)(z);
    expect(z[3]).toBeCloseTo(50 - shape(local[3]), 10);
    expect(Math.max(...z.filter((_, i) => i !== 3).map(Math.abs))).toBeLessThan(1e-12);
  });
});
