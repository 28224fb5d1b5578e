import { describe, expect, it } from 'vitest';
import type { Panel } from '../../../src/fit/surface/fitPanel.ts';
import { panelDraws, panelMean, responseOfPanel } from '../../../src/fit/surface/panelDraws.ts';
import { panelSystem, penaltyTimes, solvePanel } from '../../../src/fit/surface/panelSystem.ts';
import { seededNormals } from '../support.ts';
import { fitted } from './changeSupport.ts';
import { FIVE, readingsOn, round } from './panelSupport.ts';

const panel = fitted(readingsOn(round(-2, [500, 450], [250, 200]), FIVE, 0.15, seededNormals(2)));
const { size } = panel.system.matrix;
const [first] = panel.components;
const penalties = { fore: 0.02, across: 0.5 };

/** Only one account, under penalties of the test's own. */
function solved(placements: Panel['placements']) {
  const system = panelSystem(panel.space, placements);
  const fit = solvePanel(system, penalties);
  if (!fit) throw new Error('not solved');
  return { system, fit };
}
const { system, fit } = solved(panel.placements);
const one: Panel = {
  ...panel,
  system,
  components: [{ ...first, weight: 1, coefficients: fit.coefficients, factor: fit.factor }],
};

describe('draws of a panel’s posterior', () => {
  it('come in pairs about their account’s mean, accounts as often as they weigh', () => {
    const pairs = 200;
    const draws = panelDraws(panel, 0, pairs);
    const counts = panel.components.map(() => 0);
    for (let k = 0; k < pairs; k++) {
      const middle = Float64Array.from(draws[2 * k], (v, j) => (v + draws[2 * k + 1][j]) / 2);
      const account = panel.components.findIndex(({ coefficients }) =>
        middle.every((v, j) => Math.abs(v - coefficients[j]) < 1e-7),
      );
      counts[account]++;
    }
    panel.components.forEach(({ weight }, i) =>
      expect(Math.abs(counts[i] / pairs - weight)).toBeLessThan(0.02),
    );
  });

  it('go on where they were left: the same pair is the same draw wherever one begins', () => {
    const all = panelDraws(panel, 0, 6);
    expect(panelDraws(panel, 2, 4)).toEqual(all.slice(4, 8));
    expect(all[4]).not.toEqual(all[2]);
  });

  it('have the mean of the accounts, each by its weight', () => {
    const mean = panelMean(panel);
    expect(mean).toHaveLength(size);
    for (const j of [0, 7, size - 1]) {
      const wanted = panel.components.reduce((sum, c) => sum + c.weight * c.coefficients[j], 0);
      expect(mean[j]).toBeCloseTo(wanted, 10);
    }
  });
});

describe('what a change of the gaps does', () => {
  it('is what solving for the changed gaps does, along and across', () => {
    const change = (p: number, i: number) => (p === 3 ? 0 : Math.sin(1 + p * 13 + i));
    const changed = panel.placements.map((placement, p) => ({
      ...placement,
      gap: Array.from(placement.gap, (gap, i) => gap + change(p, i)),
    }));
    const response = responseOfPanel(one, change);
    const again = solved(changed).fit.coefficients;
    expect(response).toHaveLength(size);
    expect(Math.max(...response.map(Math.abs))).toBeGreaterThan(0.1);
    response.forEach((v, j) => expect(v).toBeCloseTo(again[j] - fit.coefficients[j], 6));
  });

  it('is the accounts’ own by their weights, and nothing where nothing changes', () => {
    const twice: Panel = {
      ...one,
      components: [
        { ...one.components[0], weight: 0.3 },
        { ...one.components[0], weight: 0.7 },
      ],
    };
    const bow = (p: number, i: number) => (p < 5 ? (i - 6) ** 2 : 0);
    const whole = responseOfPanel(one, bow);
    responseOfPanel(twice, bow).forEach((v, j) => expect(v).toBeCloseTo(whole[j], 9));
    expect(Math.max(...responseOfPanel(one, () => 0))).toBe(0);
  });
});

describe('the penalties of a panel', () => {
  it('pull a solution as hard as its readings do: there the gradient is none', () => {
    // Σ w B (B c − placement − y) + P c = 0, written out reading by reading.
    const { coefficients } = fit;
    const bent = penaltyTimes(panel.space, coefficients.subarray(0, size), penalties);
    const { basis, domain, athwart } = panel.space;
    const values = new Float64Array(4);
    const pull = Float64Array.from(bent);
    panel.placements.forEach(({ line, x, gap, u }, p) => {
      for (let i = 0; i < x.length; i++) {
        const place = Math.min(1, (x[i] - domain[0]) / (domain[1] - domain[0]));
        const start = basis.valuesAt(place, values);
        const along = p < 5 ? place : athwart.places[line[i]];
        let height = 0;
        for (let a = 0; a < 4; a++) height += values[a] * coefficients[(start + a) * 5 + line[i]];
        const edge = coefficients[size + 2 * p] + coefficients[size + 2 * p + 1] * along;
        const left = (height - edge + gap[i]) / u[i] ** 2;
        for (let a = 0; a < 4; a++) pull[(start + a) * 5 + line[i]] += left * values[a];
      }
    });
    const scale = Math.max(...bent.map(Math.abs));
    expect(scale).toBeGreaterThan(0.1);
    expect(Math.max(...pull.map(Math.abs)) / scale).toBeLessThan(1e-6);
  });
});
