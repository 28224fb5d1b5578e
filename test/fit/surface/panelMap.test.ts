import { describe, expect, it } from 'vitest';
import { bestPlane } from '../../../src/fit/surface/bestPlane.ts';
import type { Panel } from '../../../src/fit/surface/fitPanel.ts';
import { panelDraws, panelMean } from '../../../src/fit/surface/panelDraws.ts';
import { breadth, panelMap, placesBetween } from '../../../src/fit/surface/panelMap.ts';
import { lineHeights } from '../../../src/fit/surface/panelSpace.ts';
import { seededNormals } from '../support.ts';
import { fitted } from './changeSupport.ts';
import { FIVE, readingsOn, round, sumOf, twisted } from './panelSupport.ts';

const STRETCH = [125, 1375] as const;
const LINES = [150, 260, 450, 600, 750];
const COLUMNS = 6;
const shape = sumOf(round(-2, [500, 450], [250, 200]), twisted(3e-6));
const panel = fitted(readingsOn(shape, { ...FIVE, lines: LINES }, 0.15, seededNormals(2)), LINES);
const X = Array.from({ length: COLUMNS }, (_, i) => 125 + 250 * i);
const WIDTHS = [55, 150, 170, 150, 75];

/** Heights of some coefficients on every line off their best plane, each line for its share of the width. */
function off(c: Float64Array, twist = false): Float64Array {
  const heights = lineHeights(panel.space, X);
  const z = Float64Array.from(LINES.flatMap((_, i) => Array.from(heights(c, i))));
  const nodes = LINES.flatMap((y, i) => X.map((x) => ({ x, y, w: WIDTHS[i] })));
  bestPlane(
    nodes.map(({ x }) => x),
    nodes.map(({ y }) => y),
    nodes.map(({ w }) => w),
    twist,
  )(z);
  return z;
}
const range = (z: Float64Array) => Math.max(...z) - Math.min(...z);
const spread = (values: readonly number[], middle: number) =>
  Math.sqrt(values.reduce((sum, v) => sum + (v - middle) ** 2, 0) / (values.length - 1));

