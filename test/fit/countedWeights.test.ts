import { describe, expect, it } from 'vitest';
import { countedWeights } from '../../src/fit/countedWeights.ts';
import { dot } from '../../src/fit/functionals.ts';
import { judge } from '../../src/fit/judge.ts';
import { fitProfile, meanCoefficients, type Profile } from '../../src/fit/posterior.ts';
import { places, readingsOf, seededNormals, type Shape } from './support.ts';

const QUESTION = { tolerance: 1.5, over: 1500, limit: 1500, tail: 300 };
const sickle =
  (depth: number, from: number, to: number): Shape =>
  (x) =>
    x <= from || x >= to ? 0 : -depth * Math.sin((Math.PI * (x - from)) / (to - from)) ** 2;

function profileOf(shape: Shape, u = 0.05): Profile {
  const noise = seededNormals(5);
  const profile = fitProfile([readingsOf(shape, places(0, 1500, 31), u, { noise })], 15);
  if (!profile.ok) throw new Error(profile.reason);
  return profile;
}

/** The judged departure, and the same figure by its weights. */
function both(shape: Shape, of: 'hollow' | 'hump', over = 1500) {
  const profile = profileOf(shape);
  const judgement = judge(profile, { ...QUESTION, over });
  const on = { judged: judgement.judged, over, told: judgement.told };
  const weights = countedWeights(profile, judgement[of], of, on);
  if (!weights) throw new Error('weights expected');
  const figure = dot(weights, meanCoefficients(profile));
  return { judged: judgement[of].size, figure, told: judgement.told };
}

describe('a counted departure as a linear figure', () => {
  it('is the hollow that was judged, within what a maximum adds', () => {
    const { judged, figure, told } = both(sickle(3, 200, 1100), 'hollow');
    expect(told).toBe('hollows first');
    expect(figure).toBeCloseTo(judged, 1);
  });

  it('is the hump that was judged, and under a chord no longer than the edge', () => {
    const { judged, figure } = both((x) => -sickle(3, 200, 1100)(x), 'hump', 1000);
    expect(figure).toBeCloseTo(judged, 1);
  });

  it('is what is left beside the other kind where that is how it was counted', () => {
    // A hollow and a hump after one another, the hollow the larger: neither alone accounts for both.
    const shape: Shape = (x) => sickle(6, 100, 700)(x) - sickle(4, 800, 1400)(x);
    for (const sign of [1, -1]) {
      const judgement = judge(
        profileOf((x) => sign * shape(x)),
        QUESTION,
      );
      expect([...judgement.verdict].sort()).toEqual(['hook', 'rocker']);
      const beside = judgement.told === 'humps first' ? 'hollow' : 'hump';
      for (const of of ['hollow', 'hump'] as const) {
        const { judged, figure } = both((x) => sign * shape(x), of);
        expect(Math.abs(figure - judged), `${of}, beside: ${beside}`).toBeLessThan(0.2);
      }
    }
  });

  it('is free of any straight line and turns its sign with the kind', () => {
    const profile = profileOf(sickle(3, 200, 1100));
    const on = { judged: profile.domain, over: 1500, told: 'both as they stand' } as const;
    const where = { from: 100, at: 640, to: 1200 };
    const hollow = countedWeights(profile, where, 'hollow', on);
    const hump = countedWeights(profile, where, 'hump', on);
    if (!hollow || !hump) throw new Error('weights expected');
    expect([...hollow].reduce((a, b) => a + b, 0)).toBeCloseTo(0, 12);
    hollow.forEach((w, j) => expect(hump[j]).toBeCloseTo(-w, 12));
  });

  it('rests on the chord that bridges the other kind, where an end of its own lies under that', () => {
    // A bottom that slopes, with a hollow and then a hump: under the hump the chord is the slope itself.
    const slope: Shape = (x) => 3 + 0.004 * x;
    const hollow = sickle(3, 100, 500);
    const profile = profileOf((x) => slope(x) + hollow(x) - sickle(4, 800, 1400)(x), 0.01);
    const on = { judged: profile.domain, over: 650, told: 'humps first' } as const;
    for (const to of [1000, 1100, 1200]) {
      const weights = countedWeights(profile, { from: 0, at: 300, to }, 'hollow', on);
      if (!weights) throw new Error('weights expected');
      expect(dot(weights, meanCoefficients(profile))).toBeCloseTo(-hollow(300), 1);
      expect([...weights].reduce((a, b) => a + b, 0)).toBeCloseTo(0, 12);
    }
  });

  it('is the same wherever the line begins', () => {
    const figureFrom = (first: number) => {
      const noise = seededNormals(5);
      const shape: Shape = (x) => sickle(3, 200, 1100)(x - first);
      const at = places(first, first + 1500, 31);
      const profile = fitProfile([readingsOf(shape, at, 0.05, { noise })], 15);
      if (!profile.ok) throw new Error(profile.reason);
      const on = { judged: profile.domain, over: 1500, told: 'both as they stand' } as const;
      const where = { from: first + 100, at: first + 640, to: first + 1200 };
      const weights = countedWeights(profile, where, 'hollow', on);
      return weights && dot(weights, meanCoefficients(profile));
    };
    expect(figureFrom(300)).toBeCloseTo(figureFrom(0) ?? NaN, 9);
  });

  it('is not given where no chord spans the place', () => {
    const profile = profileOf(sickle(3, 200, 1100));
    const on = { judged: profile.domain, over: 1500, told: 'both as they stand' } as const;
    for (const where of [
      { from: 300, at: 300, to: 300 },
      { from: 0, at: 0, to: 900 },
      { from: 300, at: 900, to: 900 },
      { from: 300, at: 1000, to: 900 },
    ]) {
      expect(countedWeights(profile, where, 'hollow', on)).toBeUndefined();
    }
  });

  it('is not given where the other kind bridges it whole', () => {
    const profile = profileOf((x) => 4 * Math.sin((Math.PI * x) / 1500));
    const on = { judged: profile.domain, over: 1500, told: 'humps first' } as const;
    const where = { from: 300, at: 600, to: 900 };
    expect(countedWeights(profile, where, 'hollow', on)).toBeUndefined();
    expect(countedWeights(profile, where, 'hump', on)).toBeDefined();
  });
});
