import { describe, expect, it } from 'vitest';
import { asProof, soughtOut } from '../../src/fit/soughtOut.ts';
import { seededNormals } from './support.ts';

const x = Float64Array.of(0, 10, 20, 30);
const whole = { from: 0, to: 30 };

describe('what looking for the deepest place wins', () => {
  it('is how far the largest of each draw stands above the largest of their mean', () => {
    // The largest are 3, 4, 3, 4, mean 3.5; the mean is 2, 2.5, 2.5, 0, its largest 2.5.
    const sizes = [
      [3, 1, 2, 0],
      [1, 4, 3, 0],
      [3, 1, 2, 0],
      [1, 4, 3, 0],
    ].map((draw) => Float64Array.from(draw));
    expect(soughtOut(sizes, x, whole)).toBeCloseTo(1, 12);
  });

  it('is nothing where every draw is deepest at the same place', () => {
    const sizes = [2, 3, 2, 3].map((deep) => Float64Array.of(0, deep, 1, 0));
    expect(soughtOut(sizes, x, whole)).toBe(0);
  });

  it('is asked inside of the section only, its ends included', () => {
    const sizes = [
      [9, 3, 1, 0],
      [0, 1, 3, 9],
    ].map((draw) => Float64Array.from(draw));
    expect(soughtOut(sizes, x, { from: 10, to: 20 })).toBeCloseTo(1, 12);
    expect(soughtOut(sizes, x, { from: 5, to: 15 })).toBe(0);
    expect(soughtOut(sizes, x, whole)).toBeCloseTo(4.5, 12);
  });

  it('of places as deep and read independently is the mean of the largest of so many normal numbers', () => {
    // Mean of the largest of 5 standard normal numbers, 1.16296: David and Nagaraja (2003), Order Statistics,
    // table of expected values of normal order statistics (value from memory, 5 places).
    const normal = seededNormals(11);
    const sizes = Array.from({ length: 40_000 }, () => Float64Array.from({ length: 5 }, normal));
    const floor = sizes.map((draw) => draw.map((z) => 100 + z));
    const places = Float64Array.of(0, 1, 2, 3, 4);
    expect(Math.abs(soughtOut(floor, places, { from: 0, to: 4 }) - 1.16296)).toBeLessThan(0.02);
  });
});

describe('a size as it bears out a proof', () => {
  it('is without half of what looking for it won, and that much less sure', () => {
    expect(asProof({ size: 2, u: 0.3 }, 0.8)).toEqual({ size: 1.6, u: 0.5 });
  });

  it('is the size told where nothing was won', () => {
    expect(asProof({ size: 2, u: 0.3 }, 0)).toEqual({ size: 2, u: 0.3 });
  });
});
