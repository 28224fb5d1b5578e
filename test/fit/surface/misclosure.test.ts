import { describe, expect, it } from 'vitest';
import type { Panel } from '../../../src/fit/surface/fitPanel.ts';
import { AMISS, misclosureOf, type Misclosure } from '../../../src/fit/surface/misclosure.ts';
import type { PanelPlacement } from '../../../src/fit/surface/panelReadings.ts';
import { seededNormals } from '../support.ts';
import { fitted } from './changeSupport.ts';
import { FIVE, readingsOn, round } from './panelSupport.ts';

/** Readings of a flat panel, some of them amiss: placement, reading and by how much. */
const amiss = (
  off: readonly (readonly [number, number, number])[],
  noise?: () => number,
): PanelPlacement[] =>
  readingsOn(() => 0, FIVE, 0.15, noise).map((p, i) => ({
    ...p,
    gap: Array.from(p.gap, (gap, k) =>
      off.reduce((sum, [q, at, by]) => (q === i && at === k ? sum + by : sum), gap),
    ),
  }));
const without = (placements: readonly PanelPlacement[], q: number) =>
  misclosureOf(fitted(placements.filter((_, p) => p !== q)));

/** Placements whose leaving out makes the rest close, the least probable first. */
function able(found: Misclosure, placements: readonly PanelPlacement[]) {
  return found.placements
    .flatMap((own, index) =>
      own && without(placements, index).closes ? [{ index, probability: own.probability }] : [],
    )
    .sort((a, b) => a.probability - b.probability);
}

describe('what a placement adds to what does not close', () => {
  it('is what goes with it, over the checks that go with it', () => {
    const placements = amiss([[7, 0, 3]], seededNormals(2));
    const panel = fitted(placements);
    const found = misclosureOf(panel);
    for (const q of [5, 6, 7, 8, 9]) {
      const rest = misclosureOf({
        ...panel,
        placements: panel.placements.filter((_, p) => p !== q),
      });
      const own = found.placements[q];
      expect(own?.dof).toBe(found.dof - rest.dof);
      const gone = found.chiSquare - rest.chiSquare;
      expect(own?.normalised).toBeCloseTo(Math.sqrt(gone / (found.dof - rest.dof)), 9);
    }
  });

  it('is not told of one that takes no check away: over two lines it fits them whatever they are', () => {
    const two = { line: [0, 1], x: [500, 500], gap: [1, 2], u: [0.1, 0.1] };
    const found = misclosureOf(fitted([...amiss([[7, 0, 3]]), two]));
    expect(found.placements[10]).toBeUndefined();
    expect(found.outlier).toBe(7);
    expect(found.dof).toBe(8);
  });

  it('is nothing of one without a reading', () => {
    const none = { line: [], x: [], gap: [], u: [] };
    const found = misclosureOf(fitted([...amiss([[7, 0, 3]]), none]));
    expect(found.placements[10]).toBeUndefined();
    const same = misclosureOf(fitted(amiss([[7, 0, 3]])));
    expect(found.chiSquare).toBeCloseTo(same.chiSquare, 9);
    expect(found.dof).toBe(same.dof);
  });

  it('is weighed with the roughness that weighs most, in whatever order the accounts come', () => {
    const shape = round(-3, [600, 450], [200, 200]);
    const panel = fitted(readingsOn(shape, FIVE, 0.15, seededNormals(2)));
    const [first, ...others] = [...panel.components].sort((a, b) => b.weight - a.weight);
    const only = (component: typeof first): Panel => ({ ...panel, components: [component] });
    const heaviest = misclosureOf(only(first)).chiSquare;
    const other = others.find(({ roughness }) => roughness !== first.roughness);
    expect(other && misclosureOf(only(other)).chiSquare).not.toBeCloseTo(heaviest, 2);
    for (const components of [
      [first, ...others],
      [...others, first],
    ]) {
      expect(misclosureOf({ ...panel, components }).chiSquare).toBe(heaviest);
    }
  });
});

describe('the placement that is pointed out', () => {
  it('is the one that explains most, where another’s leaving out closes the rest too', () => {
    const placements = amiss([[7, 0, 2.5]]);
    const found = misclosureOf(fitted(placements));
    expect(able(found, placements).map(({ index }) => index)).toEqual([7, 9, 5]);
    expect(found.outlier).toBe(7);
  });

  it('is none where two explain it alike', () => {
    // Amiss in the middle of the aftmost athwart: on the middle line the foremost one answers for it as well.
    const placements = amiss([[5, 2, 3]]);
    const found = misclosureOf(fitted(placements));
    const [first, second] = able(found, placements);
    expect([first.index, second.index].sort()).toEqual([5, 7]);
    expect(second.probability / first.probability).toBeLessThan(10);
    expect(found.closes).toBe(false);
    expect(found).not.toHaveProperty('outlier');
  });

  it('is none where two are amiss, so that the rest does not close without either', () => {
    const placements = amiss([
      [6, 2, 3],
      [8, 2, 3],
    ]);
    const found = misclosureOf(fitted(placements));
    expect(able(found, placements)).toEqual([]);
    expect(found.closes).toBe(false);
    expect(found).not.toHaveProperty('outlier');
  });

  it.each([98, 154])(
    'is none where it might be chance: one of ten placements is this rare one time in ten (noise %i)',
    (seed) => {
      const placements = amiss([[6, 2, 0.7]], seededNormals(seed));
      const found = misclosureOf(fitted(placements));
      const [first, second] = able(found, placements);
      expect(found.closes).toBe(false);
      expect(first.probability).toBeGreaterThan(AMISS / 10);
      expect(first.probability).toBeLessThan(AMISS);
      expect(second.probability).toBeGreaterThan(10 * first.probability);
      expect(found).not.toHaveProperty('outlier');
    },
  );

  it('is none, and no placement is weighed, where there is nothing to check', () => {
    const least = readingsOn(() => 0, { ...FIVE, across: FIVE.across.slice(0, 2) }, 0.15);
    expect(misclosureOf(fitted(least))).toEqual({
      dof: 0,
      chiSquare: 0,
      closes: true,
      placements: least.map(() => undefined),
    });
  });
});
