import { straightened } from '../straightened.ts';
import type { ReadingColumns } from '../tied.ts';

/** Readings of one placement on a panel, each on one of its lines (by index, from the keel outwards) at a station x. On
 *  one line only, the straightedge lay fore and aft; on several, across: athwart at one station, or on the diagonal. */
export interface PanelPlacement extends ReadingColumns {
  readonly line: ArrayLike<number>;
}

/** Whether the straightedge lay across lines. */
export function liesAcross({ line }: Pick<PanelPlacement, 'line'>): boolean {
  for (let i = 1; i < line.length; i++) if (line[i] !== line[0]) return true;
  return false;
}

/** How many lines a placement crosses. */
export function linesCrossed({ line }: Pick<PanelPlacement, 'line'>): number {
  return new Set(Array.from(line)).size;
}

/** Throws RangeError on lengths that differ, on values that are not finite, and on lines that are none of `lines`. */
export function checkPanelPlacements(lines: number, placements: readonly PanelPlacement[]): void {
  for (const { line, x, gap, u } of placements) {
    const n = x.length;
    if (line.length !== n || gap.length !== n || u.length !== n) {
      throw new RangeError(
        `line, x, gap and u of one length expected, got ${line.length}, ${n}, ${gap.length}, ${u.length}`,
      );
    }
    for (let i = 0; i < n; i++) {
      if (!(Number.isInteger(line[i]) && line[i] >= 0 && line[i] < lines)) {
        throw new RangeError(`a line from 0 to ${lines - 1} expected, got ${line[i]}`);
      }
      if (!Number.isFinite(x[i]) || !Number.isFinite(gap[i]) || !(u[i] > 0 && u[i] < Infinity)) {
        throw new RangeError(
          `finite x and gap and a positive u expected, got ${x[i]}, ${gap[i]}, ${u[i]}`,
        );
      }
    }
  }
}

/** A straightedge is straight seen from below too: stations of a placement across that were written to the nearest mark are
 *  taken as those of the best straight line through them over the lines' places. Otherwise their rounding would pass for
 *  a tilt of the panel, which nobody can know. */
export function straightInPlan(
  lines: ArrayLike<number>,
  placement: PanelPlacement,
): PanelPlacement {
  if (!liesAcross(placement)) return placement;
  const { line, x } = placement;
  const y = Array.from(line, (i) => lines[i]);
  const off = straightened(x, y);
  return { ...placement, x: Array.from(x, (at, i) => at - off[i]) };
}
