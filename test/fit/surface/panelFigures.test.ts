import { describe, expect, it } from 'vitest';
import { comparePanels, neighboursOf } from '../../../src/fit/surface/agreement.ts';
import { areasOf } from '../../../src/fit/surface/areas.ts';
import { fitPanel, type Panel } from '../../../src/fit/surface/fitPanel.ts';
import { misclosureOf } from '../../../src/fit/surface/misclosure.ts';
import { candidatesAcross, leastAcross, worthAcross } from '../../../src/fit/surface/nextAcross.ts';
import { panelDraws, responseOfPanel } from '../../../src/fit/surface/panelDraws.ts';
import { panelMap } from '../../../src/fit/surface/panelMap.ts';
import type { PanelPlacement } from '../../../src/fit/surface/panelReadings.ts';
import { tiesOf } from '../../../src/fit/surface/ties.ts';
import { twistOf } from '../../../src/fit/surface/twist.ts';
import { seededNormals } from '../support.ts';
import { FIVE, readingsOn, round, sumOf, twisted } from './panelSupport.ts';
import type { Across, Surface } from './panelSupport.ts';

const STRETCH = [0, 1500] as const;
const T = { tolerance: 1.5, over: 1500 };
const flat = () => 0;

function panelOf(surface: Surface, u = 0.15, seed?: number, across = FIVE.across): Panel {
  const noise = seed === undefined ? undefined : seededNormals(seed);
  return fitted(readingsOn(surface, { ...FIVE, across }, u, noise));
}

function fitted(placements: readonly PanelPlacement[]): Panel {
  const panel = fitPanel(FIVE.lines, placements, 15);
  if (!panel.ok) throw new Error(panel.reason);
  return panel;
}

describe('areas of a panel', () => {
  it('finds a hollow that lies on three lines as one area, with its depth, place and extent', () => {
    const { areas, verdict } = areasOf(
      panelOf(round(-3, [600, 450], [220, 220]), 0.15, 7),
      STRETCH,
      T,
    );
    expect(verdict).toBe('hollow');
    expect(areas[0]).toMatchObject({ kind: 'hollow', proven: true, at: { line: 2 } });
    expect(Math.abs(areas[0].size - 3)).toBeLessThan(2 * areas[0].u);
    expect(Math.abs(areas[0].at.x - 600)).toBeLessThan(90);
    expect(areas[0].lines).toEqual([1, 2, 3]);
    expect(areas[0].y).toEqual([300, 600]);
  });

  it('sees a trough along the whole panel, which no line shows, under a straightedge laid athwart', () => {
    const trough: Surface = (_, y) => -3 * Math.exp(-(((y - 450) / 160) ** 2));
    const { areas } = areasOf(panelOf(trough, 0.15, 3), STRETCH, T);
    expect(areas[0]).toMatchObject({ kind: 'hollow', proven: true, shown: 'athwart' });
    expect(areas[0].x[1] - areas[0].x[0]).toBeGreaterThan(1200);
  });

  it('calls a flat panel fair, and mirrors hollow and hump', () => {
    expect(areasOf(panelOf(flat, 0.1, 5), STRETCH, T)).toMatchObject({
      verdict: 'fair',
      areas: [],
    });
    const hump = areasOf(panelOf(round(3, [600, 450], [220, 170])), STRETCH, T);
    const hollow = areasOf(panelOf(round(-3, [600, 450], [220, 170])), STRETCH, T);
    expect(hump.areas[0].kind).toBe('hump');
    expect(hump.areas[0].size).toBeCloseTo(hollow.areas[0].size, 9);
  });

  it('says nothing of a twist: under a straightedge fore and aft or athwart it is fair', () => {
    const panel = panelOf(twisted(4e-6), 0.1, 11);
    expect(areasOf(panel, STRETCH, T).verdict).toBe('fair');
    expect(twistOf(panel, STRETCH, T)?.verdict).toBe('twisted');
  });
});

