import { describe, expect, it } from 'vitest';
import { dot } from '../../src/fit/functionals.ts';
import { fitProfile, meanCoefficients, type Profile } from '../../src/fit/posterior.ts';
import { tailAngle, tailWeights } from '../../src/fit/tail.ts';
import { places, readingsOf, type Shape } from './support.ts';

const DEGREES = 180 / Math.PI;

function profileOf(shape: Shape, to = 1500): Profile {
  const profile = fitProfile([readingsOf(shape, places(0, to, to / 25 + 1), 1e-4)], 15);
  if (!profile.ok) throw new Error(profile.reason);
  return profile;
}

function angleOf(shape: Shape, to = 1500): number | undefined {
  const profile = profileOf(shape, to);
  const weights = tailWeights(profile, 0, 300, to);
  return weights && dot(weights, meanCoefficients(profile));
}

describe('the tail angle', () => {
  it('of a parabola c·x² over L is c·L, in degrees, to 1e-4 of a degree', () => {
    // Closed form: slopes c·300 over the tail and c·(300 + L) ahead of it.
    const c = 5e-6;
    for (const to of [900, 1200, 1500]) {
      const angle = angleOf((x) => c * x * x, to);
      expect(Math.abs(Number(angle) - c * to * DEGREES)).toBeLessThan(1e-4);
    }
  });

  it('is positive for a tail turned towards the water, negative for one turned away', () => {
    // The last 300 mm dropped by 3 mm: slopes differ by 3/300.
    const dropped: Shape = (x) => (x < 300 ? 3 * (1 - x / 300) : 0);
    const hook = angleOf(dropped);
    expect(hook).toBeGreaterThan(0);
    expect(hook).toBeCloseTo((3 / 300) * DEGREES, 2);
    expect(angleOf((x) => -dropped(x))).toBeCloseTo(-Number(hook), 10);
  });

  it('is changed by no straight line', () => {
    const bend: Shape = (x) => 3e-6 * x * x;
    const tilted: Shape = (x) => bend(x) + 40 - 0.02 * x;
    expect(angleOf(tilted)).toBeCloseTo(Number(angleOf(bend)), 7);
  });

  it('is not given where less than twice the tail lies ahead of it, and is where just that does', () => {
    const profile = profileOf((x) => 3e-6 * x * x);
    expect(tailWeights(profile, 0, 300, 890)).toBeUndefined();
    expect(tailWeights(profile, 0, 300, 900)).toBeDefined();
  });

  it('has mean and standard deviation over the draws', () => {
    const weights = Float64Array.of(1, 0);
    const draws = [1, 3, 5, 7].map((value) => Float64Array.of(value, 99));
    const { angle, u, over } = tailAngle(weights, draws, 300);
    expect(angle).toBe(4);
    expect(u).toBeCloseTo(Math.sqrt(20 / 3), 14);
    expect(over).toBe(300);
  });
});
