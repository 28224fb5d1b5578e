import { cholesky, forward } from '../cholesky.ts';
import { dot } from '../functionals.ts';
import { forwardBand } from './bandSystem.ts';
import { bestPlane } from './bestPlane.ts';
import type { Panel } from './fitPanel.ts';
import { addReadingRow } from './panelSystem.ts';
import { breadth } from './panelMap.ts';
import { readStretches, readThere } from './readStretches.ts';
import { seesTwist } from './ties.ts';

/** A placement across that might be laid: at one station, or on the diagonal from one station to another. */
export interface Across {
  readonly direction: 'athwart' | 'diagonal';
  /** Its station on the innermost and on the outermost line. */
  readonly inner: number;
  readonly outer: number;
}

export interface AcrossWorth extends Across {
  /** Standard uncertainty of what is to be known better, root mean square: as it is, and with it. */
  readonly now: number;
  readonly then: number;
}

/** Placements across that a panel of so many lines needs before anything can be said of it as one surface. */
export function leastAcross(lines: number): {
  readonly athwart: number;
  readonly diagonal: number;
} {
  return lines < 3 ? { athwart: 0, diagonal: 0 } : { athwart: 2, diagonal: 1 };
}

const PLACES = 7;

/** What one more placement over all lines would do, best first, each reading as uncertain as `u`: from the posterior as it
 *  stands, since what a reading will say does not change what it is worth. A diagonal settles a twist that nothing else
 *  sees: where there is none, only diagonals are told, and `then` is of what lies beside the twist. Candidates beyond
 *  what was read of a line are left out. `wanted`: what is to be known better, as weights on the unknowns; without it,
 *  heights off the best plane all over the panel. */
export function worthAcross(
  panel: Panel,
  candidates: readonly Across[],
  u: number,
  wanted: readonly Float64Array[] = departureRows(panel),
): readonly AcrossWorth[] {
  const { space, system, components } = panel;
  const m = space.lines.length;
  const heaviest = components.reduce((a, b) => (b.weight > a.weight ? b : a));
  const { factor, noise } = heaviest;
  const unknowns = system.matrix.size + system.matrix.extra;
  const half = (row: Float64Array) => {
    forwardBand(factor, row);
    return row;
  };
  const figures = wanted.map((row) => half(Float64Array.from(row)));
  const now = figures.reduce((sum, f) => sum + noise * noise * dot(f, f), 0) / figures.length;
  const read = readStretches(panel);
  return candidates
    .flatMap((candidate) => {
      const x = Array.from(space.lines, (y) => {
        const share = (y - space.lines[0]) / (space.lines[m - 1] - space.lines[0]);
        return candidate.inner + share * (candidate.outer - candidate.inner);
      });
      if (!x.every((at, i) => readThere(read, i, at))) return [];
      const line = Array.from(x.keys());
      if (panel.datum !== 'plane' && !seesTwist(space.lines, { line, x })) return [];
      const rows = contrasts(space.lines).map((contrast) => {
        const row = new Float64Array(unknowns);
        contrast.forEach((w, i) => addReadingRow(space, { x: x[i], line: i }, undefined, w, row));
        return half(row);
      });
      const lower = cholesky(
        rows.map((p, a) =>
          Float64Array.from(rows, (q, b) => noise * noise * (dot(p, q) + (a === b ? u * u : 0))),
        ),
      );
      let gone = 0;
      for (const f of figures) {
        const shared = Float64Array.from(rows, (row) => noise * noise * dot(row, f));
        forward(lower, shared);
        gone += dot(shared, shared) / figures.length;
      }
      return [{ ...candidate, now: Math.sqrt(now), then: Math.sqrt(Math.max(0, now - gone)) }];
    })
    .sort((a, b) => a.then - b.then);
}

/** Athwart at so many stations evenly over what was read of every line, and the two diagonals. */
export function candidatesAcross(panel: Panel, [from, to]: readonly [number, number]): Across[] {
  const read = readStretches(panel);
  const low = Math.max(from, ...read.map(([a]) => a));
  const high = Math.min(to, ...read.map(([, b]) => b));
  const stations = Array.from({ length: 11 }, (_, i) => low + ((high - low) * i) / 10);
  return [
    ...stations.map((at): Across => ({ direction: 'athwart', inner: at, outer: at })),
    { direction: 'diagonal', inner: low, outer: high },
    { direction: 'diagonal', inner: high, outer: low },
  ];
}

/** Orthonormal contrasts of readings on lines that no offset and tilt of the straightedge changes. */
function contrasts(lines: Float64Array): Float64Array[] {
  const m = lines.length;
  const found: Float64Array[] = [
    Float64Array.from({ length: m }, () => 1),
    Float64Array.from(lines),
  ];
  for (let i = 0; i < m - 2; i++)
    found.push(Float64Array.from({ length: m }, (_, j) => (i === j ? 1 : 0)));
  const kept: Float64Array[] = [];
  for (const vector of found) {
    for (let pass = 0; pass < 2; pass++) {
      for (const before of kept) {
        const along = dot(vector, before);
        for (let j = 0; j < m; j++) vector[j] -= along * before[j];
      }
    }
    const size = Math.sqrt(dot(vector, vector));
    kept.push(vector.map((v) => v / size));
  }
  return kept.slice(2);
}

/** Height off the best plane at a few places of each line, as weights on the unknowns. */
function departureRows(panel: Panel): Float64Array[] {
  const { space, system, datum } = panel;
  const { lines, domain } = space;
  const size = system.matrix.size + system.matrix.extra;
  const read = readStretches(panel);
  const places = Array.from(lines.keys()).flatMap((line) =>
    Array.from({ length: PLACES }, (_, k) => {
      const x = domain[0] + ((domain[1] - domain[0]) * k) / (PLACES - 1);
      return { x, line, weight: readThere(read, line, x) ? breadth(lines, line) : 0 };
    }),
  );
  const told = places.filter(({ weight }) => weight > 0);
  const flatten = bestPlane(
    told.map(({ x }) => x),
    told.map(({ line }) => lines[line]),
    told.map(({ weight }) => weight),
    datum !== 'plane',
  );
  const plain = told.map((place) => {
    const row = new Float64Array(size);
    addReadingRow(space, place, undefined, 1, row);
    return row;
  });
  const taken = told.map((_, k) => {
    const unit = new Float64Array(told.length);
    unit[k] = 1;
    flatten(unit);
    return unit;
  });
  return told.map((_, at) => {
    const out = new Float64Array(size);
    taken.forEach((unit, k) => {
      for (let j = 0; j < size; j++) out[j] += unit[at] * plain[k][j];
    });
    return out;
  });
}
