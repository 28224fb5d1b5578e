import { STATIONS_A_LINE } from '../../fit/surface/fitPanel.ts';
import { leastAcross } from '../../fit/surface/nextAcross.ts';
import { tiesOf } from '../../fit/surface/ties.ts';
import type { AcrossSide, Direction, Side, Typed } from '../survey.ts';
import { fromInside, placeAthwart } from './placeAthwart.ts';

/** A line, before or while straightedges are laid across it. */
export interface CrossedLine {
  readonly id: string;
  readonly name: string;
  readonly side: Side;
  /** From the keel along the bottom, mm. */
  readonly offset: number;
  /** Where it is marked: stations that are planned, and those that were read along it. */
  readonly marks: readonly Typed[];
  /** At how many stations it was read along itself. */
  readonly read: number;
}

/** A placement across as far as it has come. */
export interface LaidAcross {
  readonly id: string;
  readonly direction: Direction;
  /** Lines that it was laid to cross, or of which something was said. */
  readonly lines: readonly string[];
  /** What was read, by line; stations in mm. */
  readonly met: readonly { readonly line: string; readonly station: number }[];
}

/** A placement across that would help: its stations on the innermost and on the outermost of its lines; right
 *  across the keel, on the outermost to port and to starboard. */
export interface WantedAcross {
  readonly direction: Direction;
  readonly inner: Typed;
  readonly outer: Typed;
}

/** What ties the lines of a panel to one another, said before anything is laid across and while it is. */
export interface TiePlan {
  readonly side: AcrossSide;
  /** From the keel outwards; across it from port to starboard. */
  readonly lines: readonly CrossedLine[];
  /** Lines that are read at too few stations of their own to be part of a surface. */
  readonly unread: readonly CrossedLine[];
  readonly least: { readonly athwart: number; readonly diagonal: number };
  /** Those that cross two lines of it or more. */
  readonly laid: readonly LaidAcross[];
  /** The fewest that still tie it, the one to lay next first. */
  readonly missing: readonly WantedAcross[];
  /** `heights`: tied but for a twist, for which no diagonal was laid. */
  readonly is: 'too few lines' | 'open' | 'heights' | 'tied';
}

/** However the lines are crossed, so many more over all of them tie any panel. */
const ENOUGH = 4;

/** The panels of one side: lines that placements across share make one; a side that none crosses is one as a whole, and
 *  so is one of which only two lines are crossed, since that says nothing. Lines in any order; what lies elsewhere is
 *  no part of it. */
export function tiePlans(
  side: TiePlan['side'],
  lines: readonly CrossedLine[],
  laid: readonly LaidAcross[],
): readonly TiePlan[] {
  const outward = [...lines].sort(fromInside(side));
  const groups = groupsOf(outward, laid).filter((group) => group.length >= 3);
  if (groups.length === 0) return [tiePlan(side, outward, laid)];
  return groups.map((group) => tiePlan(side, group, laid));
}

function groupsOf(
  lines: readonly CrossedLine[],
  laid: readonly LaidAcross[],
): readonly (readonly CrossedLine[])[] {
  const group = new Map(lines.map(({ id }, i) => [id, i]));
  for (const placement of laid) {
    const met = placement.lines.flatMap((id) => group.get(id) ?? []);
    for (const [id, g] of group) if (met.includes(g)) group.set(id, met[0]);
  }
  const all = [...new Set(group.values())];
  return all.map((g) => lines.filter(({ id }) => group.get(id) === g));
}

/** All lines as one panel, whatever was laid so far. Lines in their order athwart. */
export function tiePlan(
  side: TiePlan['side'],
  lines: readonly CrossedLine[],
  all: readonly LaidAcross[],
): TiePlan {
  const place = new Map(lines.map(({ id }, i) => [id, i]));
  const netOf = ({ met }: LaidAcross) => {
    const own = met.flatMap(({ line, station }) => {
      const at = place.get(line);
      return at === undefined ? [] : [{ at, station }];
    });
    return { line: own.map(({ at }) => at), x: own.map(({ station }) => station) };
  };
  const laid = all.filter((placement) => new Set(netOf(placement).line).size >= 2);
  const plan = {
    side,
    lines,
    unread: lines.filter(({ read }) => read < STATIONS_A_LINE),
    least: leastAcross(lines.length),
    laid,
  };
  if (lines.length < 3) return { ...plan, missing: [], is: 'too few lines' };
  const places = lines.map((line) => placeAthwart(side, line));
  const net = laid.map(netOf);
  const ties = () => tiesOf(places, net);
  const now = ties();
  const is = now.twist ? 'tied' : now.tied ? 'heights' : 'open';
  const marks = marksOf(lines);
  if (marks.length < 2) return { ...plan, missing: [], is };
  const missing: WantedAcross[] = [];
  const add = (direction: Direction, inner: Typed, outer: Typed) => {
    missing.push({ direction, inner, outer });
    const [low, high] = [places[0], places[places.length - 1]];
    net.push({
      line: places.map((_, i) => i),
      x: places.map((y) => inner.mm + ((y - low) / (high - low)) * (outer.mm - inner.mm)),
    });
  };
  const athwart = laid.flatMap(({ direction, met }) =>
    direction === 'athwart' && met.length >= 3 ? [met[0].station] : [],
  );
  while (!ties().tied && missing.length < ENOUGH) {
    const at = farthest(marks, athwart);
    athwart.push(at.mm);
    add('athwart', at, at);
  }
  if (!ties().twist) add('diagonal', marks[0], marks[marks.length - 1]);
  return { ...plan, missing, is };
}

/** House default: no straightedge is wanted nearer to the transom than this, mm. Athwart on its very edge it rolls off. */
const OFF_TRANSOM = 25;

/** Marks that lie within the reach of every line, from the transom forward. */
function marksOf(lines: readonly CrossedLine[]): readonly Typed[] {
  const reach = lines.map(({ marks }) => marks.map(({ mm }) => mm));
  const low = Math.max(...reach.map((own) => Math.min(...own)));
  const high = Math.min(...reach.map((own) => Math.max(...own)));
  const within = lines.flatMap(({ marks }) => marks.filter(({ mm }) => mm >= low && mm <= high));
  const each = new Map(within.map((mark) => [Math.round(mark.mm * 1000), mark]));
  const all = [...each.values()].sort((a, b) => a.mm - b.mm);
  const clear = all.filter(({ mm }) => mm >= OFF_TRANSOM);
  return clear.length < 2 ? all : clear;
}

/** The mark farthest from those that are taken; the first where none is. */
function farthest(marks: readonly Typed[], taken: readonly number[]): Typed {
  const clear = ({ mm }: Typed) => Math.min(...taken.map((at) => Math.abs(at - mm)));
  return marks.reduce((best, mark) => (clear(mark) > clear(best) ? mark : best));
}
