import { describe, expect, it } from 'vitest';
import { chordsOn } from '../../../src/fit/departures.ts';
import {
  accountsOn,
  countPlaces,
  profilesOf,
  type ProfileOn,
} from '../../../src/fit/surface/areaCounts.ts';
import { fitPanel } from '../../../src/fit/surface/fitPanel.ts';
import { FIVE, readingsOn } from './panelSupport.ts';

const T = 1.5;
const N = 5;
const X = Float64Array.from({ length: N }, (_, k) => 250 * k);
const GRID = { x: X, n: N, m: 5 };
const at = (line: number, k: number) => line * N + k;
const PROFILES: readonly ProfileOn[] = [
  ...FIVE.lines.map((_, i): ProfileOn => ({
    way: 'fore and aft',
    places: Int32Array.from({ length: N }, (_, k) => at(i, k)),
    chords: chordsOn(X, 1500),
  })),
  ...Array.from(X, (_, k): ProfileOn => ({
    way: 'athwart',
    places: Int32Array.from({ length: 5 }, (_, i) => at(i, k)),
    chords: chordsOn(FIVE.lines, 1500),
  })),
];

type Heights = (line: number, k: number) => number;
const heights = (of: Heights) =>
  Float64Array.from({ length: 25 }, (_, p) => of(Math.floor(p / N), p % N));
/** Heights that are none but at one place or two, which no profile shares. */
const dents =
  (a: number, b = 0): Heights =>
  (line, k) =>
    line === 1 && k === 1 ? -a : line === 3 && k === 3 ? -b : 0;
const A = at(1, 1);
const B = at(3, 3);

function counted(draws: readonly Heights[], mean: Heights, restored = mean) {
  const z = draws.map(heights);
  const seen = (of: Heights) => PROFILES.map((profile) => accountsOn(profile, heights(of)));
  const [own, back] = [seen(mean), seen(restored)];
  return countPlaces(
    PROFILES,
    PROFILES.map((profile) => z.map((each) => accountsOn(profile, each))),
    own.map((each, p) => ({ mean: each, restored: back[p] })),
    GRID,
    T,
  );
}

/** Forty depths about `middle`, mirrored pairs. */
const depths = (middle: number, spread: number, turn = 1) =>
  Array.from({ length: 20 }, (_, i) => spread * Math.sin(1 + i * turn)).flatMap((d) => [
    middle + d,
    middle - d,
  ]);
const share = (of: readonly number[], is: (d: number) => boolean) =>
  of.filter(is).length / of.length;
const mean = (of: readonly number[]) => of.reduce((sum, d) => sum + d, 0) / of.length;
const deviation = (of: readonly number[]) =>
  Math.sqrt(of.reduce((sum, d) => sum + (d - mean(of)) ** 2, 0) / (of.length - 1));

describe('what draws say of the places of a panel', () => {
  const a = depths(1.8, 0.9);
  const b = depths(2.4, 0.8, 2.1);

  it('is the share of them in which a place is beyond the tolerance, and of none is fair', () => {
    const { hollow, hump, fairness } = counted(
      a.map((d) => dents(d)),
      dents(1.8),
    );
    const beyond = share(a, (d) => d > T);
    expect(beyond).toBeGreaterThan(0.5);
    expect(beyond).toBeLessThan(0.9);
    expect(hollow[A]).toBe(beyond);
    expect(fairness).toBeCloseTo(1 - beyond, 12);
    expect(hollow.reduce((sum, v) => sum + v, 0)).toBe(beyond);
    expect(Math.max(...hump)).toBe(0);
  });

  it('turns round with the surface', () => {
    const up = counted(
      a.map((d) => dents(-d)),
      dents(-1.8),
    );
    const down = counted(
      a.map((d) => dents(d)),
      dents(1.8),
    );
    expect(up.hump).toEqual(down.hollow);
    expect(up.hollow).toEqual(down.hump);
    expect(up.surety.hump).toEqual(down.surety.hollow);
    expect(up.means.hump).toEqual(down.means.hollow);
    expect(up.told('hump', [A])).toEqual(down.told('hollow', [A]));
  });

  it('is sure of one place by the draws that stray less above the mean than it stands above the tolerance', () => {
    const { surety } = counted(
      a.map((d) => dents(d)),
      dents(1.8),
    );
    const margin = mean(a) - T;
    expect(surety.hollow[A]).toBe(share(a, (d) => d - mean(a) < margin));
    expect(surety.hollow[A]).toBeGreaterThan(0.5);
    expect(surety.hollow[A]).toBeLessThan(0.9);
    expect(surety.hollow.filter((v) => v > 0)).toHaveLength(1);
  });

  it('is sure of two places together: a draw that strays at either counts against both', () => {
    const { surety } = counted(
      a.map((d, i) => dents(d, b[i])),
      dents(1.8, 2.4),
    );
    const stray = a.map((d, i) =>
      Math.max((d - mean(a)) / deviation(a), (b[i] - mean(b)) / deviation(b)),
    );
    for (const [place, of] of [
      [A, a],
      [B, b],
    ] as const) {
      const margin = (mean(of) - T) / deviation(of);
      expect(surety.hollow[place]).toBe(share(stray, (s) => s < margin));
    }
    expect(surety.hollow[A]).toBeLessThan(share(a, (d) => d - mean(a) < mean(a) - T));
    expect(surety.hollow[B]).toBeGreaterThan(surety.hollow[A]);
  });

  it('looks at no place that is beyond the tolerance in one draw of twenty or fewer', () => {
    const seldom = a.map((_, i) => (i < 2 ? 1.6 : 0.5));
    const found = counted(
      a.map((d, i) => dents(d, seldom[i])),
      dents(1.8, 0.6),
    );
    const alone = counted(
      a.map((d) => dents(d)),
      dents(1.8),
    );
    expect(found.hollow[B]).toBe(0.05);
    expect(found.surety.hollow[B]).toBe(0);
    expect(found.surety.hollow[A]).toBe(alone.surety.hollow[A]);
  });

  it('is of the larger departure where an edge fore and aft shows a hollow and one athwart a hump', () => {
    const saddle =
      (down: number, up: number): Heights =>
      (line, k) =>
        down * ((k - 2) / 2) ** 2 - up * ((line - 2) / 2) ** 2;
    const middle = at(2, 2);
    const deep = counted([saddle(4, 2), saddle(4, 2)], saddle(4, 2));
    expect([deep.hollow[middle], deep.hump[middle]]).toEqual([1, 0]);
    const high = counted([saddle(2, 4), saddle(2, 4)], saddle(2, 4));
    expect([high.hollow[middle], high.hump[middle]]).toEqual([0, 1]);
    expect(high.told('hump', [middle])).toMatchObject({ way: 'athwart', size: 4 });
    expect(deep.told('hollow', [middle])).toMatchObject({ way: 'fore and aft', size: 4 });
    expect(deep.fairness).toBe(0);
  });
});

