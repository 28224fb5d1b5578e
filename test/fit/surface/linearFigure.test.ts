import { describe, expect, it } from 'vitest';
import type { Panel } from '../../../src/fit/surface/fitPanel.ts';
import { linearFigure } from '../../../src/fit/surface/linearFigure.ts';
import { panelDraws } from '../../../src/fit/surface/panelDraws.ts';
import { twistRow } from '../../../src/fit/surface/twist.ts';
import type { SystematicMode } from '../../../src/fit/systematic.ts';
import { seededNormals } from '../support.ts';
import { fitted, STRETCH } from './changeSupport.ts';
import { FIVE, readingsOn, twisted } from './panelSupport.ts';

const panel = fitted(readingsOn(twisted(2e-6), FIVE, 0.2, seededNormals(4)));
const row = twistRow(panel, STRETCH);
const [component] = panel.components;
const alone = (noise: number): Panel => ({
  ...panel,
  components: [{ ...component, weight: 1, noise }],
});
/** Turns line against line the more the farther forward. */
const bow = (height: number): SystematicMode => ({
  name: 'bow',
  shape: Float64Array.from(
    { length: panel.system.matrix.size },
    (_, j) => height * (j % 5) * Math.floor(j / 5),
  ),
  distribution: 'normal',
});
const along = ({ shape }: SystematicMode) => shape.reduce((sum, v, j) => sum + v * row[j], 0);

describe('a figure linear in a panel’s unknowns', () => {
  it('has the mean and the variance that draws of the posterior show', () => {
    const one = alone(component.noise);
    const [{ weight, centre, variance }] = linearFigure(one, row, []);
    const draws = panelDraws(one, 0, 600).map((c) => c.reduce((sum, v, j) => sum + v * row[j], 0));
    const mean = draws.reduce((sum, v) => sum + v, 0) / draws.length;
    const spread = draws.reduce((sum, v) => sum + (v - mean) ** 2, 0) / draws.length;
    expect(weight).toBe(1);
    expect(centre).toBeCloseTo(mean, 12);
    expect(Math.abs(spread / variance - 1)).toBeLessThan(0.15);
  });

  it('is as much less sure as the readings are: by the square of the noise level', () => {
    const [{ variance }] = linearFigure(alone(1), row, []);
    expect(linearFigure(alone(1.4), row, [])[0].variance / variance).toBeCloseTo(1.96, 12);
  });

  it('is less sure by what each systematic part does to it, squares added, whichever its sign', () => {
    const [bare] = linearFigure(alone(1), row, []);
    const two = [bow(0.003), bow(-0.004)];
    const [found] = linearFigure(alone(1), row, two);
    const added = two.reduce((sum, mode) => sum + along(mode) ** 2, 0);
    expect(added / bare.variance).toBeGreaterThan(0.1);
    expect((found.variance - bare.variance) / added).toBeCloseTo(1, 9);
    expect(found.centre).toBe(bare.centre);
  });

  it('comes once for each account of the readings, with its weight', () => {
    const found = linearFigure(panel, row, []);
    expect(found.map(({ weight }) => weight)).toEqual(panel.components.map((c) => c.weight));
    expect(found.length).toBeGreaterThan(1);
  });
});
