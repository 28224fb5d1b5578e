import { describe, expect, it } from 'vitest';
import { fitPanel } from '../../../src/fit/surface/fitPanel.ts';
import { straightInPlan } from '../../../src/fit/surface/panelReadings.ts';
import { lineWanting, seesTwist, tellingAcross, tiesOf } from '../../../src/fit/surface/ties.ts';
import { FIVE, readingsOn } from './panelSupport.ts';

const LINES = [107.77, 300.3, 455, 600, 755.1];
const EVERY = LINES.map((_, i) => i);
const last = LINES.length - 1;
/** A straightedge over some lines, at a station of the innermost and one of the outermost line of all. */
const over = (line: readonly number[], inner: number, outer: number) => ({
  line,
  x: line.map((i) => inner + ((outer - inner) * (LINES[i] - LINES[0])) / (LINES[last] - LINES[0])),
});
const all = (inner: number, outer: number) => over(EVERY, inner, outer);

describe('a straightedge across', () => {
  it('sees a twist on a diagonal over three lines or more, either way and however far off stations are counted', () => {
    for (const from of [0, -700, 2e5]) {
      expect(seesTwist(LINES, all(from + 250, from + 1250))).toBe(true);
      expect(seesTwist(LINES, all(from + 1250, from + 250))).toBe(true);
      expect(seesTwist(LINES, over([1, 2, 4], from + 600, from + 601))).toBe(true);
    }
  });

  it('sees none athwart, wherever: not even where stations differ by rounding', () => {
    for (let i = 0; i < 100; i++) {
      const at = 1500 * ((i * 0.6180339) % 1);
      const { line, x } = all(at, at);
      const laid = straightInPlan(LINES, { line, x, gap: x, u: x });
      expect(seesTwist(LINES, laid)).toBe(false);
    }
    expect(seesTwist(LINES, all(0, 0))).toBe(false);
  });

  it('sees none over two lines, which it fits whatever they are', () => {
    expect(seesTwist(LINES, over([0, 4], 250, 1250))).toBe(false);
    expect(seesTwist(LINES, over([3, 1], 250, 1250))).toBe(false);
  });

  it('tells something of three lines or more alone', () => {
    const [two, three, five] = [over([0, 4], 0, 9), over([0, 2, 4], 0, 9), all(5, 5)];
    expect(tellingAcross([two, three, five])).toEqual([three, five]);
  });
});

describe('what placements across settle', () => {
  it('is counted alike wherever stations are counted from and in whatever unit', () => {
    for (const unit of [1, 1e-3, 40]) {
      for (const from of [0, -900, 1e4]) {
        const at = (inner: number, outer: number) => {
          const { line, x } = all(inner, outer);
          return { line, x: x.map((each) => unit * (from + each)) };
        };
        const counted = (...across: readonly (readonly [number, number])[]) =>
          tiesOf(
            LINES.map((y) => unit * y),
            across.map(([inner, outer]) => at(inner, outer)),
          );
        // Ten unknowns of five lines; each placement settles five and brings two, a plane and a twist stay.
        expect(counted([500, 500])).toEqual({ tied: false, twist: false, open: 4 });
        expect(counted([200, 200], [900, 900])).toEqual({ tied: true, twist: false, open: 1 });
        expect(counted([200, 200], [250, 1250])).toEqual({ tied: false, twist: false, open: 1 });
        expect(counted([200, 200], [900, 900], [250, 1250])).toEqual({
          tied: true,
          twist: true,
          open: 0,
        });
        expect(counted([250, 1250], [1250, 250], [100, 900])).toMatchObject({ twist: true });
      }
    }
  });

  it('is nothing where the same straightedge is laid again, or one over two lines', () => {
    const once = tiesOf(LINES, [all(500, 500)]);
    expect(tiesOf(LINES, [all(500, 500), all(500, 500)])).toEqual(once);
    expect(tiesOf(LINES, [all(500, 500), over([1, 3], 250, 1250)])).toEqual(once);
  });

  it('is settled by placements over three lines each, as long as every line is held twice', () => {
    const [inner, outer] = [over([0, 1, 2], 0, 0), over([2, 3, 4], 0, 0)];
    const fore = [over([0, 1, 2], 900, 900), over([2, 3, 4], 900, 900)];
    expect(tiesOf(LINES, [inner, outer, ...fore])).toMatchObject({ tied: false });
    const overlapping = [0, 900].flatMap((at) => [
      over([0, 1, 2], at, at),
      over([1, 2, 3], at, at),
      over([2, 3, 4], at, at),
    ]);
    expect(tiesOf(LINES, overlapping)).toEqual({ tied: true, twist: false, open: 1 });
  });

  it('does not refuse a panel whose athwart stations are no round figures', () => {
    const layout = { lines: LINES, stations: FIVE.stations };
    for (const across of [
      [135.25425, 708.2034, 1281.1525],
      [489.356, 1062.305, 1416.407],
    ]) {
      const laid = across.map((at) => [at, at] as const);
      const panel = fitPanel(
        LINES,
        readingsOn(() => 0, { ...layout, across: laid }, 0.15),
        15,
      );
      expect(panel).toMatchObject({ ok: true, datum: 'plane and twist' });
    }
  });
});

describe('the line that wants stations of its own', () => {
  const along = (line: number, x: readonly number[]) => ({ line: x.map(() => line), x });

  it('is the first with fewer different ones than needed, from straightedges laid along it', () => {
    const placements = [along(0, [0, 1, 2]), along(1, [0, 1]), along(1, [1, 1, 2]), all(3, 3)];
    expect(lineWanting(2, placements, 3)).toBeUndefined();
    expect(lineWanting(2, placements, 4)).toBe(0);
    expect(lineWanting(3, placements, 3)).toBe(2);
    expect(lineWanting(2, [along(0, [0, 1, 2]), along(1, [0, 1, 1])], 3)).toBe(1);
  });
});
