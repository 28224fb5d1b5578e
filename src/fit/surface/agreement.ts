import { pairedMoments } from '../pairedMoments.ts';
import { PROVEN } from '../proven.ts';
import { straightened } from '../straightened.ts';
import type { SystematicMode } from '../systematic.ts';
import { bestPlane } from './bestPlane.ts';
import type { Panel } from './fitPanel.ts';
import { panelDraws } from './panelDraws.ts';
import { breadth } from './panelMap.ts';
import { lineHeights } from './panelSpace.ts';
import { readStretches, readThere } from './readStretches.ts';

/** How two shapes compare, both free of what nobody can know of them. */
export interface Agreement {
  /** Largest difference of the means, second less first, with its standard uncertainty and where. */
  readonly size: number;
  readonly u: number;
  readonly at: number;
  /** Which of the lines compared, where there are more than one. */
  readonly line?: number;
  readonly verdict: 'alike' | 'unlike' | 'undecided';
}

const PLACES = 33;
const PAIRS = 150;

/** Each line against the next outwards: their difference less its straight line, over what was read of both. Unlike where
 *  at some station the difference is beyond the tolerance at 97.5 %; alike where it stays within it everywhere at that. */
export function neighboursOf(
  panel: Panel,
  [from, to]: readonly [number, number],
  tolerance: number,
): readonly (Agreement & { readonly inner: number; readonly outer: number })[] {
  const read = readStretches(panel);
  const draws = panelDraws(panel, 0, PAIRS);
  return Array.from({ length: panel.space.lines.length - 1 }, (_, i) => {
    const low = Math.max(from, read[i][0], read[i + 1][0]);
    const high = Math.min(to, read[i][1], read[i + 1][1]);
    if (!(high > low)) return [];
    const x = evenly(low, high);
    const heights = lineHeights(panel.space, x);
    const off = draws.map((c) => {
      const inner = heights(c, i);
      return straightened(
        heights(c, i + 1).map((z, k) => z - inner[k]),
        x,
      );
    });
    return [{ inner: i, outer: i + 1, ...compared(off, x, 1, tolerance) }];
  }).flat();
}

/** One panel against another on lines that answer to each other, such as port against starboard, or this season against
 *  the last: difference of their departures, each off its best plane over those lines, where both were read. Where either
 *  has no diagonal the twist is taken off both. `lines`: indices in each, pair by pair, at least 2, the same places athwart. */
export function comparePanels(
  first: Panel,
  second: Panel,
  lines: readonly (readonly [number, number])[],
  [from, to]: readonly [number, number],
  tolerance: number,
  {
    firstSystematic = [],
    secondSystematic = [],
  }: {
    readonly firstSystematic?: readonly SystematicMode[];
    readonly secondSystematic?: readonly SystematicMode[];
  } = {},
): Agreement {
  if (lines.length < 2) throw new RangeError(`at least 2 lines expected, got ${lines.length}`);
  const x = evenly(from, to);
  const read = [first, second].map(readStretches);
  const counts = lines.flatMap((pair) =>
    x.map((at) => pair.every((i, side) => readThere(read[side], i, at))),
  );
  const off = [first, second].map((panel, side) => {
    const own = lines.map((pair) => pair[side]);
    const places = own.map((i) => panel.space.lines[i]);
    const width = Float64Array.from(places);
    const flatten = bestPlane(
      own.flatMap(() => x),
      places.flatMap((y) => x.map(() => y)),
      own.flatMap((_, p) => x.map((_, k) => (counts[p * x.length + k] ? breadth(width, p) : 0))),
      [first, second].some(({ datum }) => datum !== 'plane'),
    );
    const heights = lineHeights(panel.space, x);
    const modes = side === 0 ? firstSystematic : secondSystematic;
    return panelDraws(panel, side * PAIRS, (side + 1) * PAIRS, modes).map((c) => {
      const z = Float64Array.from(own.flatMap((i) => Array.from(heights(c, i))));
      flatten(z);
      return z;
    });
  });
  // Of what either did not read nothing is told: no difference there.
  const difference = off[1].map((z, d) => z.map((v, k) => (counts[k] ? v - off[0][d][k] : 0)));
  return compared(difference, x, lines.length, tolerance);
}

/** The halves of one panel against one another, one seen in the mirror of the other: the second's departure from its own
 *  best plane less the first's, both out of the same draws. `pairs`: lines of the first and of the second that answer to
 *  each other, two at least, the same distances from the middle. Where no diagonal was laid the twist is taken off both. */
export function compareHalves(
  panel: Panel,
  pairs: readonly (readonly [number, number])[],
  [from, to]: readonly [number, number],
  tolerance: number,
  systematic: readonly SystematicMode[] = [],
): Agreement {
  if (pairs.length < 2) throw new RangeError(`at least 2 pairs expected, got ${pairs.length}`);
  const x = evenly(from, to);
  const read = readStretches(panel);
  const width = Float64Array.from(pairs, ([, i]) => panel.space.lines[i]);
  const counts = pairs.flatMap((pair) => x.map((at) => pair.every((i) => readThere(read, i, at))));
  const flatten = bestPlane(
    pairs.flatMap(() => x),
    pairs.flatMap((_, p) => x.map(() => width[p])),
    pairs.flatMap((_, p) => x.map((_, k) => (counts[p * x.length + k] ? breadth(width, p) : 0))),
    panel.datum !== 'plane',
  );
  const heights = lineHeights(panel.space, x);
  const off = panelDraws(panel, 0, PAIRS, systematic).map((c) => {
    const difference = Float64Array.from(
      pairs.flatMap(([i, j]) => {
        const first = heights(c, i);
        return Array.from(heights(c, j), (z, k) => z - first[k]);
      }),
    );
    flatten(difference);
    // Of what either did not read nothing is told: no difference there.
    return difference.map((v, k) => (counts[k] ? v : 0));
  });
  return compared(off, x, pairs.length, tolerance);
}

function evenly(from: number, to: number): number[] {
  return Array.from({ length: PLACES }, (_, i) => from + ((to - from) * i) / (PLACES - 1));
}

function compared(
  draws: readonly Float64Array[],
  x: readonly number[],
  lines: number,
  tolerance: number,
): Agreement {
  const n = draws[0].length;
  let most = { size: 0, u: 0, place: 0 };
  let surest = 0;
  for (let place = 0; place < n; place++) {
    const values = draws.map((z) => z[place]);
    const { mean, deviation } = pairedMoments(values);
    if (place === 0 || Math.abs(mean) > Math.abs(most.size)) {
      most = { size: mean, u: deviation, place };
    }
    const above = values.filter((v) => v > tolerance).length;
    const below = values.filter((v) => v < -tolerance).length;
    surest = Math.max(surest, above / values.length, below / values.length);
  }
  const within = draws.filter((z) => z.every((v) => Math.abs(v) <= tolerance)).length;
  return {
    size: most.size,
    u: most.u,
    at: x[most.place % x.length],
    ...(lines > 1 && { line: Math.floor(most.place / x.length) }),
    verdict: surest >= PROVEN ? 'unlike' : within / draws.length >= PROVEN ? 'alike' : 'undecided',
  };
}
