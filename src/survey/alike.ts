import { straightened } from '../fit/straightened.ts';
import type { LineAssessment } from './assessment.ts';

interface Curve {
  readonly side: string;
  readonly offset: number;
  readonly heights: readonly { readonly x: number; readonly z: number; readonly u: number }[];
}

/** Whether every line shows one and the same departure: at least three lines, each departing by more
 *  than half the tolerance, and none standing off their average by more than the readings explain. */
export function alikeEverywhere(lines: readonly LineAssessment[], tolerance: number): boolean {
  const curves = curvesOf(lines);
  return curves.length >= 3 && sameShape(curves, tolerance);
}

/** Whether each port line departs like the starboard line at its offset (within 10 mm). */
export function alikeInPairs(lines: readonly LineAssessment[], tolerance: number): boolean {
  const curves = curvesOf(lines);
  const port = curves.filter((c) => c.side === 'port');
  const pairs = port.flatMap((p) => {
    const other = curves.find((c) => c.side === 'starboard' && Math.abs(c.offset - p.offset) <= 10);
    return other ? [[p, other]] : [];
  });
  if (pairs.length === 0 || pairs.length < port.length) return false;
  const departing = pairs.filter(([p, s]) => departs(p, tolerance) || departs(s, tolerance));
  return departing.length > 0 && departing.every((pair) => sameShape(pair, tolerance));
}

function curvesOf(lines: readonly LineAssessment[]): Curve[] {
  return lines.flatMap(({ line, outcome }) =>
    outcome.ok
      ? [{ side: line.side, offset: line.offset, heights: outcome.judgement.profile }]
      : [],
  );
}

function departs({ heights }: Curve, tolerance: number): boolean {
  const z = heights.map((h) => h.z);
  return Math.max(...z) - Math.min(...z) > tolerance / 2;
}

/** Curves are compared where all of them were read, each against its own straight line there. */
function sameShape(curves: readonly Curve[], tolerance: number): boolean {
  const from = Math.max(...curves.map((c) => c.heights[0].x));
  const to = Math.min(...curves.map((c) => c.heights[c.heights.length - 1].x));
  if (!(to > from) || !curves.every((c) => departs(c, tolerance))) return false;
  const places = Array.from({ length: 41 }, (_, i) => from + ((to - from) * i) / 40);
  const rows = curves.map((c) =>
    straightened(
      places.map((x) => between(c, x)),
      places,
    ),
  );
  const spread = Math.max(
    ...places.map((_, i) => {
      const column = rows.map((row) => row[i]);
      return Math.max(...column) - Math.min(...column);
    }),
  );
  const size = Math.min(...rows.map((row) => Math.max(...row) - Math.min(...row)));
  const u = Math.max(...curves.map((c) => Math.max(...c.heights.map((h) => h.u))));
  return spread <= Math.min(2 * Math.SQRT2 * u, size / 2);
}

function between({ heights }: Curve, x: number): number {
  const i = Math.max(
    1,
    heights.findIndex((h) => h.x >= x - 1e-9),
  );
  const [a, b] = [heights[i - 1], heights[i]];
  return a.z + ((b.z - a.z) * (x - a.x)) / (b.x - a.x);
}