describe('a panel’s map', () => {
  const mean = off(panelMean(panel));
  const draws = panelDraws(panel, 0, 60).map((c) => off(c));
  const map = panelMap(panel, STRETCH, { columns: COLUMNS, between: 1 });

  it('tells on its lines how far the mean stands off its best plane, and how far draws scatter about that', () => {
    expect(Array.from(map.x)).toEqual(X);
    expect(map.datum).toBe('plane');
    LINES.forEach((_, i) => {
      for (let c = 0; c < COLUMNS; c++) {
        const [at, own] = [2 * i * COLUMNS + c, i * COLUMNS + c];
        expect(map.z[at]).toBeCloseTo(mean[own], 10);
        const scatter = spread(
          draws.map((z) => z[own]),
          mean[own],
        );
        expect(map.u[at]).toBeCloseTo(scatter, 10);
      }
    });
  });

  it('tells between them the spline’s height, with the scatter of that and what is open there', () => {
    const { athwart, lines } = panel.space;
    const scale = panel.components.reduce((sum, c) => sum + c.weight * c.athwart ** 2, 0);
    for (const row of [1, 3, 5, 7]) {
      const place = (map.y[row] - lines[0]) / (lines[4] - lines[0]);
      const weights = athwart.weightsAt(place);
      for (let c = 0; c < COLUMNS; c++) {
        const along = (z: Float64Array) =>
          weights.reduce((sum, w, i) => sum + w * z[i * COLUMNS + c], 0);
        const at = row * COLUMNS + c;
        expect(map.z[at]).toBeCloseTo(along(mean), 10);
        const own = spread(draws.map(along), along(mean));
        expect(map.u[at]).toBeCloseTo(Math.sqrt(own ** 2 + scale * athwart.openAt(place)), 10);
      }
    }
  });

  it('tells in one figure the highest less the lowest that was read, as unsure as that of the draws', () => {
    expect(map.range.size).toBeCloseTo(range(mean), 10);
    const ranges = draws.map(range);
    const middle = ranges.reduce((sum, v) => sum + v, 0) / ranges.length;
    expect(map.range.u).toBeCloseTo(spread(ranges, middle), 10);
  });

  it('takes a range of nothing that was not read', () => {
    const x = [250, 375, 500, 625, 750, 1000];
    const across = [
      [375, 375],
      [875, 875],
      [400, 800],
    ] as const;
    const dent = round(-9, [1500, 750], [200, 60]);
    const short = readingsOn(dent, { ...FIVE, across }, 0.01).map((p, i) =>
      i === 4 ? { line: x.map(() => 4), x, gap: x.map(() => 0), u: x.map(() => 0.01) } : p,
    );
    const found = panelMap(fitted(short), [0, 1500], { columns: 13, between: 0 });
    const read = Array.from(found.z).filter((_, k) => k < 4 * 13 || (k % 13 >= 2 && k % 13 <= 8));
    expect(found.range.size).toBeCloseTo(Math.max(...read) - Math.min(...read), 10);
    expect(Array.from(found.blank.slice(4 * 13)).join('')).toBe('1100000001111');
  });

  it('is laid through the lines, stations and with the twist that it is told to be', () => {
    const level = { lines: [0, 1, 3], counts: (_: number, x: number) => x > 400, twist: true };
    const found = panelMap(panel, STRETCH, { columns: COLUMNS, between: 0, level });
    expect(found.datum).toBe('plane and twist');
    const counted = Array.from(found.z, (z, k) => ({
      z,
      a: (X[k % COLUMNS] - 750) / 1000,
      b: (LINES[Math.floor(k / COLUMNS)] - 450) / 300,
      x: X[k % COLUMNS],
    })).map((node, k) => {
      // Lines 150, 260 and 600 stand for 55, 225 and 170 mm.
      const w = [55, 225, 0, 170, 0][Math.floor(k / COLUMNS)];
      return { ...node, w: node.x > 400 ? w : 0 };
    });
    for (const of of [
      () => 1,
      ({ a }: { a: number }) => a,
      ({ b }: { b: number }) => b,
      ({ a, b }: { a: number; b: number }) => a * b,
    ]) {
      expect(counted.reduce((sum, node) => sum + node.w * node.z * of(node), 0)).toBeCloseTo(0, 8);
    }
  });

  it('has rows where they are asked for, and refuses those beyond the lines', () => {
    const rows = [150, 200, 450, 700];
    const found = panelMap(panel, STRETCH, { columns: COLUMNS, rows });
    expect(Array.from(found.y)).toEqual(rows);
    expect(Array.from(found.line)).toEqual([0, -1, 2, -1]);
    expect(found.z.slice(2 * COLUMNS, 3 * COLUMNS)).toEqual(map.z.slice(4 * COLUMNS, 5 * COLUMNS));
    for (const y of [149, 751]) {
      expect(() => panelMap(panel, STRETCH, { columns: COLUMNS, rows: [y] })).toThrow(
        `150..750 expected, got ${y}`,
      );
    }
  });

  it('weighs accounts by what they weigh in what is open between lines', () => {
    const [component] = panel.components;
    const of = (...athwart: number[]): Panel => ({
      ...panel,
      components: athwart.map((each) => ({
        ...component,
        weight: 1 / athwart.length,
        athwart: each,
      })),
    });
    const open = (given: Panel) => {
      const { u } = panelMap(given, STRETCH, { columns: COLUMNS, rows: [525] });
      return u[2] ** 2;
    };
    const [rough, smooth] = [open(of(400)), open(of(100))];
    expect(open(of(400, 100))).toBeCloseTo((rough + smooth) / 2, 10);
    expect(rough).toBeGreaterThan(smooth);
  });
});

describe('rows and their share of the width', () => {
  it('lie on the lines and evenly between', () => {
    expect(placesBetween([0, 4, 16], 3)).toEqual([0, 1, 2, 3, 4, 7, 10, 13, 16]);
    expect(placesBetween([0, 4, 16], 0)).toEqual([0, 4, 16]);
  });

  it('reach half way to the next line on either hand, in either order', () => {
    expect(LINES.map((_, i) => breadth(Float64Array.from(LINES), i))).toEqual(WIDTHS);
    const back = Float64Array.from(LINES).reverse();
    expect(LINES.map((_, i) => breadth(back, i))).toEqual([...WIDTHS].reverse());
  });
});