describe('misclosure', () => {
  const readings = () =>
    readingsOn(round(-1, [700, 400], [250, 200]), FIVE, 0.15, seededNormals(21));

  it('lets good placements close, with as many checks as readings across less what ties take up', () => {
    const found = misclosureOf(fitted(readings()));
    // 5 placements over 5 lines; each takes 2, the lines 2 each, a plane is nobody's.
    expect(found.dof).toBe(25 - 10 - 10 + 3);
    expect(found.closes).toBe(true);
    expect(found.outlier).toBeUndefined();
  });

  it('points out the placement with a reading that cannot be, and no other', () => {
    const wrong = readings().map((p, i) =>
      i === 6 ? { ...p, gap: Array.from(p.gap, (g, k) => (k === 2 ? g + 3 : g)) } : p,
    );
    const found = misclosureOf(fitted(wrong));
    expect(found.closes).toBe(false);
    expect(found.outlier).toBe(6);
    expect(found.placements[6]?.normalised).toBeGreaterThan(4);
  });

  it('has no check where placements across are the least that tie', () => {
    const three: readonly Across[] = [
      [125, 125],
      [1375, 1375],
    ];
    expect(misclosureOf(panelOf(flat, 0.15, 1, three))).toMatchObject({ dof: 0, closes: true });
  });
});

describe('placements across that a panel needs', () => {
  it('are two athwart to tie its lines, and a diagonal to see a twist', () => {
    const across = (list: readonly Across[]) => readingsOn(flat, { ...FIVE, across: list }, 0.1);
    const athwart = [125, 750, 1375].map((x): Across => [x, x]);
    expect(leastAcross(5)).toEqual({ athwart: 2, diagonal: 1 });
    expect(leastAcross(2)).toEqual({ athwart: 0, diagonal: 0 });
    expect(tiesOf(FIVE.lines, across(athwart.slice(0, 1)))).toMatchObject({ tied: false });
    expect(tiesOf(FIVE.lines, across(athwart.slice(0, 2)))).toMatchObject({
      tied: true,
      twist: false,
    });
    expect(tiesOf(FIVE.lines, across(athwart))).toMatchObject({ tied: true, twist: false });
    const diagonal: Across = [250, 1250];
    expect(tiesOf(FIVE.lines, across([athwart[0], diagonal]))).toMatchObject({ tied: false });
    expect(tiesOf(FIVE.lines, across([athwart[0], athwart[2], diagonal]))).toEqual({
      tied: true,
      twist: true,
      open: 0,
    });
  });

  it('are worth what a fit with them turns out to know', () => {
    const panel = panelOf(flat, 0.2, 9, [
      [250, 250],
      [1250, 1250],
      [500, 1000],
    ]);
    const worth = worthAcross(panel, candidatesAcross(panel, STRETCH), 0.2);
    const [best] = worth;
    const worst = worth[worth.length - 1];
    const rmsWith = ({ inner, outer }: { inner: number; outer: number }) => {
      const laid = panelOf(flat, 0.2, 9, [
        [250, 250],
        [1250, 1250],
        [500, 1000],
        [inner, outer],
      ]);
      const { u } = panelMap(laid, STRETCH, { columns: 7, between: 0 });
      return Math.sqrt(u.reduce((sum, v) => sum + v * v, 0) / u.length);
    };
    expect(best.then).toBeLessThan(worst.then);
    expect(worst.then).toBeLessThan(worst.now);
    expect(rmsWith(best)).toBeLessThan(rmsWith(worst));
  });

  it('are diagonals where the twist is open', () => {
    const panel = panelOf(flat, 0.2, 9, [
      [250, 250],
      [1250, 1250],
    ]);
    const worth = worthAcross(panel, candidatesAcross(panel, STRETCH), 0.2);
    expect(worth.map(({ direction }) => direction)).toEqual(['diagonal', 'diagonal']);
  });
});

