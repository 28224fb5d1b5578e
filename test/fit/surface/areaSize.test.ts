import { describe, expect, it } from 'vitest';
import { areaSize } from '../../../src/fit/surface/areaSize.ts';
import { fitPanel, type Panel } from '../../../src/fit/surface/fitPanel.ts';
import { panelMean } from '../../../src/fit/surface/panelDraws.ts';
import { lineHeights } from '../../../src/fit/surface/panelSpace.ts';
import { penaltyTimes } from '../../../src/fit/surface/panelSystem.ts';
import { smoothedAway } from '../../../src/fit/surface/smoothedAway.ts';
import { FIVE, readingsOn, round, sumOf, twisted, type Surface } from './panelSupport.ts';

const sure = { mean: 2, deviation: 0.3, ofMean: 2, ofRestored: 2, sought: 2 };

function panelOf(surface: Surface, u: number): Panel {
  const panel = fitPanel(FIVE.lines, readingsOn(surface, FIVE, u), 15);
  if (!panel.ok) throw new Error(panel.reason);
  return panel;
}

describe('the size of an area', () => {
  it('is the draws’ own where nothing was sought out and nothing smoothed away', () => {
    expect(areaSize(sure)).toEqual({ size: 2, u: 0.3 });
  });

  it('is the middle between draws and mean surface, half their difference in doubt', () => {
    const { size, u } = areaSize({ ...sure, ofMean: 1.2, ofRestored: 1.2, sought: 1.6 });
    expect(size).toBeCloseTo(1.6, 12);
    expect(u).toBeCloseTo(Math.hypot(0.3, 0.4), 12);
  });

  it('is less sure the deeper each draw’s own deepest place stands, and the more was smoothed away', () => {
    expect(areaSize({ ...sure, sought: 2.8 }).u).toBeCloseTo(0.5, 12);
    expect(areaSize({ ...sure, ofRestored: 2.4 }).u).toBeCloseTo(0.5, 12);
    expect(areaSize({ ...sure, ofRestored: 1.6 })).toEqual(areaSize({ ...sure, ofRestored: 2.4 }));
  });

  it('is never below none', () => {
    expect(areaSize({ ...sure, mean: 0.1, ofMean: -0.5 }).size).toBe(0);
  });
});

describe('what smoothing leaves out', () => {
  const middle = (panel: Panel, c: Float64Array) => lineHeights(panel.space, [600])(c, 2)[0];
  const dent = round(-2, [600, 450], [220, 200]);

  it('is nothing of a plane and a twist', () => {
    const panel = panelOf(
      sumOf((x, y) => 3 + 0.002 * x - 0.01 * y, twisted(4e-6)),
      0.2,
    );
    const left = smoothedAway(panel);
    expect(Math.max(...left.map(Math.abs))).toBeLessThan(1e-7);
    const bent = penaltyTimes(panel.space, panelMean(panel), { fore: 1, across: 1 });
    expect(Math.max(...bent.map(Math.abs))).toBeLessThan(1e-5);
  });

  it('deepens a dent, the more the less sure the readings are, and by no more than is missing of it', () => {
    const [fine, coarse] = [0.05, 0.4].map((u) => {
      const panel = panelOf(dent, u);
      return middle(panel, smoothedAway(panel));
    });
    expect(coarse).toBeLessThan(fine);
    expect(fine).toBeLessThan(0);
    expect(coarse).toBeGreaterThan(-0.5);
  });

  it('is what a fit of the fit’s own heights would lose', () => {
    const panel = panelOf(dent, 0.3);
    // Of one account alone, so that the second fit is under the same one.
    const [component] = panel.components;
    const one: Panel = { ...panel, components: [{ ...component, weight: 1 }] };
    const left = smoothedAway(one);
    const { coefficients, factor, roughness, athwart, noise } = component;
    const energy = (c: Float64Array) =>
      penaltyTimes(panel.space, c, {
        fore: (noise / roughness) ** 2,
        across: (noise / athwart) ** 2,
      }).reduce((sum, v, j) => sum + v * c[j], 0);
    const own = coefficients.subarray(0, panel.system.matrix.size);
    const again = own.map((c, j) => c - left[j]);
    expect(factor.matrix.size).toBe(own.length);
    expect(energy(again)).toBeLessThan(energy(own));
    expect(energy(again)).toBeGreaterThan(0);
  });
});

describe('a panel’s readings', () => {
  it('are never taken to be better than stated, however smooth the surface that they show', () => {
    const panel = panelOf(() => 0, 0.2);
    expect(panel.components.every(({ noise }) => noise >= 1)).toBe(true);
  });
});
