import { expect, test } from 'vitest';
import { tailFlap, tailOfLines } from '../../../src/running/planing/tailFlap.ts';

test('a tail becomes a flap of the whole beam, with its sign', () => {
  expect(tailFlap({ angle: -0.4, over: 300 })).toEqual({
    chord: 300,
    angle: -0.4,
    span: 1,
    aft: 0,
  });
});

test('lines that agree keep the doubt they share; lines that differ add to it', () => {
  const line = (angle: number) => ({ angle, u: 0.1, over: 300 });
  expect(tailOfLines([line(0.4), line(0.4)])).toEqual({ angle: 0.4, u: 0.1, over: 300 });
  // Standard deviation of the mean of 0.2 and 0.6: 0.2.
  expect(tailOfLines([line(0.2), line(0.6)])?.u).toBeCloseTo(Math.hypot(0.1, 0.2), 12);
});

test('no line gives no tail, and tails of different length are refused', () => {
  expect(tailOfLines([])).toBeUndefined();
  expect(() =>
    tailOfLines([
      { angle: 0, u: 0, over: 300 },
      { angle: 0, u: 0, over: 200 },
    ]),
  ).toThrow(RangeError);
});
