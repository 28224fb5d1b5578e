import { describe, expect, it } from 'vitest';
import { backwardBand, forwardBand } from '../../../src/fit/surface/bandSystem.ts';
import type { Panel } from '../../../src/fit/surface/fitPanel.ts';
import {
  candidatesAcross,
  leastAcross,
  worthAcross,
  type Across,
} from '../../../src/fit/surface/nextAcross.ts';
import { panelMap } from '../../../src/fit/surface/panelMap.ts';
import { panelSystem, solvePanel } from '../../../src/fit/surface/panelSystem.ts';
import { twistRow } from '../../../src/fit/surface/twist.ts';
import { seededNormals } from '../support.ts';
import { fitted } from './changeSupport.ts';
import { FIVE, readingsOn, twisted } from './panelSupport.ts';

const STRETCH = [0, 1500] as const;
const LINES = [150, 260, 450, 600, 750];
const LAYOUT = { ...FIVE, lines: LINES };
const panel = fitted(
  readingsOn(twisted(2e-6), { ...LAYOUT, across: FIVE.across.slice(1) }, 0.2, seededNormals(3)),
  LINES,
);
const heaviest = panel.components.reduce((a, b) => (b.weight > a.weight ? b : a));

/** Variance of a figure were a straightedge laid there as well, under the heaviest account: the whole system solved anew. */
function varianceWith({ inner, outer }: Across, u: number, row: Float64Array): number {
  const [laid] = readingsOn(() => 0, { ...LAYOUT, across: [[inner, outer]] }, u).slice(-1);
  const { roughness, athwart, noise } = heaviest;
  const fit = solvePanel(panelSystem(panel.space, [...panel.placements, laid]), {
    fore: (noise / roughness) ** 2,
    across: (noise / athwart) ** 2,
  });
  if (!fit) throw new Error('not solved');
  const longer = new Float64Array(fit.coefficients.length);
  longer.set(row.subarray(0, panel.system.matrix.size));
  const solved = Float64Array.from(longer);
  forwardBand(fit.factor, solved);
  backwardBand(fit.factor, solved);
  return noise ** 2 * longer.reduce((sum, v, j) => sum + v * solved[j], 0);
}

describe('what one more placement across is worth', () => {
  const candidates: readonly Across[] = [
    { direction: 'athwart', inner: 375, outer: 375 },
    { direction: 'diagonal', inner: 125, outer: 1375 },
    { direction: 'diagonal', inner: 1250, outer: 500 },
  ];

  it('is exactly what the system solved anew with its readings knows, best first', () => {
    const rows = [twistRow(panel, STRETCH), twistRow(panel, [500, 1250])];
    for (const u of [0.1, 0.4]) {
      const found = worthAcross(panel, candidates, u, rows);
      expect(found).toHaveLength(3);
      for (const { now, then, ...candidate } of found) {
        const variances = rows.map((row) => varianceWith(candidate, u, row));
        expect(then / Math.sqrt((variances[0] + variances[1]) / 2)).toBeCloseTo(1, 6);
        expect(then).toBeLessThan(now);
      }
      const told = found.map(({ then }) => then);
      expect(told).toEqual([...told].sort((a, b) => a - b));
    }
  });

  it('is against what is known as it stands, by the account that weighs most, however accounts are ordered', () => {
    const row = twistRow(panel, STRETCH);
    const solved = Float64Array.from(row);
    forwardBand(heaviest.factor, solved);
    backwardBand(heaviest.factor, solved);
    const now = heaviest.noise * Math.sqrt(row.reduce((sum, v, j) => sum + v * solved[j], 0));
    const others = panel.components.filter((component) => component !== heaviest);
    expect(others.length).toBeGreaterThan(0);
    for (const components of [
      [heaviest, ...others],
      [...others, heaviest],
    ]) {
      const found = worthAcross({ ...panel, components }, candidates, 0.2, [row, row]);
      for (const each of found) expect(each.now / now).toBeCloseTo(1, 9);
    }
    const noisy = { ...panel, components: [{ ...heaviest, noise: 1.4 * heaviest.noise }] };
    const [first] = worthAcross(noisy, candidates, 0.2, [row]);
    const [before] = worthAcross({ ...panel, components: [heaviest] }, candidates, 0.2, [row]);
    expect(first.now / before.now).toBeCloseTo(1.4, 9);
    expect(first.then / before.then).toBeCloseTo(1.4, 9);
  });

  it('is of heights off the best plane all over the panel where nothing else is asked, as the map has them', () => {
    const one: Panel = { ...panel, components: [{ ...heaviest, weight: 1 }] };
    const { u } = panelMap(one, STRETCH, { columns: 7, between: 0 });
    const rms = Math.sqrt(u.reduce((sum, v) => sum + v * v, 0) / u.length);
    const [{ now }] = worthAcross(one, candidates, 0.2);
    expect(Math.abs(now / rms - 1)).toBeLessThan(0.1);
  });

  it('leaves out what goes beyond what was read of a line, and without a diagonal all that sees no twist', () => {
    const x = [250, 375, 500, 625, 750, 1000];
    const short = readingsOn(
      twisted(2e-6),
      {
        ...LAYOUT,
        across: [
          [375, 375],
          [875, 875],
        ],
      },
      0.2,
    ).map((p, i) =>
      i === 4 ? { line: x.map(() => 4), x, gap: x.map(() => 0), u: x.map(() => 0.2) } : p,
    );
    const plain = fitted(short, LINES);
    expect(plain.datum).toBe('plane and twist');
    const found = worthAcross(
      plain,
      [
        { direction: 'athwart', inner: 500, outer: 500 },
        { direction: 'diagonal', inner: 0, outer: 875 },
        { direction: 'diagonal', inner: 875, outer: 0 },
        { direction: 'diagonal', inner: 500, outer: 1250 },
      ],
      0.2,
    );
    expect(found.map(({ inner }) => inner)).toEqual([0]);
    expect(found[0].then).toBeLessThan(found[0].now);
    const [low, high] = [250, 1000];
    const candidates = candidatesAcross(plain, STRETCH);
    expect(candidates.slice(0, 11)).toEqual(
      Array.from({ length: 11 }, (_, i) => {
        const at = low + ((high - low) * i) / 10;
        return { direction: 'athwart', inner: at, outer: at };
      }),
    );
    expect(candidates.slice(11)).toEqual([
      { direction: 'diagonal', inner: low, outer: high },
      { direction: 'diagonal', inner: high, outer: low },
    ]);
    expect(candidatesAcross(plain, [400, 900])[0].inner).toBe(400);
    expect(candidatesAcross(plain, [400, 900])[10].inner).toBe(900);
  });

  it('needs two athwart and a diagonal over three lines or more, and nothing over two', () => {
    expect(leastAcross(2)).toEqual({ athwart: 0, diagonal: 0 });
    expect(leastAcross(3)).toEqual({ athwart: 2, diagonal: 1 });
  });
});
