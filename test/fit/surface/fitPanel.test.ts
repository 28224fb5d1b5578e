import { describe, expect, it } from 'vitest';
import moody from '../../../fixtures/reference/surface/moody_1955.json';
import network from '../../../fixtures/reference/surface/network.json';
import acrossKeel from '../../../fixtures/reference/surface/network_across_keel.json';
import { bestPlane } from '../../../src/fit/surface/bestPlane.ts';
import { fitPanel, type Panel } from '../../../src/fit/surface/fitPanel.ts';
import { panelMean } from '../../../src/fit/surface/panelDraws.ts';
import type { PanelPlacement } from '../../../src/fit/surface/panelReadings.ts';
import { lineHeights, panelSpace } from '../../../src/fit/surface/panelSpace.ts';
import { addReadingRow, bendsOf } from '../../../src/fit/surface/panelSystem.ts';
import {
  panelSystem,
  priorLogDeterminant,
  solvePanel,
} from '../../../src/fit/surface/panelSystem.ts';
import { backwardBand, forwardBand } from '../../../src/fit/surface/bandSystem.ts';
import { misclosureOf } from '../../../src/fit/surface/misclosure.ts';
import { panelMap } from '../../../src/fit/surface/panelMap.ts';
import { twistOf } from '../../../src/fit/surface/twist.ts';
import { EIGHT, FIVE, KEEL, readingsOn, round, sumOf, twisted } from './panelSupport.ts';

const FLOOR = 15;

function fitted(...args: Parameters<typeof fitPanel>): Panel {
  const panel = fitPanel(...args);
  if (!panel.ok) throw new Error(panel.reason);
  return panel;
}

describe('a panel against scipy’s dense solution of the same network', () => {
  // fixtures/reference/generate_surface_network.py
  const networks = [network, acrossKeel].flatMap(({ cases: own, lines, nodes }) =>
    Object.entries(own).map(([name, found]) => ({ name, lines, nodes, ...found })),
  );
  const cases = networks.flatMap((own) =>
    own.solutions.map(
      (wanted) => [own.name, wanted.roughness, wanted.athwart, own, wanted] as const,
    ),
  );

  it.each(cases)(
    '%s, roughness %d and %d: heights, uncertainties and squares to 1e-6',
    (name, rough, across, { lines, nodes: stations, placements }, wanted) => {
      const twist = name === 'athwart only';
      const space = panelSpace(
        lines,
        placements.flatMap((p) => p.x),
      );
      const system = panelSystem(space, placements);
      const fit = solvePanel(system, { fore: rough ** -2, across: across ** -2 });
      if (!fit) throw new Error('not solved');
      expect(Math.abs(fit.penalisedSquares / wanted.squares - 1)).toBeLessThan(1e-6);
      expect(fit.factor.held.reduce((sum, h) => sum + h, 0)).toBe(twist ? 4 : 3);
      const nodes = lines.flatMap((y) => stations.map((x) => ({ x, y })));
      const flatten = bestPlane(
        nodes.map(({ x }) => x),
        nodes.map(({ y }) => y),
        nodes.map(() => 1),
        twist,
      );
      const heights = lineHeights(space, stations);
      const at = (c: Float64Array) => {
        const z = Float64Array.from(lines.flatMap((_, i) => Array.from(heights(c, i))));
        flatten(z);
        return z;
      };
      const off = at(fit.coefficients);
      wanted.off.forEach((value, i) => expect(Math.abs(off[i] - value)).toBeLessThan(1e-6));
      // Uncertainty at a few nodes: what the solution makes of the node's own row, off the plane.
      for (const i of [0, 17, 32, 64]) {
        const row = new Float64Array(fit.coefficients.length);
        nodes.forEach(({ x, y }, k) => {
          const unit = new Float64Array(nodes.length);
          unit[k] = 1;
          flatten(unit);
          addReadingRow(space, { x, line: lines.indexOf(y) }, undefined, unit[i], row);
        });
        const solved = new Float64Array(row);
        forwardBand(fit.factor, solved);
        backwardBand(fit.factor, solved);
        const u = Math.sqrt(row.reduce((sum, v, j) => sum + v * solved[j], 0));
        expect(Math.abs(u / wanted.u[i] - 1)).toBeLessThan(1e-6);
      }
    },
  );

  it.each(networks.map((own) => [own.name, own] as const))(
    '%s: weighs one roughness against another as the dense likelihood does, to 1e-6',
    (_, { lines, placements, solutions }) => {
      const space = panelSpace(
        lines,
        placements.flatMap((p) => p.x),
      );
      const system = panelSystem(space, placements);
      const bends = bendsOf(space);
      const found = solutions.map(({ roughness, athwart }) => {
        const penalties = { fore: roughness ** -2, across: athwart ** -2 };
        const fit = solvePanel(system, penalties);
        if (!fit) throw new Error('not solved');
        const prior = priorLogDeterminant(space, bends, penalties);
        return 0.5 * (prior - fit.factor.logDeterminant - fit.penalisedSquares);
      });
      solutions.forEach(({ logLikelihood }, i) => {
        expect(found[i] - found[0]).toBeCloseTo(logLikelihood - solutions[0].logLikelihood, 6);
      });
    },
  );
});

