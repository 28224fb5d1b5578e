import { pairedMoments } from '../pairedMoments.ts';
import type { SystematicMode } from '../systematic.ts';
import { bestPlane } from './bestPlane.ts';
import type { Panel } from './fitPanel.ts';
import { panelDraws, panelMean } from './panelDraws.ts';
import { lineHeights } from './panelSpace.ts';
import { readStretches, readThere } from './readStretches.ts';

/** How far a panel departs from its best plane, on a grid: row by row from the keel outwards, each row from aft forward.
 *  Rows lie on every line and between them; numbers on lines are the fit's own, between them a natural spline's. */
export interface PanelMap {
  /** Off the best plane; or off the best plane and twist, where no diagonal settles the twist. */
  readonly datum: Panel['datum'];
  readonly x: Float64Array;
  /** Places along the panel athwart. */
  readonly y: Float64Array;
  /** Index of the line that a row lies on; −1 between lines. */
  readonly line: Int32Array;
  /** z[row·x.length + column]: height off the plane, positive proud. */
  readonly z: Float64Array;
  /** Its standard uncertainty. */
  readonly u: Float64Array;
  /** 1 where nothing was read on this line, or on the lines to either side: to be left blank. */
  readonly blank: Uint8Array;
  /** Largest height less smallest, where read: the departure from flat in one figure. */
  readonly range: { readonly size: number; readonly u: number };
}

const PAIRS = 60;

export interface MapOptions {
  /** How many places along. */
  readonly columns?: number;
  /** Rows between neighbouring lines. */
  readonly between?: number;
  /** Places athwart of the rows themselves, ascending and within the lines. */
  readonly rows?: ArrayLike<number>;
  readonly systematic?: readonly SystematicMode[];
  /** Off which plane heights are told; off the best of all that was read where absent. */
  readonly level?: Level;
}

export interface Level {
  /** Indices of the lines that it is laid through, ascending. */
  readonly lines: readonly number[];
  /** Whether a station of one of them counts. */
  readonly counts: (line: number, x: number) => boolean;
  /** Whether the best twist is taken off too. */
  readonly twist: boolean;
}

/** The stretch is what is judged. */
export function panelMap(
  panel: Panel,
  [from, to]: readonly [number, number],
  { columns = 49, between = 3, rows: wanted, systematic = [], level }: MapOptions = {},
): PanelMap {
  const { space, components } = panel;
  const m = space.lines.length;
  const x = Float64Array.from(
    { length: columns },
    (_, i) => from + ((to - from) * i) / (columns - 1),
  );
  const heights = lineHeights(space, x);
  const read = readStretches(panel);
  const { lines, counts, twist } = level ?? {
    lines: Array.from(space.lines.keys()),
    counts: (line: number, at: number) => readThere(read, line, at),
    twist: panel.datum !== 'plane',
  };
  const laidThrough = Float64Array.from(lines, (i) => space.lines[i]);
  const nodes = { x: [] as number[], y: [] as number[], weight: [] as number[] };
  for (let i = 0; i < m; i++) {
    const own = lines.indexOf(i);
    const width = own < 0 ? 0 : breadth(laidThrough, own);
    for (const at of x) {
      nodes.x.push(at);
      nodes.y.push(space.lines[i]);
      nodes.weight.push(width > 0 && counts(i, at) ? width : 0);
    }
  }
  const flatten = bestPlane(nodes.x, nodes.y, nodes.weight, twist);
  const off = (c: Float64Array): Float64Array => {
    const z = new Float64Array(m * columns);
    for (let i = 0; i < m; i++) z.set(heights(c, i), i * columns);
    flatten(z);
    return z;
  };
  const mean = off(panelMean(panel));
  const draws = panelDraws(panel, 0, PAIRS, systematic).map(off);

  const rows = rowsAt(panel, wanted ?? placesBetween(space.lines, between));
  const scale = components.reduce((sum, c) => sum + c.weight * c.athwart ** 2, 0);
  const z = new Float64Array(rows.length * columns);
  const u = new Float64Array(rows.length * columns);
  const blank = new Uint8Array(rows.length * columns);
  const squares = new Float64Array(m * m * columns);
  // Half the difference of a mirrored pair is the draw's own deviation from its account's mean.
  for (const draw of draws) {
    for (let c = 0; c < columns; c++) {
      for (let i = 0; i < m; i++) {
        const a = draw[i * columns + c] - mean[i * columns + c];
        const at = (c * m + i) * m;
        for (let j = 0; j <= i; j++) {
          squares[at + j] += a * (draw[j * columns + c] - mean[j * columns + c]);
        }
      }
    }
  }
  rows.forEach(({ weights, open, beside }, r) => {
    for (let c = 0; c < columns; c++) {
      let height = 0;
      let variance = 0;
      for (let i = 0; i < m; i++) {
        height += weights[i] * mean[i * columns + c];
        const at = (c * m + i) * m;
        for (let j = 0; j <= i; j++) {
          variance += (i === j ? 1 : 2) * weights[i] * weights[j] * squares[at + j];
        }
      }
      z[r * columns + c] = height;
      u[r * columns + c] = Math.sqrt(Math.max(0, variance) / (draws.length - 1) + scale * open);
      blank[r * columns + c] = beside.every((i) => readThere(read, i, x[c])) ? 0 : 1;
    }
  });
  const range = pairedMoments(draws.map((draw) => rangeOf(draw, nodes.weight)));
  return {
    datum: twist ? 'plane and twist' : 'plane',
    x,
    y: Float64Array.from(rows, ({ y }) => y),
    line: Int32Array.from(rows, ({ line }) => line),
    z,
    u,
    blank,
    range: { size: rangeOf(mean, nodes.weight), u: range.deviation },
  };
}

interface Row {
  readonly y: number;
  readonly line: number;
  readonly weights: Float64Array;
  readonly open: number;
  /** The lines that it rests on. */
  readonly beside: readonly number[];
}

/** Places of the lines and so many between neighbours. */
export function placesBetween(lines: ArrayLike<number>, between: number): number[] {
  return Array.from(lines).flatMap((y, i, all) =>
    Array.from(
      { length: i + 1 < all.length ? between + 1 : 1 },
      (_, k) => y + (k === 0 ? 0 : ((all[i + 1] - y) * k) / (between + 1)),
    ),
  );
}

function rowsAt({ space }: Panel, places: ArrayLike<number>): readonly Row[] {
  const { lines, athwart } = space;
  const last = lines.length - 1;
  return Array.from(places, (y) => {
    const place = (y - lines[0]) / (lines[last] - lines[0]);
    const weights = athwart.weightsAt(place);
    const line = lines.indexOf(y);
    if (line >= 0) return { y, line, weights, open: 0, beside: [line] };
    const outer = lines.findIndex((each) => each > y);
    if (outer < 1) throw new RangeError(`${lines[0]}..${lines[last]} expected, got ${y}`);
    return { y, line: -1, weights, open: athwart.openAt(place), beside: [outer - 1, outer] };
  });
}

/** How much of the panel's width a line stands for. `lines`: in their order athwart, from either hand. */
export function breadth(lines: Float64Array, i: number): number {
  const inner = i > 0 ? lines[i] - lines[i - 1] : 0;
  const outer = i + 1 < lines.length ? lines[i + 1] - lines[i] : 0;
  return Math.abs(inner + outer) / 2;
}

function rangeOf(z: Float64Array, weight: readonly number[]): number {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < z.length; i++) {
    if (weight[i] === 0) continue;
    if (z[i] < low) low = z[i];
    if (z[i] > high) high = z[i];
  }
  return high - low;
}
