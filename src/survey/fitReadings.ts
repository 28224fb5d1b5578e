import { fitProfile, type Profile, type ProfileRefusal } from '../fit/posterior.ts';
import type { ReadingColumns } from '../fit/tied.ts';

/** The least scale of a bottom's roughness, mm: ten tolerances over the judged stretch, so that a rough bottom
 *  cannot be talked straight. */
export function roughnessFloor(tolerance: number): number {
  return 10 * tolerance;
}

/** Fits tied placements of a line as every part of the house does. Lengths in mm; `limit`: how far forward the line
 *  is judged. Errors and refusals as `fitProfile`. */
export function fitReadings(
  placements: readonly ReadingColumns[],
  tolerance: number,
  limit: number,
): Profile | ProfileRefusal {
  return fitProfile(placements, roughnessFloor(tolerance), limit);
}