describe('a panel against Moody’s surface plate (1955)', () => {
  const step = (moody.footSpacing_in * Math.PI) / 180 / 3600 / 1e-5;
  const heightsOf = (seconds: readonly number[]) =>
    seconds.reduce<number[]>((sums, s) => [...sums, sums[sums.length - 1] + s * step], [0]);
  const { readings, heights } = moody;
  const at17 = Array.from({ length: 17 }, (_, i) => 16 - i);
  // Lines: south edge, centre, north edge. The plate's own corners are crossed by the other five.
  const along = (line: number, seconds: readonly number[]): PanelPlacement => ({
    line: at17.map(() => line),
    x: at17,
    gap: heightsOf(seconds).map((z) => -z),
    u: at17.map(() => 0.01),
  });
  const across = (
    x: readonly number[],
    seconds: readonly number[],
    u = [0.01, 0.01, 0.01],
  ): PanelPlacement => {
    const z = heightsOf(seconds);
    return {
      line: [2, 1, 0],
      x,
      gap: [z[0], z[(z.length - 1) / 2], z[z.length - 1]].map((v) => -v),
      u,
    };
  };
  const edges = [across([16, 16, 16], readings.NE_SE), across([0, 0, 0], readings.NW_SW)];
  const diagonals = [across([0, 8, 16], readings.NW_SE), across([16, 8, 0], readings.NE_SW)];
  const middle = across([8, 8, 8], readings.N_S);
  const lines = (centre: number) => [
    along(2, readings.NE_NW),
    { ...along(1, readings.E_W), u: at17.map((x) => (x === 8 ? centre : 0.01)) },
    along(0, readings.SE_SW),
  ];

  it('has his heights to the last figure that single precision carries, and what his centre line does not close by', () => {
    // Moody lets diagonals and edges settle all heights; the centre line's own middle shows what does not close. There
    // it is given no weight. His worksheet then lifts that whole line on to the diagonals' centre.
    const placements = [...lines(1e4), ...edges, ...diagonals];
    const space = panelSpace([0, 5, 10], at17);
    const fit = solvePanel(panelSystem(space, placements), { fore: 1e-8, across: 0 });
    if (!fit) throw new Error('not solved');
    const misclosure = heights.E_W[0] - heights.NE_SE[5];
    expect(misclosure).toBeCloseTo(heights.E_W[16] - heights.NW_SW[5], 5);
    const rows = [heights.SE_SW, heights.E_W, heights.NE_NW].map((row, line) =>
      row.map((z, i) => (line === 1 && at17[i] !== 8 ? z - misclosure : z)),
    );
    const found = lineHeights(space, at17);
    const nodes = rows.flatMap((row, line) => row.map((z, i) => ({ z, x: at17[i], y: 5 * line })));
    const flatten = bestPlane(
      nodes.map(({ x }) => x),
      nodes.map(({ y }) => y),
      nodes.map(() => 1),
      false,
    );
    const off = Float64Array.from(nodes, ({ z }) => -z);
    rows.forEach((_, line) =>
      found(fit.coefficients, line).forEach((z, i) => (off[line * 17 + i] += z)),
    );
    flatten(off);
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(1e-4);
  });

  it('has as many checks as he has: two with all eight lines, one without the middle athwart', () => {
    const all = fitted([0, 5, 10], [...lines(0.01), ...edges, ...diagonals, middle], 1000);
    expect(all.datum).toBe('plane');
    expect(misclosureOf(all).dof).toBe(2);
    const seven = fitted([0, 5, 10], [...lines(0.01), ...edges, ...diagonals], 1000);
    expect(misclosureOf(seven).dof).toBe(1);
    expect(misclosureOf(seven).closes).toBe(false);
  });
});

