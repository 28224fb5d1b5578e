import { expect, test } from 'vitest';
import { surfaceDraws, withDepth } from '../../../src/fairing/plan/surfaceDraws.ts';
import { heightsAt } from '../../../src/fit/functionals.ts';
import { meanCoefficients } from '../../../src/fit/posterior.ts';
import { assess } from '../../../src/survey/assess.ts';
import type { Judged } from '../../../src/survey/assessment.ts';
import { bump, lineOf, placementOf, stationsTo, surveyOf } from '../../survey/madeSurveys.ts';

function judged(): Judged & { readonly fitted: NonNullable<Judged['fitted']> } {
  const stations = stationsTo(1500, 75);
  const survey = surveyOf([lineOf([placementOf(stations, bump(3, 0, 900))])]);
  const { outcome } = assess(survey).lines[0];
  if (!outcome.ok || outcome.fitted === undefined) throw new Error('a fitted line expected');
  return { ...outcome, fitted: outcome.fitted };
}

const places = Array.from({ length: 101 }, (_, i) => 15 * i);

test('a profile with a depth on it stands that much higher everywhere, to a hundredth of a mm', () => {
  const { profile } = judged().fitted;
  const depth = (x: number) => 4 * Math.sin((Math.PI * x) / 1200) ** 2;
  const heights = heightsAt(profile, places);
  const before = heights(meanCoefficients(profile));
  const after = heights(meanCoefficients(withDepth(profile, depth)));
  places.forEach((x, i) => {
    expect(Math.abs(after[i] - before[i] - depth(x))).toBeLessThan(0.01);
  });
});

test('a straight depth is put on exactly', () => {
  const { profile } = judged().fitted;
  const heights = heightsAt(profile, places);
  const before = heights(meanCoefficients(profile));
  const after = heights(meanCoefficients(withDepth(profile, (x) => 2 - x / 700)));
  places.forEach((x, i) => expect(after[i] - before[i]).toBeCloseTo(2 - x / 700, 9));
});

test('what is left unsure of a profile is the same with a depth on it', () => {
  const { profile } = judged().fitted;
  const { components } = withDepth(profile, () => 3);
  components.forEach(({ weight, factor }, i) => {
    expect(weight).toBe(profile.components[i].weight);
    expect(factor).toBe(profile.components[i].factor);
  });
});

test('surfaces are drawn in pairs that mirror each other about one surface of their component', () => {
  const stretch = { x: places, z: places.map(() => 0), feathered: 1500, turn: 0 };
  const draws = surfaceDraws(judged(), stretch);
  expect(draws.length % 2).toBe(0);
  const middles = draws
    .filter((_, k) => k % 2 === 0)
    .map((draw, k) => (draw[50] + draws[2 * k + 1][50]) / 2);
  const spread = Math.max(...middles) - Math.min(...middles);
  const apart = Math.max(...draws.map((draw) => draw[50])) - Math.min(...draws.map((d) => d[50]));
  expect(spread).toBeLessThan(apart);
});

test('a profile that was given and not fitted is refused', () => {
  const whole = Object.entries(judged()).filter(([key]) => key !== 'fitted');
  const bare = Object.fromEntries(whole) as unknown as Judged;
  expect(() => surfaceDraws(bare, { x: places, z: places, feathered: 1500, turn: 0 })).toThrow(
    RangeError,
  );
});
