import { describe, expect, it } from 'vitest';
import {
  checkPanelPlacements,
  liesAcross,
  linesCrossed,
  straightInPlan,
} from '../../../src/fit/surface/panelReadings.ts';

const good = { line: [0, 1, 2], x: [0, 1, 2], gap: [3, 4, 5], u: [0.1, 0.1, 0.1] };

describe('a placement on a panel', () => {
  it('lies across where its readings are on more than one line', () => {
    expect(liesAcross({ line: [] })).toBe(false);
    expect(liesAcross({ line: [2, 2, 2] })).toBe(false);
    expect(liesAcross({ line: [2, 2, 1] })).toBe(true);
    expect([[], [2, 2], [0, 2, 0, 1]].map((line) => linesCrossed({ line }))).toEqual([0, 1, 3]);
  });

  it('is refused, by what was found, where its columns are not of one length', () => {
    for (const [wrong, lengths] of [
      [{ line: [0, 1] }, '2, 3, 3, 3'],
      [{ x: [0, 1, 2, 3] }, '3, 4, 3, 3'],
      [{ gap: [] }, '3, 3, 0, 3'],
      [{ u: [1] }, '3, 3, 3, 1'],
    ] as const) {
      expect(() => {
        checkPanelPlacements(3, [good, { ...good, ...wrong }]);
      }).toThrow(`line, x, gap and u of one length expected, got ${lengths}`);
    }
    expect(() => {
      checkPanelPlacements(3, [good]);
    }).not.toThrow();
  });

  it('is refused where a reading is on a line that is none', () => {
    for (const line of [-1, 3, 1.5, NaN]) {
      expect(() => {
        checkPanelPlacements(3, [{ ...good, line: [0, line, 2] }]);
      }).toThrow(`a line from 0 to 2 expected, got ${line}`);
    }
  });

  it('is refused where a reading is no figure or says that it is exact or knows nothing', () => {
    for (const [wrong, told] of [
      [{ x: [0, NaN, 2] }, 'NaN, 4, 0.1'],
      [{ gap: [3, Infinity, 5] }, '1, Infinity, 0.1'],
      [{ u: [0.1, 0, 0.1] }, '1, 4, 0'],
      [{ u: [0.1, -1, 0.1] }, '1, 4, -1'],
      [{ u: [0.1, Infinity, 0.1] }, '1, 4, Infinity'],
    ] as const) {
      expect(() => {
        checkPanelPlacements(3, [{ ...good, ...wrong }]);
      }).toThrow(`finite x and gap and a positive u expected, got ${told}`);
    }
  });
});

describe('stations that were written to the nearest mark', () => {
  it('are those of the best straight line over the lines’ places', () => {
    // Places 0, 100, 300 and stations 1000, 1251, 1750: by hand, slope 2.5 and what is left of it.
    const lines = [0, 100, 300];
    const x = [1000, 1251, 1750];
    const laid = straightInPlan(lines, { ...good, x });
    const slope =
      ((x[1] - x[0]) * (100 - 0) +
        (x[2] - x[0]) * (300 - 0) -
        (400 / 3) * (x[1] + x[2] - 2 * x[0])) /
      (100 ** 2 + 300 ** 2 - 400 ** 2 / 3);
    const level = (x[0] + x[1] + x[2]) / 3;
    lines.forEach((y, i) => expect(laid.x[i]).toBeCloseTo(level + slope * (y - 400 / 3), 9));
    expect(Math.abs(laid.x[1] - 1251)).toBeGreaterThan(0.1);
    expect(laid).toMatchObject({ line: good.line, gap: good.gap, u: good.u });
  });

  it('are left as they are along a line', () => {
    const along = { ...good, line: [1, 1, 1] };
    expect(straightInPlan([0, 100, 300], along)).toBe(along);
  });
});
