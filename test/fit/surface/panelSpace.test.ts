import { describe, expect, it } from 'vitest';
import { lineHeights, panelSpace, scaledStation } from '../../../src/fit/surface/panelSpace.ts';
import { cubicCoefficients } from '../support.ts';

const LINES = [-300, -100, 250, 500];
const STATIONS = [2125, 2250, 2500, 3125];

describe('the space of a panel’s surface', () => {
  it('scales its lines and the stations that were read to 0..1, in whatever order they come', () => {
    const space = panelSpace(LINES, [2500, 2125, 3125, 2250, 2500]);
    expect(space.domain).toEqual([2125, 3125]);
    expect(Array.from(space.lines)).toEqual(LINES);
    expect(Array.from(space.athwart.places)).toEqual([0, 0.25, 0.6875, 1]);
    expect(space.basis.breaks[0]).toBe(0);
    expect(space.basis.breaks.at(-1)).toBe(1);
  });

  it('has a knot at every station, and others evenly between, no farther apart than a 32nd', () => {
    const { breaks } = panelSpace(LINES, STATIONS).basis;
    const knots = Array.from(breaks);
    for (const x of STATIONS) {
      expect(knots.some((knot) => Math.abs(knot - (x - 2125) / 1000) < 1e-12)).toBe(true);
    }
    const gaps = knots.slice(1).map((knot, i) => knot - knots[i]);
    // 125 mm of 1000 is four 32nds, 250 eight and 625 twenty.
    expect(gaps).toHaveLength(4 + 8 + 20);
    gaps.forEach((gap) => expect(gap).toBeCloseTo(1 / 32, 12));
  });

  it('has 64 equal pieces where stations are more than that, and one knot for stations within a millionth', () => {
    const dense = panelSpace(
      LINES,
      Array.from({ length: 101 }, (_, i) => 10 * i),
    ).basis.breaks;
    expect(Array.from(dense)).toEqual(Array.from({ length: 65 }, (_, i) => i / 64));
    const most = panelSpace(
      LINES,
      Array.from({ length: 65 }, (_, i) => 10 * i),
    ).basis.breaks;
    expect(most).toHaveLength(65);
    const twice = panelSpace(LINES, [...STATIONS, 2250 + 1e-4, 3125 - 1e-4]).basis.breaks;
    expect(twice).toHaveLength(33);
    expect(twice.at(-1)).toBe(1);
  });

  it('tells the heights of each line’s own cubic exactly', () => {
    const space = panelSpace(LINES, STATIONS);
    const cubics = LINES.map((_, i) => [i, 2 - i, -3 + i, 1 + 0.5 * i]);
    const c = new Float64Array(space.basis.size * 4);
    cubics.forEach((cubic, i) =>
      cubicCoefficients(space.basis, cubic).forEach((v, k) => (c[k * 4 + i] = v)),
    );
    const x = [2125, 2200, 2777, 3125];
    const heights = lineHeights(space, x);
    cubics.forEach(([a, b, q, d], i) => {
      const found = heights(c, i);
      x.forEach((at, k) => {
        const s = (at - 2125) / 1000;
        expect(found[k]).toBeCloseTo(a + b * s + q * s * s + d * s ** 3, 12);
      });
    });
  });

  it('extrapolates nothing: beyond what was read but for rounding is refused', () => {
    expect(scaledStation(2500, [2000, 3000])).toBe(0.5);
    expect(scaledStation(2000 - 1e-7, [2000, 3000])).toBe(0);
    expect(scaledStation(3000 + 1e-7, [2000, 3000])).toBe(1);
    for (const x of [1999, 3001, NaN]) {
      expect(() => scaledStation(x, [2000, 3000])).toThrow(
        `x within 2000..3000 expected, got ${x}: nothing is extrapolated`,
      );
    }
  });
});
