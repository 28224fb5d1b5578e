import { expect, it } from 'vitest';
import { straightened } from '../../src/fit/straightened.ts';

it('takes the least-squares line off: by hand, of four heights', () => {
  // Places −3, −1, 2, 6 about their mean 1: −4, −2, 1, 5, their squares 46 together.
  const off = straightened([2, 0, 3, 5 + 2.2], [-3, -1, 2, 6]);
  const slope = (-4 * 2 - 2 * 0 + 3 + 5 * 7.2) / 46;
  const level = (2 + 0 + 3 + 7.2) / 4;
  [2, 0, 3, 7.2].forEach((z, i) =>
    expect(off[i]).toBeCloseTo(z - level - slope * [-4, -2, 1, 5][i], 13),
  );
});

it('leaves nothing of a line, and what it leaves has neither mean nor slope', () => {
  const x = [10, 12, 19, 40, 41];
  straightened(
    x.map((at) => 3 - 0.2 * at),
    x,
  ).forEach((v) => expect(v).toBeCloseTo(0, 12));
  const off = straightened([1, 5, -2, 4, 0], x);
  expect(off.reduce((sum, v) => sum + v, 0)).toBeCloseTo(0, 12);
  expect(off.reduce((sum, v, i) => sum + v * x[i], 0)).toBeCloseTo(0, 11);
});
