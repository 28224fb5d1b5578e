import { describe, expect, it } from 'vitest';
import { fitPanel, type Panel } from '../../../src/fit/surface/fitPanel.ts';
import { halvesOf } from '../../../src/fit/surface/halves.ts';
import { panelDraws, panelMean } from '../../../src/fit/surface/panelDraws.ts';
import { breadth } from '../../../src/fit/surface/panelMap.ts';
import { lineHeights } from '../../../src/fit/surface/panelSpace.ts';
import { readStretches, readThere } from '../../../src/fit/surface/readStretches.ts';
import type { SystematicMode } from '../../../src/fit/systematic.ts';
import { seededNormals } from '../support.ts';
import { KEEL, readingsOn, round, sumOf, twisted, type Surface } from './panelSupport.ts';

const STRETCH = [125, 1375] as const;
const HALVES = { last: 2, first: 4 };
const DEGREES = 180 / Math.PI;

/** Unevenly spaced lines, of which the outermost of one half was read over part of the stretch only: neither half's places
 *  lie evenly about their middle. */
const LINES = [-600, -350, -200, 0, 200, 300, 600];
function panelOf(surface: Surface, u: number, noise?: () => number): Panel {
  const across = [
    [125, 125],
    [625, 625],
    [250, 750],
    [875, 250],
  ] as const;
  const placements = readingsOn(surface, { ...KEEL, lines: LINES, across }, u, noise).map((p, i) =>
    i === 6 ? { line: p.line, x: p.x, gap: p.gap, u: p.u, short: true } : { ...p, short: false },
  );
  const cut = placements.map(({ short, line, x, gap, u: own }) => {
    const kept = Array.from(x).flatMap((at, k) => (short && at > 875 ? [] : [k]));
    const of = (v: ArrayLike<number>) => kept.map((k) => v[k]);
    return { line: of(line), x: of(x), gap: of(gap), u: of(own) };
  });
  const panel = fitPanel(LINES, cut, 15);
  if (!panel.ok) throw new Error(panel.reason);
  return panel;
}

/** Slopes of a half's best plane by the normal equations of three unknowns, at thirteen places of each line, those that were
 *  not read left out, each line for its share of the width. */
function slopes(panel: Panel, c: Float64Array, part: readonly number[]): [number, number] {
  const x = Array.from({ length: 13 }, (_, k) => STRETCH[0] + ((STRETCH[1] - STRETCH[0]) * k) / 12);
  const heights = lineHeights(panel.space, x);
  const read = readStretches(panel);
  const width = Float64Array.from(part, (i) => LINES[i]);
  const nodes = part.flatMap((line, own) =>
    Array.from(heights(c, line), (z, k) => ({
      x: x[k],
      y: LINES[line],
      z,
      w: breadth(width, own),
    })).filter(({ x: at }) => readThere(read, line, at)),
  );
  const sum = (of: (node: (typeof nodes)[number]) => number) =>
    nodes.reduce((total, node) => total + node.w * of(node), 0);
  const n = sum(() => 1);
  const [mx, my, mz] = [sum((p) => p.x) / n, sum((p) => p.y) / n, sum((p) => p.z) / n];
  const cov = (of: (p: { x: number; y: number; z: number }) => number) =>
    sum((p) => of({ x: p.x - mx, y: p.y - my, z: p.z - mz }));
  const [xx, xy, yy] = [cov((p) => p.x * p.x), cov((p) => p.x * p.y), cov((p) => p.y * p.y)];
  const [xz, yz] = [cov((p) => p.x * p.z), cov((p) => p.y * p.z)];
  const area = xx * yy - xy * xy;
  expect(Math.abs(xy) / Math.sqrt(xx * yy)).toBeGreaterThan(part[0] === 4 ? 0.1 : -1);
  return [(yy * xz - xy * yz) / area, (xx * yz - xy * xz) / area];
}

const turned = (panel: Panel, c: Float64Array) => {
  const [before, after] = [slopes(panel, c, [0, 1, 2]), slopes(panel, c, [4, 5, 6])];
  return { along: (after[0] - before[0]) * DEGREES, athwart: (after[1] - before[1]) * DEGREES };
};

describe('how the planes of two halves lie to one another', () => {
  it('is what the sides’ own planes say where each side is one, however unevenly it was read', () => {
    const vee = panelOf((x, y) => (y > 0 ? 2e-3 * x - 0.03 * y : 5e-4 * x + 0.02 * y), 1e-4);
    const found = halvesOf(vee, HALVES, STRETCH);
    expect(found?.along.angle).toBeCloseTo(1.5e-3 * DEGREES, 4);
    expect(found?.athwart.angle).toBeCloseTo(-0.05 * DEGREES, 3);
  });

  it('is of the best planes through what was read, and nothing else, of any shape', () => {
    const shape = sumOf(round(-3, [1000, 450], [250, 200]), round(2, [300, -500], [200, 150]));
    const panel = panelOf(sumOf(shape, twisted(2e-6)), 0.15, seededNormals(6));
    const wanted = turned(panel, panelMean(panel));
    const found = halvesOf(panel, HALVES, STRETCH);
    expect(found?.along.angle).toBeCloseTo(wanted.along, 9);
    expect(found?.athwart.angle).toBeCloseTo(wanted.athwart, 9);
  });

  it('is as unsure as draws of the posterior, and less sure by what may have bent them all', () => {
    const panel = panelOf(twisted(2e-6), 0.2, seededNormals(8));
    const bow: SystematicMode = {
      name: 'bow',
      shape: Float64Array.from(panelMean(panel), (_, j) => 0.4 * Math.cos(j * j)),
      distribution: 'normal',
    };
    const found = halvesOf(panel, HALVES, STRETCH);
    const bent = halvesOf(panel, HALVES, STRETCH, [bow]);
    const drawn = panelDraws(panel, 0, 600).map((c) => turned(panel, c));
    const mode = turned(panel, bow.shape);
    for (const which of ['along', 'athwart'] as const) {
      const angles = drawn.map((each) => each[which]);
      const mean = angles.reduce((sum, v) => sum + v, 0) / angles.length;
      const spread = Math.sqrt(angles.reduce((sum, v) => sum + (v - mean) ** 2, 0) / angles.length);
      const own = found?.[which].u;
      if (own === undefined) throw new Error('a diagonal was laid');
      expect(Math.abs(spread / own - 1)).toBeLessThan(0.08);
      expect(bent?.[which].u).toBeCloseTo(Math.hypot(own, mode[which]), 9);
      expect(bent?.[which].angle).toBe(found?.[which].angle);
    }
  });

  it('takes halves of two lines, and names how many it was given of less', () => {
    const panel = panelOf(twisted(2e-6), 0.2);
    expect(halvesOf(panel, { last: 1, first: 5 }, STRETCH)).toBeDefined();
    expect(() => halvesOf(panel, { last: 0, first: 4 }, STRETCH)).toThrow('got 1 and 3');
    expect(() => halvesOf(panel, { last: 2, first: 6 }, STRETCH)).toThrow('got 3 and 1');
  });
});
