import type { SystematicMode } from '../systematic.ts';
import type { Panel } from './fitPanel.ts';
import { linearFigure } from './linearFigure.ts';
import { breadth } from './panelMap.ts';
import { addReadingRow } from './panelSystem.ts';
import { readStretches, readThere } from './readStretches.ts';

/** An angle in degrees and its standard uncertainty. */
export interface AngleFound {
  readonly angle: number;
  readonly u: number;
}

/** How the best planes of two parts of one panel lie to one another, second less first. */
export interface Halves {
  /** Fore and aft: positive where the second stands out more towards the water the farther forward. */
  readonly along: AngleFound;
  /** Athwart: positive where the two open towards the water, as a trough does, negative where they fall away from it, as
   *  the sides of a vee do. */
  readonly athwart: AngleFound;
}

const PLACES = 13;

/** The parts are the lines up to `last` and those from `first` on, two at least each; over what was read of them within the
 *  stretch. Undefined where no diagonal was laid. Exact from the posterior: no draws. */
export function halvesOf(
  panel: Panel,
  { last, first }: { readonly last: number; readonly first: number },
  stretch: readonly [number, number],
  systematic: readonly SystematicMode[] = [],
): Halves | undefined {
  const all = Array.from(panel.space.lines.keys());
  const parts = [all.slice(0, last + 1), all.slice(first)];
  if (parts.some((part) => part.length < 2)) {
    const [before, after] = parts.map((part) => part.length);
    throw new RangeError(`2 lines or more on either hand expected, got ${before} and ${after}`);
  }
  if (panel.datum !== 'plane') return undefined;
  const [before, after] = parts.map((part) => slopesOf(panel, part, stretch));
  const angle = (which: 'along' | 'athwart') =>
    angleOf(
      panel,
      after[which].map((w, j) => w - before[which][j]),
      systematic,
    );
  return { along: angle('along'), athwart: angle('athwart') };
}

/** Slopes of the best plane over some lines, as weights on the unknowns. */
function slopesOf(
  panel: Panel,
  part: readonly number[],
  [from, to]: readonly [number, number],
): { readonly along: Float64Array; readonly athwart: Float64Array } {
  const { space, system } = panel;
  const read = readStretches(panel);
  const width = Float64Array.from(part, (i) => space.lines[i]);
  const nodes = part
    .flatMap((line, own) =>
      Array.from({ length: PLACES }, (_, k) => {
        const x = from + ((to - from) * k) / (PLACES - 1);
        return { x, y: width[own], line, weight: breadth(width, own) };
      }),
    )
    .filter(({ x, line }) => readThere(read, line, x));
  const whole = nodes.reduce((sum, { weight }) => sum + weight, 0);
  const [mx, my] = (['x', 'y'] as const).map(
    (of) => nodes.reduce((sum, node) => sum + node.weight * node[of], 0) / whole,
  );
  const moment = (of: (dx: number, dy: number) => number) =>
    nodes.reduce((sum, { x, y, weight }) => sum + weight * of(x - mx, y - my), 0);
  const xx = moment((dx) => dx * dx);
  const xy = moment((dx, dy) => dx * dy);
  const yy = moment((_, dy) => dy * dy);
  const area = xx * yy - xy * xy;
  const along = new Float64Array(system.matrix.size + system.matrix.extra);
  const athwart = new Float64Array(along.length);
  for (const { x, y, line, weight } of nodes) {
    const [dx, dy] = [x - mx, y - my];
    addReadingRow(space, { x, line }, undefined, (weight * (yy * dx - xy * dy)) / area, along);
    addReadingRow(space, { x, line }, undefined, (weight * (xx * dy - xy * dx)) / area, athwart);
  }
  return { along, athwart };
}

function angleOf(
  panel: Panel,
  weights: Float64Array,
  systematic: readonly SystematicMode[],
): AngleFound {
  let mean = 0;
  let square = 0;
  for (const { weight, centre, variance } of linearFigure(panel, weights, systematic)) {
    mean += weight * centre;
    square += weight * (variance + centre * centre);
  }
  const degrees = 180 / Math.PI;
  return { angle: mean * degrees, u: Math.sqrt(Math.max(0, square - mean * mean)) * degrees };
}
