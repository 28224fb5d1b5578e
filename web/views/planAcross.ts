import type { Side } from '../../src/survey/survey.ts';
import { rounded } from './drawingSize.ts';

/** Where a straightedge meets a line, mm: to which side and how far from the keel along the bottom, and forward of the
 *  transom. */
export interface AcrossPoint {
  readonly side: Side;
  readonly offset: number;
  readonly station: number;
}

/** A straightedge across lines as the plan needs it. */
export interface PlanAcross {
  readonly id: string;
  /** Laid, the one that is being read, or the one to lay next. */
  readonly is: 'laid' | 'now' | 'next';
  /** From the innermost line to the outermost, across the keel from port to starboard; two at least. */
  readonly points: readonly AcrossPoint[];
  /** "Port, athwart at 12 in: 3 of 4 read". */
  readonly words: string;
}

export interface DrawnAcross {
  readonly id: string;
  readonly is: PlanAcross['is'];
  readonly words: string;
  /** The straightedge, a little past its outermost lines. */
  readonly path: string;
  /** Where it meets each line. */
  readonly meets: readonly (readonly [x: number, y: number])[];
  /** Where its word stands, clear of the stroke. */
  readonly label: readonly [x: number, y: number];
}

/** How far the stroke goes past the outermost lines, in em. */
const PAST = 0.7;

/** `place`: where a point lies in the drawing. */
export function drawnAcross(
  { id, is, words, points }: PlanAcross,
  place: (point: AcrossPoint) => readonly [number, number],
  em: number,
): DrawnAcross {
  const meets = points.map(place);
  const [[x1, y1], [x2, y2]] = [meets[0], meets[meets.length - 1]];
  const long = Math.hypot(x2 - x1, y2 - y1) || 1;
  const [dx, dy] = [((x2 - x1) / long) * PAST * em, ((y2 - y1) / long) * PAST * em];
  return {
    id,
    is,
    words,
    path: `M${rounded(x1 - dx)},${rounded(y1 - dy)}L${rounded(x2 + dx)},${rounded(y2 + dy)}`,
    meets,
    label: [rounded((x1 + x2) / 2), rounded((y1 + y2) / 2 - 0.6 * em)],
  };
}
