import { extremes } from '../../src/fit/extremes.ts';
import type { LineAssessment, ReadingPoint } from '../../src/survey/assessment.ts';

/** Marks that stand side by side in the width of a letter of text. */
const MARKS_A_LETTER = 4;

/** The readings of a line that are drawn: all of them, or of a log the lowest and the highest of each mark's width in
 *  what is shown, so that no extreme is lost. `letters`: width of the drawing in heights of its text. */
export function thinned(
  { points, logged }: LineAssessment,
  shown: (station: number) => boolean,
  letters: number,
): readonly ReadingPoint[] {
  if (logged === undefined) return points;
  const seen = points.filter(({ station }) => shown(station));
  return thinnedTo(seen, Math.max(1, Math.floor(MARKS_A_LETTER * letters)));
}

/** The lowest and the highest of each of so many stretches, from aft forward. */
export function thinnedTo(
  points: readonly ReadingPoint[],
  columns: number,
): readonly ReadingPoint[] {
  const x = points.map(({ station }) => station);
  const z = points.map((point) => point.z ?? -point.gap);
  return Array.from(extremes(x, z, columns), (i) => points[i]);
}
