import { straightened } from '../straightened.ts';
import { liesAcross, linesCrossed, type PanelPlacement } from './panelReadings.ts';

/** What placements across settle, whatever the lines' shapes are. */
export interface Ties {
  /** Whether every line's height and tilt is settled against the others', up to a plane and a twist. */
  readonly tied: boolean;
  /** Whether the twist is settled too, which takes a diagonal over three lines or more. */
  readonly twist: boolean;
  /** How many heights, tilts and the twist are left open beyond a plane. */
  readonly open: number;
}

/** Rounding in the elimination of places scaled to 0..1. */
const NONE = 1e-7;

/** Counts what is left open when every line is known up to a straight line, and every placement across is a straight line
 *  of its own: the rank of that network's equations. A placement over two lines settles nothing.
 *  lines: places athwart, ascending. */
export function tiesOf(
  lines: ArrayLike<number>,
  placements: readonly Pick<PanelPlacement, 'line' | 'x'>[],
): Ties {
  const m = lines.length;
  const across = placements.filter(liesAcross);
  const stations = across.flatMap(({ x }) => Array.from(x));
  const low = Math.min(...stations);
  const span = Math.max(...stations) - low || 1;
  const unknowns = 2 * m + 2 * across.length;
  const rows: Float64Array[] = across.flatMap(({ line, x }, p) =>
    Array.from(line, (i, k) => {
      const row = new Float64Array(unknowns);
      row[2 * i] = 1;
      row[2 * i + 1] = (x[k] - low) / span;
      row[2 * m + 2 * p] = -1;
      row[2 * m + 2 * p + 1] = -(lines[i] - lines[0]) / (lines[m - 1] - lines[0]);
      return row;
    }),
  );
  const open = unknowns - rankOf(rows, unknowns);
  const twist = open <= 3;
  return {
    tied: twist || (open === 4 && !across.some((placement) => seesTwist(lines, placement))),
    twist,
    open: open - 3,
  };
}

/** Whether a panel that is only twisted would show a gap under it: a straightedge on a diagonal over three lines or more. */
export function seesTwist(
  lines: ArrayLike<number>,
  { line, x }: Pick<PanelPlacement, 'line' | 'x'>,
): boolean {
  const n = line.length;
  const y = Array.from(line, (i) => lines[i]);
  const middle = y.reduce((sum, v) => sum + v, 0) / n;
  const level = Array.from(x).reduce((sum, v) => sum + v, 0) / n;
  const twisted = y.map((v, i) => (v - middle) * (x[i] - level));
  const off = straightened(twisted, y);
  // Against the stations themselves: one that is only athwart to rounding would else pass for a diagonal.
  const size = (lines[lines.length - 1] - lines[0]) * Math.max(...Array.from(x, Math.abs));
  return Math.max(...off.map(Math.abs)) > NONE * size;
}

function rankOf(rows: readonly Float64Array[], width: number): number {
  const left = rows.map((row) => Float64Array.from(row));
  let rank = 0;
  for (let column = 0; column < width && rank < left.length; column++) {
    let at = rank;
    for (let r = rank + 1; r < left.length; r++) {
      if (Math.abs(left[r][column]) > Math.abs(left[at][column])) at = r;
    }
    if (Math.abs(left[at][column]) < NONE) continue;
    [left[rank], left[at]] = [left[at], left[rank]];
    const pivot = left[rank];
    for (let r = rank + 1; r < left.length; r++) {
      const share = left[r][column] / pivot[column];
      if (share === 0) continue;
      for (let c = column; c < width; c++) left[r][c] -= share * pivot[c];
    }
    rank++;
  }
  return rank;
}

/** The first line with fewer stations of its own than `needed`, from straightedges laid along it. */
export function lineWanting(
  lines: number,
  placements: readonly Pick<PanelPlacement, 'line' | 'x'>[],
  needed: number,
): number | undefined {
  const stations = Array.from({ length: lines }, () => new Set<number>());
  for (const placement of placements) {
    if (liesAcross(placement)) continue;
    for (let i = 0; i < placement.x.length; i++) {
      stations[placement.line[i]].add(placement.x[i]);
    }
  }
  const found = stations.findIndex((seen) => seen.size < needed);
  return found < 0 ? undefined : found;
}

/** Placements across that say something: those over three lines or more. */
export function tellingAcross<P extends Pick<PanelPlacement, 'line'>>(
  placements: readonly P[],
): readonly P[] {
  return placements.filter((placement) => linesCrossed(placement) >= 3);
}
