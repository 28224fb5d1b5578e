import { describe, expect, it } from 'vitest';
import { comparePanels } from '../../../src/fit/surface/agreement.ts';
import { changeMap } from '../../../src/fit/surface/changeMap.ts';
import type { Panel } from '../../../src/fit/surface/fitPanel.ts';
import { panelMean } from '../../../src/fit/surface/panelDraws.ts';
import type { PanelPlacement } from '../../../src/fit/surface/panelReadings.ts';
import type { SystematicMode } from '../../../src/fit/systematic.ts';
import { seededNormals } from '../support.ts';
import { ALL, before, dent, dentOff, fitted, STRETCH } from './changeSupport.ts';
import { FIVE, readingsOn, round, sumOf, twisted } from './panelSupport.ts';

describe('the map of what changed on a panel', () => {
  const was = fitted(readingsOn(before, FIVE, 1e-5));

  it('is, without noise, the change itself off its best plane, to rounding, whatever the placements stood at', () => {
    const tilt = (x: number, y: number) => 4 + 0.003 * x - 0.002 * y;
    const is = fitted(readingsOn(sumOf(before, dent, tilt), FIVE, 1e-5));
    const { z, line, datum } = changeMap(was, is, ALL, STRETCH, { columns: 13, between: 0 });
    expect(datum).toBe('plane');
    expect(Array.from(line)).toEqual([0, 1, 2, 3, 4]);
    dentOff(FIVE.lines).forEach((wanted, i) => expect(Math.abs(z[i] - wanted)).toBeLessThan(1e-6));
  });

  it('turns its signs with the surveys, and keeps its uncertainty', () => {
    const one = fitted(readingsOn(before, FIVE, 0.2, seededNormals(1)));
    const two = fitted(readingsOn(sumOf(before, dent), FIVE, 0.2, seededNormals(2)));
    const { z, u } = changeMap(one, two, ALL, STRETCH, { columns: 13, between: 0 });
    const back = changeMap(two, one, ALL, STRETCH, { columns: 13, between: 0 });
    expect(Array.from(back.z, (v) => -v)).toEqual(Array.from(z));
    expect(back.u).toEqual(u);
  });

  it('leaves the twist out where one of the two has no diagonal', () => {
    const athwart = FIVE.across.slice(0, 3);
    const is = fitted(
      readingsOn(sumOf(before, dent, twisted(4e-6)), { ...FIVE, across: athwart }, 1e-5),
    );
    const { z, datum } = changeMap(was, is, ALL, STRETCH, { columns: 13, between: 0 });
    expect(datum).toBe('plane and twist');
    dentOff(FIVE.lines, true).forEach((wanted, i) => {
      expect(Math.abs(z[i] - wanted)).toBeLessThan(1e-6);
    });
  });

  it('is laid over the lines that both have, and finds the same places between them', () => {
    const lines = [150, 300, 375, 450, 600, 750];
    const layout = { ...FIVE, lines };
    const is = fitted(readingsOn(sumOf(before, dent), layout, 1e-5), lines);
    const pairs = [0, 1, 2, 3, 4].map((i) => [i, i < 2 ? i : i + 1] as const);
    const { y, line, z } = changeMap(was, is, pairs, STRETCH, { columns: 13, between: 1 });
    expect(Array.from(line)).toEqual([0, -1, 1, -1, 2, -1, 3, -1, 4]);
    expect(y[3]).toBe(375);
    const wanted = dentOff(FIVE.lines);
    for (let k = 0; k < 13; k++) expect(z[4 * 13 + k]).toBeCloseTo(wanted[2 * 13 + k], 5);
  });

  it('is less sure by what may have bent each of the two, each in its own lines', () => {
    const lines = [150, 300, 375, 450, 600, 750];
    const is = fitted(readingsOn(before, { ...FIVE, lines }, 1e-5), lines);
    const pairs = [0, 1, 2, 3, 4].map((i) => [i, i < 2 ? i : i + 1] as const);
    const bent = (panel: Panel): SystematicMode => ({
      name: 'bow',
      shape: Float64Array.from(panelMean(panel), (_, j) => Math.sin(j)),
      distribution: 'normal',
    });
    const variances = (options: Parameters<typeof changeMap>[4]) =>
      Array.from(
        changeMap(was, is, pairs, STRETCH, { columns: 13, between: 0, ...options }).u,
        (u) => u * u,
      );
    const none = variances({});
    const first = variances({ firstSystematic: [bent(was)] });
    const second = variances({ secondSystematic: [bent(is)] });
    const both = variances({ firstSystematic: [bent(was)], secondSystematic: [bent(is)] });
    expect(Math.max(...none)).toBeLessThan(1e-6);
    expect(Math.max(...first)).toBeGreaterThan(0.01);
    expect(Math.max(...second)).toBeGreaterThan(0.01);
    both.forEach((v, i) => expect(v).toBeCloseTo(first[i] + second[i] - none[i], 9));
  });

  it('takes two lines, and refuses one', () => {
    const two = changeMap(was, was, ALL.slice(0, 2), STRETCH, { columns: 13, between: 0 });
    expect(Array.from(two.line)).toEqual([0, 1]);
    expect(() => changeMap(was, was, ALL.slice(0, 1), STRETCH)).toThrow(
      'at least 2 lines expected, got 1',
    );
  });

  it('is blank where either was not read, and nothing is said to differ there', () => {
    const x = [250, 375, 500, 625, 750, 1000];
    const across = [
      [300, 300],
      [900, 900],
      [400, 800],
    ] as const;
    const short = (placements: readonly PanelPlacement[]) =>
      placements.map((p, i) =>
        i === 4
          ? { line: x.map(() => 4), x, gap: x.map((at) => -before(at, 750)), u: x.map(() => 0.1) }
          : p,
      );
    const is = fitted(short(readingsOn(before, { ...FIVE, across }, 0.1)));
    const { blank, y } = changeMap(was, is, ALL, STRETCH, { columns: 13, between: 1 });
    const rows = Array.from(y, (_, r) => blank.slice(r * 13, r * 13 + 13).join(''));
    expect(rows[8]).toBe('1100000001111');
    expect(rows[7]).toBe(rows[8]);
    expect(rows[6]).toBe('0000000000000');
    const aside = sumOf(before, round(-8, [1450, 750], [120, 60]));
    const other = fitted(readingsOn(aside, FIVE, 0.1));
    const found = comparePanels(other, is, ALL, STRETCH, 1.5);
    expect(found.line === 4 && found.at > 1000).toBe(false);
  });
});
