import { describe, expect, it } from 'vitest';
import { countedWeights } from '../../src/fit/countedWeights.ts';
import { dot } from '../../src/fit/functionals.ts';
import { fitProfile, meanCoefficients } from '../../src/fit/posterior.ts';
import { sizeTold } from '../../src/fit/sizeTold.ts';
import { places, readingsOf, seededNormals } from './support.ts';

const on = { judged: [0, 1500], over: 1500, told: 'both as they stand' } as const;

function profileOf(shape: (x: number) => number) {
  const readings = readingsOf(shape, places(0, 1500, 16), 0.15, { noise: seededNormals(5) });
  const profile = fitProfile([readings], 15);
  if (!profile.ok) throw new Error(profile.reason);
  return profile;
}

describe('the size that is told of a departure', () => {
  const profile = profileOf((x) => (x - 750) ** 2 / 250_000);
  const chord = { at: 750, from: 0, to: 1500 };
  const weights = countedWeights(profile, chord, 'hollow', on);
  if (!weights) throw new Error('a chord expected');
  const ofMean = dot(weights, meanCoefficients(profile));

  it('moves half of what the draws stand deeper than the mean profile, and is that much less sure', () => {
    const plain = sizeTold(profile, { ...chord, size: ofMean, u: 0.1 }, 'hollow', on).told;
    const deeper = sizeTold(profile, { ...chord, size: ofMean + 0.2, u: 0.1 }, 'hollow', on).told;
    expect(deeper.size - plain.size).toBeCloseTo(0.1, 10);
    expect(deeper.u ** 2 - plain.u ** 2).toBeCloseTo(0.01, 10);
  });

  it('is never surer than the draws, never below 0, and stays where it was found', () => {
    const told = sizeTold(profile, { ...chord, size: 1, u: 0.1 }, 'hollow', on).told;
    expect(told).toMatchObject(chord);
    expect(told.u).toBeGreaterThan(0.1);
    const none = { at: 0, from: 0, to: 0, size: 0.1, u: 0.1 };
    expect(sizeTold(profile, none, 'hollow', on).told.size).toBeCloseTo(0.05, 12);
    expect(
      sizeTold(profile, { ...chord, size: 0, u: 0.1 }, 'hump', on).told.size,
    ).toBeGreaterThanOrEqual(0);
  });
});
