import { describe, expect, it } from 'vitest';
import type { Panel, PanelComponent } from '../../../src/fit/surface/fitPanel.ts';
import { twistOf, twistRow } from '../../../src/fit/surface/twist.ts';
import { panelDraws } from '../../../src/fit/surface/panelDraws.ts';
import { seededNormals } from '../support.ts';
import { fitted } from './changeSupport.ts';
import { FIVE, readingsOn, twisted } from './panelSupport.ts';

const STRETCH = [125, 1375] as const;
const DEGREES = 180 / Math.PI;
const panel = fitted(readingsOn(twisted(2e-6), FIVE, 0.2, seededNormals(4)));
const row = twistRow(panel, STRETCH);
const [component] = panel.components;
const of = (...components: PanelComponent[]): Panel => ({ ...panel, components });
/** The account with its twist moved by so much a millimetre, and so much as noisy. */
const moved = (weight: number, by: number, noise = component.noise): PanelComponent => {
  const whole = row.reduce((sum, v) => sum + v * v, 0);
  const coefficients = component.coefficients.map((c, j) => c + (by * row[j]) / whole);
  return { ...component, weight, noise, coefficients };
};
const told = (given: Panel, tolerance: number, over = 1250) => {
  const found = twistOf(given, STRETCH, { tolerance, over });
  if (!found) throw new Error('a diagonal was laid');
  return found;
};
const one = told(of(moved(1, 0)), 1.5);

describe('a twist', () => {
  it('lifts the fourth corner by its rate over the stretch, and over no more than the gauge length', () => {
    expect(one.over).toBe(1250);
    expect(one.corner).toBeCloseTo((one.angle / DEGREES) * 1250, 12);
    expect(one.cornerU).toBeCloseTo((one.u / DEGREES) * 1250, 12);
    const short = told(of(moved(1, 0)), 1.5, 500);
    expect(short.over).toBe(500);
    expect(short.corner / one.corner).toBeCloseTo(0.4, 12);
    expect(short.angle).toBe(one.angle);
    expect(told(of(moved(1, 0)), 1.5, 9000).over).toBe(1250);
  });

  it('is as unsure as draws of the posterior', () => {
    const rates = panelDraws(of(moved(1, 0)), 0, 600).map((c) =>
      c.reduce((sum, v, j) => sum + v * row[j], 0),
    );
    const mean = rates.reduce((sum, v) => sum + v, 0) / rates.length;
    const spread = Math.sqrt(rates.reduce((sum, v) => sum + (v - mean) ** 2, 0) / rates.length);
    expect(one.angle).toBeCloseTo(mean * DEGREES, 9);
    expect(Math.abs((spread * DEGREES) / one.u - 1)).toBeLessThan(0.08);
  });

  it('is less sure where accounts differ, by their scatter about the mean', () => {
    // Law of total variance: 0.25 and 0.75 of two accounts that differ by d, the second twice as unsure.
    const d = 3e-3;
    const found = told(of(moved(0.25, 0), moved(0.75, d, 2 * component.noise)), 1.5);
    const own = one.u / DEGREES;
    expect((found.angle - one.angle) / DEGREES).toBeCloseTo(0.75 * d, 12);
    const variance = 0.25 * own ** 2 + 0.75 * 4 * own ** 2 + 0.25 * 0.75 * d ** 2;
    expect(found.u / DEGREES).toBeCloseTo(Math.sqrt(variance), 12);
  });

  it('is probable by the normal tails beyond the tolerance either way', () => {
    // Two-sided 5 % at 1.959964, one-sided 2.5 %: Abramowitz & Stegun (1964), table 26.5.
    const level = moved(1, -one.corner / 1250);
    const flat = told(of(level), 1.959964 * one.cornerU);
    expect(flat.corner).toBeCloseTo(0, 9);
    expect(flat.probability).toBeCloseTo(0.05, 6);
    for (const way of [1, -1]) {
      const aside = moved(1, -one.corner / 1250 + (way * 20 * one.cornerU) / 1250);
      const beyond = told(of(aside), (20 + 1.959964) * one.cornerU);
      expect(beyond.probability).toBeCloseTo(0.025, 6);
      const within = told(of(aside), (20 - 1.959964) * one.cornerU);
      expect(within.probability).toBeCloseTo(0.975, 6);
    }
    const both = told(
      of({ ...level, weight: 0.5 }, { ...level, weight: 0.5 }),
      1.959964 * one.cornerU,
    );
    expect(both.probability).toBeCloseTo(0.05, 6);
  });

  it('is proven, refuted or neither at 97.5 %', () => {
    const level = (sigmas: number) => {
      const aside = moved(1, -one.corner / 1250 + (20 * one.cornerU) / 1250);
      return told(of(aside), (20 + sigmas) * one.cornerU).verdict;
    };
    expect([-2, -1.9, 0, 1.9, 2].map(level)).toEqual([
      'twisted',
      'undecided',
      'undecided',
      'undecided',
      'not twisted',
    ]);
  });
});