describe('what is told of an area', () => {
  it('is its deepest place, the size there and how unsure it is', () => {
    const [a, b] = [depths(1.8, 0.3), depths(2.4, 0.6, 2.1)];
    const found = counted(
      a.map((d, i) => dents(d, b[i])),
      dents(1.8, 2.4),
      dents(1.8, 2.6),
    );
    expect(found.means.hollow[A]).toBeCloseTo(1.8, 12);
    expect(found.means.hollow[B]).toBeCloseTo(2.4, 12);
    const told = found.told('hollow', [A, at(2, 2), B]);
    expect(told.place).toBe(B);
    expect(told.size).toBeCloseTo(2.4, 12);
    // Scatter, what was smoothed away, and half of how much deeper each draw's own deepest place stands.
    const sought = mean(a.map((d, i) => Math.max(d, b[i])));
    expect(sought).toBeGreaterThan(2.4);
    expect(told.u).toBeCloseTo(Math.hypot(deviation(b), 0.2, (sought - 2.4) / 2), 9);
    expect(found.told('hollow', [A, at(2, 2)])).toMatchObject({ place: A });
  });
});

describe('where a panel is looked along', () => {
  const x = [250, 375, 500, 625];
  const across = [
    [250, 250],
    [625, 625],
    [300, 600],
  ] as const;
  const short = readingsOn(() => 0, { ...FIVE, across }, 0.15).map((p, i) =>
    i === 0 || i === 4 || i === 2
      ? { line: x.map(() => i), x, gap: x.map(() => 0), u: x.map(() => 0.1) }
      : p,
  );
  const panel = fitPanel(FIVE.lines, short, 15);
  if (!panel.ok) throw new Error(panel.reason);

  it('is every line as far as it was read, and every station that three lines were read at', () => {
    const on = chordsOn(
      Float64Array.from({ length: 13 }, (_, k) => 125 * k),
      1500,
    );
    const profiles = profilesOf(panel, on, 1500);
    const along = profiles.filter(({ way }) => way === 'fore and aft');
    expect(along).toHaveLength(5);
    expect(Array.from(along[0].places)).toEqual([2, 3, 4, 5]);
    expect(Array.from(along[0].chords.x)).toEqual(x);
    expect(along[1].places).toHaveLength(13);
    expect(along[1].chords).toBe(on);
    const athwart = profiles.filter(({ way }) => way === 'athwart');
    // Of five lines three were read from 250 to 625 only: elsewhere two are left, and a straightedge over two shows nothing.
    expect(athwart.map(({ places }) => places[0] % 13)).toEqual([2, 3, 4, 5]);
    expect(Array.from(athwart[0].chords.x)).toEqual(FIVE.lines);
  });

  it('is no line that was read at fewer than three of the places', () => {
    const on = chordsOn([0, 500, 1000, 1500], 1500);
    const along = profilesOf(panel, on, 1500).filter(({ way }) => way === 'fore and aft');
    expect(along.map(({ places }) => Math.floor(places[0] / 4))).toEqual([1, 3]);
  });
});
