import { describe, expect, it } from 'vitest';
import { straightened } from '../../../src/fit/straightened.ts';
import { compareHalves, comparePanels, neighboursOf } from '../../../src/fit/surface/agreement.ts';
import { bestPlane } from '../../../src/fit/surface/bestPlane.ts';
import type { Panel } from '../../../src/fit/surface/fitPanel.ts';
import type { SystematicMode } from '../../../src/fit/systematic.ts';
import { seededNormals } from '../support.ts';
import { ALL, fitted, STRETCH } from './changeSupport.ts';
import { FIVE, KEEL, readingsOn, round, sumOf, twisted } from './panelSupport.ts';
import type { Layout, Surface } from './panelSupport.ts';

const T = 1.5;
const EXACT = 1e-3;
const evenly = (from: number, to: number) =>
  Array.from({ length: 33 }, (_, i) => from + ((to - from) * i) / 32);

/** `until`: how far the last line was read; none of the placements across lies beyond. */
function panelOf(
  surface: Surface,
  layout: Layout,
  u = EXACT,
  until = Infinity,
  seed?: number,
): Panel {
  const noise = seed === undefined ? undefined : seededNormals(seed);
  const last = layout.lines.length - 1;
  const placements = readingsOn(surface, layout, u, noise).map(({ line, x, gap, u: own }, i) => {
    const kept = Array.from(x).flatMap((at, k) => (i === last && at > until ? [] : [k]));
    const of = (v: ArrayLike<number>) => kept.map((k) => v[k]);
    return { line: of(line), x: of(x), gap: of(gap), u: of(own) };
  });
  return fitted(placements, layout.lines);
}

/** Where a difference is largest once its best plane, or plane and twist, is off, counted up to a station on the last line. */
function largestOff(difference: Surface, y: readonly number[], until: number, twist = false) {
  const x = evenly(...STRETCH);
  const widths = y.map((v, i) => ((y[i + 1] ?? v) - (y[i - 1] ?? v)) / 2);
  const nodes = y.flatMap((v, line) => x.map((at) => ({ at, v, line })));
  const counts = nodes.map(({ at, line }) => line < y.length - 1 || at <= until);
  const z = Float64Array.from(nodes, ({ at, v }) => difference(at, v));
  bestPlane(
    nodes.map(({ at }) => at),
    nodes.map(({ v }) => v),
    nodes.map(({ line }, k) => (counts[k] ? widths[line] : 0)),
    twist,
  )(z);
  const told = Array.from(z, (size, k) => ({ size, ...nodes[k] })).filter((_, k) => counts[k]);
  const most = told.reduce((a, b) => (Math.abs(b.size) > Math.abs(a.size) ? b : a));
  return { size: most.size, at: most.at, line: most.line };
}

/** Stations that two athwart and one diagonal meet, from line to line. */
const ACROSS = [
  [125, 125],
  [750, 750],
  [500, 700],
] as const;

describe('each line against the next', () => {
  const step: Surface = (x, y) => (y > 500 ? 4 * Math.exp(-(((x - 400) / 300) ** 2)) : 0);

  it('differs by what their difference less its straight line is, and where', () => {
    const found = neighboursOf(panelOf(step, FIVE), STRETCH, T);
    expect(found.map(({ inner, outer }) => [inner, outer])).toEqual([
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 4],
    ]);
    const x = evenly(...STRETCH);
    const off = straightened(
      x.map((at) => step(at, 600)),
      x,
    );
    const most = off.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
    expect(found[2].size).toBeCloseTo(most, 1);
    expect(found[2].at).toBe(x[off.indexOf(most)]);
    expect(found[2].u).toBeLessThan(0.05);
    expect(found[2]).not.toHaveProperty('line');
    expect(Math.abs(found[1].size)).toBeLessThan(0.01);
  });

  it('is compared over what was read of both within the stretch, and not at all where that is nothing', () => {
    const panel = panelOf(
      step,
      {
        ...FIVE,
        across: ACROSS,
      },
      EXACT,
      1000,
    );
    const x = evenly(125, 1000);
    const [, , , last] = neighboursOf(
      panelOf(
        (at, y) => (y > 700 ? step(at, y) : 0),
        {
          ...FIVE,
          across: ACROSS,
        },
        EXACT,
        1000,
      ),
      [125, 1375],
      T,
    );
    const off = straightened(
      x.map((at) => step(at, 600)),
      x,
    );
    expect(last.size).toBeCloseTo(off[x.indexOf(last.at)], 2);
    expect(Math.abs(last.size)).toBeCloseTo(Math.max(...off.map(Math.abs)), 2);
    expect(neighboursOf(panel, [1125, 1500], T).map(({ outer }) => outer)).toEqual([1, 2, 3]);
  });

  it('is alike where both have the same hollow, and unlike by a hollow as by a hump', () => {
    const both = round(-4, [600, 450], [200, 5000]);
    for (const { verdict } of neighboursOf(panelOf(both, FIVE), STRETCH, T)) {
      expect(verdict).toBe('alike');
    }
    const deep: Surface = (x, y) => (y > 700 ? -3 * Math.exp(-(((x - 700) / 150) ** 2)) : 0);
    const [, , , last] = neighboursOf(panelOf(deep, FIVE), STRETCH, T);
    expect(last.verdict).toBe('unlike');
    expect(last.size).toBeLessThan(-T);
    const high: Surface = (x, y) => -deep(x, y);
    expect(neighboursOf(panelOf(high, FIVE), STRETCH, T)[3].verdict).toBe('unlike');
  });

  it('is undecided where neither is sure', () => {
    const near: Surface = (x, y) => 0.5 * step(x, y);
    const found = neighboursOf(panelOf(near, FIVE, 0.3, Infinity, 5), STRETCH, T);
    expect(found[2].verdict).toBe('undecided');
    expect(found[0].verdict).toBe('alike');
  });
});