describe('agreement', () => {
  it('finds the neighbours that a ridge between them sets apart', () => {
    const step: Surface = (x, y) => (y > 500 ? 3 * Math.sin((x / 1500) * Math.PI) : 0);
    const found = neighboursOf(panelOf(step, 0.1, 4), STRETCH, 1.5);
    expect(found.map(({ verdict }) => verdict)).toEqual(['alike', 'alike', 'unlike', 'alike']);
    expect(Math.abs(found[2].size)).toBeGreaterThan(1.5);
  });

  it('finds a side that departs from the other, where, and not where both do alike', () => {
    const both = round(-2, [500, 450], [250, 200]);
    const port = panelOf(both, 0.1, 1);
    const same = panelOf(both, 0.1, 2);
    const more = panelOf(sumOf(both, round(3, [1000, 600], [250, 200])), 0.1, 3);
    const lines = FIVE.lines.map((_, i) => [i, i] as const);
    expect(comparePanels(port, same, lines, STRETCH, 1.5).verdict).toBe('alike');
    const unlike = comparePanels(port, more, lines, STRETCH, 1.5);
    expect(unlike).toMatchObject({ verdict: 'unlike', line: 3 });
    expect(unlike.size).toBeGreaterThan(1.5);
    expect(() => comparePanels(port, same, lines.slice(0, 1), STRETCH, 1.5)).toThrow(RangeError);
  });
});

describe('a panel’s map and draws', () => {
  it('leaves blank what was not read, on lines and between them', () => {
    const across = [
      [300, 300],
      [900, 900],
      [400, 800],
    ] as const;
    const x = [250, 375, 500, 625, 750, 1000];
    const short = readingsOn(flat, { ...FIVE, across }, 0.1).map((p, i) =>
      i === 4 ? { line: x.map(() => 4), x, gap: x.map(() => 0), u: x.map(() => 0.1) } : p,
    );
    const panel = fitPanel(FIVE.lines, short, 15);
    if (!panel.ok) throw new Error(panel.reason);
    const map = panelMap(panel, STRETCH, { columns: 13, between: 1 });
    const blanks = Array.from(map.y, (_, r) => map.blank.slice(r * 13, r * 13 + 13).join(''));
    expect(blanks[8].startsWith('11')).toBe(true);
    expect(blanks[7]).toBe(blanks[8]);
    expect(blanks[6]).toBe('0000000000000');
  });

  it('is surer on a line than between lines, and goes through the same heights', () => {
    const map = panelMap(panelOf(round(-2, [500, 450], [300, 200]), 0.1, 2), STRETCH, {
      columns: 5,
      between: 1,
    });
    expect(Array.from(map.line)).toEqual([0, -1, 1, -1, 2, -1, 3, -1, 4]);
    expect(map.u[3 * 5 + 2]).toBeGreaterThan(map.u[4 * 5 + 2]);
  });

  it('comes in mirrored pairs that the same readings always give', () => {
    const panel = panelOf(flat, 0.1, 2);
    const [a, b] = panelDraws(panel, 3, 4);
    expect(panelDraws(panel, 0, 4)[6]).toEqual(a);
    expect(a).not.toEqual(b);
  });

  it('shifts by a change of its readings as by fitting the changed ones', () => {
    const readings = readingsOn(flat, FIVE, 0.1);
    const panel = fitted(readings);
    const bow = (p: number, i: number) => (p < 5 ? 1e-6 * (readings[p].x[i] - 700) ** 2 : 0);
    const shifted = fitted(
      readings.map((r, p) => ({ ...r, gap: Array.from(r.gap, (g, i) => g + bow(p, i)) })),
    );
    const response = responseOfPanel(panel, bow);
    const map = panelMap(shifted, STRETCH, { columns: 13, between: 0 });
    const own = panelMap(panel, STRETCH, {
      columns: 13,
      between: 0,
      systematic: [{ name: 'a bow', shape: response, distribution: 'normal' }],
    });
    expect(Math.abs(map.z[6])).toBeGreaterThan(0.1);
    expect(own.u[6]).toBeGreaterThan(0.7 * Math.abs(map.z[6]));
  });
});
