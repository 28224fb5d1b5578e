import { describe, expect, it } from 'vitest';
import { compareHalves } from '../../../src/fit/surface/agreement.ts';
import { areasOf } from '../../../src/fit/surface/areas.ts';
import { fitPanel, type Panel } from '../../../src/fit/surface/fitPanel.ts';
import { halvesOf } from '../../../src/fit/surface/halves.ts';
import { misclosureOf } from '../../../src/fit/surface/misclosure.ts';
import { panelMap } from '../../../src/fit/surface/panelMap.ts';
import { twistOf } from '../../../src/fit/surface/twist.ts';
import { seededNormals } from '../support.ts';
import { KEEL, readingsOn, round, sumOf, twisted, type Surface } from './panelSupport.ts';

const STRETCH = [0, 1500] as const;
const T = { tolerance: 1.5, over: 1500 };
const HALVES = { last: 2, first: 4 };
const degrees = 180 / Math.PI;

function panelOf(surface: Surface, u = 0.15, seed?: number, layout = KEEL): Panel {
  const noise = seed === undefined ? undefined : seededNormals(seed);
  const panel = fitPanel(layout.lines, readingsOn(surface, layout, u, noise), 15);
  if (!panel.ok) throw new Error(panel.reason);
  return panel;
}

describe('a bottom crossed right over the keel, without reading error', () => {
  // That a twist with a hollow is recovered to rounding at every station: fitPanel.test.ts.
  it('has its twist to rounding, and a map off the best plane of all of it', () => {
    const rate = 3e-6;
    const panel = panelOf(twisted(rate), 1e-3);
    const turn = twistOf(panel, STRETCH, T);
    expect(turn?.corner).toBeCloseTo(rate * 1200 * 1500, 6);
    const map = panelMap(panel, STRETCH, { columns: 13, between: 1 });
    map.z.forEach((z, i) => {
      const [x, y] = [map.x[i % 13], map.y[Math.floor(i / 13)]];
      // Places lie evenly about y = 0, so that the best plane of x·y is its mean station times y.
      expect(z).toBeCloseTo(rate * (x - 750) * y, 6);
    });
    expect([map.y[0], map.y[map.y.length - 1]]).toEqual([-600, 600]);
  });

  it('has a hollow astride the keel as one area of both sides', () => {
    const shape = sumOf(round(-3, [700, 0], [300, 260]), twisted(1.5e-6));
    const { areas, verdict } = areasOf(panelOf(shape, 0.15, 7), STRETCH, T);
    expect(verdict).toBe('hollow');
    expect(areas[0]).toMatchObject({ kind: 'hollow', proven: true, at: { line: 3 } });
    expect(areas[0].lines).toEqual(expect.arrayContaining([2, 3, 4]));
    expect(Math.abs(areas[0].size - 3)).toBeLessThan(2 * areas[0].u);
  });

  it('closes, and points out the one placement over the keel that does not fit', () => {
    const readings = readingsOn(twisted(1e-6), KEEL, 0.15, seededNormals(3));
    const fit = (all: typeof readings) => {
      const panel = fitPanel(KEEL.lines, all, 15);
      if (!panel.ok) throw new Error(panel.reason);
      return misclosureOf(panel);
    };
    expect(fit(readings).closes).toBe(true);
    const wrong = readings.map((p, i) =>
      i === 8 ? { ...p, gap: Array.from(p.gap, (g, k) => (k === 3 ? g + 3 : g)) } : p,
    );
    expect(fit(wrong)).toMatchObject({ closes: false, outlier: 8 });
  });
});

describe('halvesOf', () => {
  it('tells by how much the planes of the sides turn against one another in closed form', () => {
    // Of x·y either side turns fore and aft by its own mean place, 400 mm; of y² athwart by twice that.
    const rate = 2e-6;
    const turned = halvesOf(panelOf(twisted(rate), 1e-3), HALVES, STRETCH);
    expect(turned?.along.angle).toBeCloseTo(rate * 800 * degrees, 6);
    expect(turned?.athwart.angle).toBeCloseTo(0, 6);
    const bent = halvesOf(
      panelOf((_, y) => 3e-6 * y * y, 1e-3),
      HALVES,
      STRETCH,
    );
    expect(bent?.athwart.angle).toBeCloseTo(2 * 3e-6 * 800 * degrees, 3);
    expect(bent?.along.angle).toBeCloseTo(0, 6);
  });

  it('has intervals that hold the truth about as often as they say', () => {
    const rate = 2e-6;
    let held = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const found = halvesOf(panelOf(twisted(rate), 0.15, seed), HALVES, STRETCH);
      if (found === undefined) throw new Error('a diagonal was laid');
      if (Math.abs(found.along.angle - rate * 800 * degrees) < 1.96 * found.along.u) held++;
    }
    expect(held).toBeGreaterThanOrEqual(52);
  });

  it('says nothing where no diagonal was laid, and refuses a half of one line', () => {
    const flat = panelOf(() => 0, 0.15, 1, { ...KEEL, across: KEEL.across.slice(0, 3) });
    expect(halvesOf(flat, HALVES, STRETCH)).toBeUndefined();
    expect(() => halvesOf(flat, { last: 0, first: 4 }, STRETCH)).toThrow(RangeError);
  });
});

describe('compareHalves', () => {
  const PAIRS = [
    [2, 4],
    [1, 5],
    [0, 6],
  ] as const;

  it('calls what is the same on both sides alike', () => {
    const shape = sumOf(round(-2, [600, 380], [250, 150]), round(-2, [600, -380], [250, 150]));
    expect(compareHalves(panelOf(shape, 0.1, 5), PAIRS, STRETCH, 1.5).verdict).toBe('alike');
  });

  it('tells a hump to starboard as starboard farther out, and to port as the contrary', () => {
    const on = (y: number) =>
      compareHalves(panelOf(round(5, [600, y], [250, 150]), 0.1, 9), PAIRS, STRETCH, 1.5);
    expect(on(400)).toMatchObject({ verdict: 'unlike', line: 1 });
    expect(on(400).size).toBeGreaterThan(1.5);
    expect(on(-400).size).toBeLessThan(-1.5);
    expect(() =>
      compareHalves(
        panelOf(() => 0),
        PAIRS.slice(0, 1),
        STRETCH,
        1.5,
      ),
    ).toThrow(RangeError);
  });
});