describe('one panel against another', () => {
  const shape = round(-2, [500, 450], [250, 200]);
  const more = round(3, [1000, 600], [250, 200]);
  const athwart = { ...FIVE, across: FIVE.across.slice(0, 3) };

  it('differs by the second’s departure less the first’s, off the best plane of what was read of both', () => {
    const aside = sumOf(more, round(-9, [1500, 750], [150, 60]));
    const across = [
      [125, 125],
      [750, 750],
      [500, 875],
    ] as const;
    const whole = panelOf(shape, FIVE);
    const cut = panelOf(
      sumOf(shape, aside, (x, y) => 2 + 0.001 * x - 0.003 * y),
      { ...FIVE, across },
      EXACT,
      875,
    );
    const found = comparePanels(whole, cut, ALL, STRETCH, T);
    const wanted = largestOff(aside, FIVE.lines, 875);
    expect(found.size).toBeCloseTo(wanted.size, 1);
    expect(found).toMatchObject({ at: wanted.at, line: wanted.line, verdict: 'unlike' });
    expect(comparePanels(cut, whole, ALL, STRETCH, T).size).toBeCloseTo(-found.size, 6);
  });

  it('differs by a twist where both have a diagonal, and not where either has none', () => {
    const bent = sumOf(shape, twisted(8e-6));
    const both = comparePanels(panelOf(shape, FIVE), panelOf(bent, FIVE), ALL, STRETCH, T);
    expect(Math.abs(both.size)).toBeCloseTo(8e-6 * 750 * 300, 2);
    for (const [one, other] of [
      [athwart, FIVE],
      [FIVE, athwart],
    ]) {
      const found = comparePanels(panelOf(shape, one), panelOf(bent, other), ALL, STRETCH, T);
      expect(Math.abs(found.size)).toBeLessThan(0.02);
      expect(found.verdict).toBe('alike');
    }
  });

  it('is less sure by what may have bent either, each in its own lines', () => {
    const lines = [150, 300, 375, 450, 600, 750];
    const one = panelOf(shape, FIVE);
    const six = panelOf(shape, { ...FIVE, lines });
    const pairs = [0, 1, 2, 3, 4].map((i) => [i, i < 2 ? i : i + 1] as const);
    const bow = (panel: Panel): SystematicMode => ({
      name: 'bow',
      shape: Float64Array.from({ length: panel.system.matrix.size }, (_, j) => Math.sin(j * j)),
      distribution: 'normal',
    });
    const { u } = comparePanels(one, six, pairs, STRETCH, T);
    const first = comparePanels(one, six, pairs, STRETCH, T, { firstSystematic: [bow(one)] });
    const second = comparePanels(one, six, pairs, STRETCH, T, { secondSystematic: [bow(six)] });
    expect(first.u).toBeGreaterThan(3 * u);
    expect(second.u).toBeGreaterThan(3 * u);
    expect(first.verdict).not.toBe('unlike');
  });

  it('takes two lines, and says how many it was given of fewer', () => {
    const panel = panelOf(shape, FIVE);
    expect(comparePanels(panel, panel, ALL.slice(1, 3), STRETCH, T).verdict).toBe('alike');
    expect(() => comparePanels(panel, panel, ALL.slice(0, 1), STRETCH, T)).toThrow(
      'at least 2 lines expected, got 1',
    );
  });
});

describe('one half of a panel against the other', () => {
  const PAIRS = [
    [2, 4],
    [1, 5],
    [0, 6],
  ] as const;
  const across = [
    [125, 125],
    [500, 500],
    [0, 875],
    [875, 0],
  ] as const;

  it('differs by the second’s departure less the first’s mirrored, off the best plane of what was read of both', () => {
    const shape = sumOf(
      round(3, [700, 400], [250, 150]),
      round(-9, [1400, -600], [150, 60]),
      round(-1, [400, -200], [250, 150]),
    );
    const found = compareHalves(panelOf(shape, { ...KEEL, across }, EXACT, 875), PAIRS, STRETCH, T);
    const mirrored: Surface = (x, y) => shape(x, y) - shape(x, -y);
    const wanted = largestOff(mirrored, [200, 400, 600], 875);
    expect(found.size).toBeCloseTo(wanted.size, 1);
    expect(found).toMatchObject({ at: wanted.at, line: wanted.line, verdict: 'unlike' });
  });

  it('differs by twice a twist where a diagonal was laid, and not where none was', () => {
    const bent = twisted(8e-6);
    const seen = compareHalves(panelOf(bent, KEEL), PAIRS, STRETCH, T);
    expect(Math.abs(seen.size)).toBeCloseTo(2 * 8e-6 * 750 * 200, 2);
    const blind = { ...KEEL, across: KEEL.across.slice(0, 3) };
    expect(Math.abs(compareHalves(panelOf(bent, blind), PAIRS, STRETCH, T).size)).toBeLessThan(
      0.02,
    );
  });

  it('takes two pairs, and says how many it was given of fewer', () => {
    const panel = panelOf(() => 0, KEEL);
    expect(compareHalves(panel, PAIRS.slice(0, 2), STRETCH, T).verdict).toBe('alike');
    expect(() => compareHalves(panel, PAIRS.slice(0, 1), STRETCH, T)).toThrow(
      'at least 2 pairs expected, got 1',
    );
  });
});
