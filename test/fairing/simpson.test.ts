import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { areaUnder, simpsonWeights } from '../../src/fairing/simpson.ts';

interface Example {
  readonly half_ordinates_m: readonly number[];
  readonly h_m: number;
  readonly published_area_m2?: number;
  readonly computed_area_m2: number;
}
const { simpson } = JSON.parse(
  readFileSync(new URL('../../fixtures/reference/simpson_rules.json', import.meta.url), 'utf8'),
) as { readonly simpson: { readonly example_1: Example; readonly example_2: Example } };

const evenly = (n: number, h: number) => Array.from({ length: n }, (_, i) => i * h);

// Derrett & Barrass, Ship Stability for Masters and Mates, ch. 10, example 1 (from memory; arithmetic confirmed).
test('the waterplane of the handbook has its published area, twice that under the half-ordinates', () => {
  const { half_ordinates_m: y, h_m: h, published_area_m2, computed_area_m2 } = simpson.example_1;
  const area = 2 * areaUnder(evenly(y.length, h), y);
  expect(area).toBeCloseTo(published_area_m2 ?? NaN, 2);
  expect(area).toBeCloseTo(computed_area_m2, 9);
});

test('the 80 m waterplane of an examination has the area computed for it', () => {
  const { half_ordinates_m: y, h_m: h, computed_area_m2 } = simpson.example_2;
  expect(2 * areaUnder(evenly(y.length, h), y)).toBeCloseTo(computed_area_m2, 9);
});

test.each([3, 4, 5, 6, 7, 8, 13])('a cubic on %i even ordinates comes out exactly', (n) => {
  const x = evenly(n, 2 / (n - 1));
  const { rule } = simpsonWeights(x);
  expect(rule).toBe('Simpson');
  // ∫ x³ from 0 to 2 is 4.
  expect(
    areaUnder(
      x,
      x.map((v) => v ** 3),
    ),
  ).toBeCloseTo(4, 12);
});

test('four ordinates take the multipliers 1 3 3 1, three 1 4 1', () => {
  expect(simpsonWeights([0, 1, 2, 3]).weights.map((w) => (8 * w) / 3)).toEqual(
    [1, 3, 3, 1].map((v) => expect.closeTo(v, 12) as number),
  );
  expect(simpsonWeights([0, 1, 2]).weights.map((w) => 3 * w)).toEqual(
    [1, 4, 1].map((v) => expect.closeTo(v, 12) as number),
  );
});

test('uneven spaces fall back to trapezoids, and even runs among them keep Simpson', () => {
  expect(simpsonWeights([0, 1, 3, 7]).rule).toBe('trapezoids');
  expect(simpsonWeights([0, 1, 2, 5]).rule).toBe('mixed');
  const x = [0, 1, 3, 7];
  expect(
    areaUnder(
      x,
      x.map((v) => 2 + 3 * v),
    ),
  ).toBeCloseTo(2 * 7 + (3 * 49) / 2, 12);
});

test('a paraboloid a cross sections at a time is half its cylinder', () => {
  // Sections π r² (1 − x/h) along x: volume π r² h / 2.
  const x = evenly(5, 0.25);
  const sections = x.map((v) => Math.PI * 4 * (1 - v));
  expect(areaUnder(x, sections)).toBeCloseTo(2 * Math.PI, 12);
});

test('one ordinate spans nothing', () => {
  expect(simpsonWeights([5])).toEqual({ weights: [0], rule: 'one ordinate' });
});

test('no ordinates, places that do not ascend, and ordinates missing are refused', () => {
  expect(() => simpsonWeights([])).toThrow(RangeError);
  expect(() => simpsonWeights([0, 0])).toThrow(RangeError);
  expect(() => areaUnder([0, 1], [1])).toThrow(RangeError);
});
