import type { Line, Placement, Reading } from '../survey/survey.ts';

/** What was read at a station, and how the edge lay: to be found again before anything is filled, or else the marks,
 *  the edge or the hull are not what they were. */
export interface ProofOfPlace {
  readonly line: Line;
  readonly placement: Placement;
  readonly reading: Reading;
}

/** The reading nearest to a place among a line's placements; of several equally near, the first laying's first look.
 *  Undefined where nothing was read. `at`: mm forward of the transom. */
export function proofOfPlace(line: Line, at: number): ProofOfPlace | undefined {
  let best: ProofOfPlace | undefined;
  let nearest = Infinity;
  for (const placement of line.placements) {
    for (const reading of placement.readings) {
      const off = Math.abs(reading.station.mm - at);
      if (off >= nearest - 1e-9) continue;
      nearest = off;
      best = { line, placement, reading };
    }
  }
  return best;
}