describe('a panel of known twist and hollow', () => {
  const surface = sumOf(twisted(2e-6), round(-1.2, [500, 450], [260, 190]));

  it.each([
    ['five lines', FIVE],
    ['eight lines', EIGHT],
    ['seven lines right across the keel', KEEL],
  ])('is recovered to rounding at every station of %s without noise', (_, layout) => {
    const panel = fitted(layout.lines, readingsOn(surface, layout, 1e-5), FLOOR);
    const heights = lineHeights(panel.space, layout.stations);
    const mean = panelMean(panel);
    const nodes = layout.lines.flatMap((y) => layout.stations.map((x) => ({ x, y })));
    const flatten = bestPlane(
      nodes.map(({ x }) => x),
      nodes.map(({ y }) => y),
      nodes.map(() => 1),
      false,
    );
    const off = Float64Array.from(
      layout.lines.flatMap((y, i) =>
        Array.from(heights(mean, i), (z, k) => z - surface(layout.stations[k], y)),
      ),
    );
    flatten(off);
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(1e-8);
  });

  it('has its twist alone where there is nothing else', () => {
    const panel = fitted(FIVE.lines, readingsOn(twisted(2e-6), FIVE, 1e-5), FLOOR);
    const twist = twistOf(panel, [0, 1500], { tolerance: 1.5, over: 1500 });
    expect(twist?.corner).toBeCloseTo(2e-6 * 600 * 1500, 8);
    expect(twist?.angle).toBeCloseTo((2e-6 * 600 * 180) / Math.PI, 9);
    expect(twist?.verdict).toBe('twisted');
  });
});

describe('a panel whose straightedge across lay at the foremost station', () => {
  it('is fitted though rounding leaves that station a hair short of those along the lines', () => {
    const layout = {
      lines: [150, 300, 450, 600],
      stations: Array.from({ length: 16 }, (_, i) => (1500 * i) / 15),
      across: [
        [0, 0],
        [1500 - 2e-13, 1500 - 2e-13],
        [200, 1300],
      ] as const,
    };
    const panel = fitted(layout.lines, readingsOn(twisted(2e-6), layout, 1e-5), FLOOR);
    expect(panel.space.basis.breaks.at(-1)).toBe(1);
  });
});

describe('what a panel cannot be fitted from', () => {
  const flat = () => 0;
  const lay = (across: (typeof FIVE)['across'], lines = FIVE.lines) =>
    readingsOn(flat, { ...FIVE, lines, across }, 0.2);

  it('is told apart: no placement across, too few lines, lines left untied', () => {
    expect(fitPanel(FIVE.lines, lay([]), FLOOR)).toEqual({ ok: false, reason: 'not crossed' });
    expect(fitPanel([150, 300], lay([[0, 0]], [150, 300]), FLOOR)).toEqual({
      ok: false,
      reason: 'too few lines',
    });
    expect(fitPanel(FIVE.lines, lay([[125, 125]]), FLOOR)).toEqual({
      ok: false,
      reason: 'not tied',
    });
    const short = lay([
      [125, 125],
      [1375, 1375],
    ]).map((p, i) =>
      i === 1 ? { line: [1, 1, 1], x: [0, 125, 250], gap: [0, 0, 0], u: [0.2, 0.2, 0.2] } : p,
    );
    expect(fitPanel(FIVE.lines, short, FLOOR)).toEqual({ ok: false, reason: 'too few readings' });
  });

  it('leaves the twist out where no straightedge lay on a diagonal, however it is twisted', () => {
    const across = [
      [125, 125],
      [750, 750],
      [1375, 1375],
    ] as const;
    const panel = fitted(FIVE.lines, readingsOn(twisted(5e-6), { ...FIVE, across }, 0.01), FLOOR);
    expect(panel.datum).toBe('plane and twist');
    expect(twistOf(panel, [0, 1500], { tolerance: 1.5, over: 1500 })).toBeUndefined();
    expect(panelMap(panel, [0, 1500]).range.size).toBeLessThan(0.01);
  });

  it('throws on what the caller mistook', () => {
    expect(() => fitPanel(FIVE.lines, lay([[125, 125]]), 0)).toThrow(RangeError);
    expect(() =>
      fitPanel(
        [300, 150, 450, 600, 750],
        lay([
          [125, 125],
          [750, 750],
        ]),
        FLOOR,
      ),
    ).toThrow(RangeError);
    const wrong = lay([[125, 125]]);
    expect(() =>
      fitPanel(FIVE.lines, [{ ...wrong[0], line: FIVE.stations.map(() => 7) }], FLOOR),
    ).toThrow(/a line from 0 to 4/);
    expect(() =>
      fitPanel(FIVE.lines, [{ ...wrong[0], u: FIVE.stations.map(() => 0) }], FLOOR),
    ).toThrow(RangeError);
  });
});
