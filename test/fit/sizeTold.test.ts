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

  it('is as unsure as the draws, the half and the corners that the bottom may have, together', () => {
    const at = (size: number, u: number) => sizeTold(profile, { ...chord, size, u }, 'hollow', on);
    const deep = at(ofMean + 0.2, 0.1);
    // Of what is doubted beside the half, 0.1², nothing is less than none.
    expect(deep.doubt.variance).toBeGreaterThanOrEqual(0.01);
    expect(deep.told.u ** 2).toBeCloseTo(0.1 ** 2 + deep.doubt.variance, 12);
    expect(at(ofMean + 0.2, 0.3).told.u ** 2 - deep.told.u ** 2).toBeCloseTo(
      0.3 ** 2 - 0.1 ** 2,
      12,
    );
    expect(deep.told.size).toBeCloseTo(ofMean + 0.2 + deep.doubt.shift, 12);
  });

  it('is more in doubt where the readings turn at a corner than where they bend as one', () => {
    const cornered = profileOf((x) => (9 * Math.abs(x - 750)) / 750);
    const doubtOf = (of: typeof profile) => {
      const line = countedWeights(of, chord, 'hollow', on);
      if (!line) throw new Error('a chord expected');
      const size = dot(line, meanCoefficients(of));
      return sizeTold(of, { ...chord, size, u: 0.1 }, 'hollow', on).doubt;
    };
    const [sharp, even] = [doubtOf(cornered), doubtOf(profile)];
    // A smooth fit rounds a corner off: it is told deeper.
    expect(sharp.shift).toBeGreaterThan(even.shift + 0.01);
    expect(sharp.variance).toBeGreaterThan(0);
  });

  it('goes by the length that is judged, not by where it begins', () => {
    const found = { at: 800, from: 300, to: 1400, size: 1, u: 0.1 };
    const cornered = profileOf((x) => (9 * Math.abs(x - 800)) / 750);
    const doubtOn = (judged: readonly [number, number]) =>
      sizeTold(cornered, found, 'hollow', { ...on, judged }).doubt;
    // The longer the judged stretch, the more a corner may turn.
    expect(doubtOn([0, 1500]).shift).toBeGreaterThan(doubtOn([300, 1400]).shift + 1e-6);
    expect(doubtOn([100, 1500])).toEqual(doubtOn([0, 1400]));
  });
});
