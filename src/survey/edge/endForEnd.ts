/** Why turning an edge end for end is no check, in a sentence. */
export const END_FOR_END_REFUSED =
  'Turning the straightedge end for end is no check: it shows only what differs between its ends, and a bow stays the same either way round. Scribe a line, turn the edge over about it and scribe again, or compare three edges in pairs.';

/** What two layings show, the second with the edge turned end for end: half their difference, which is the odd part of
 *  the edge's error, and the average that they leave in the readings, its even part, where a bow is.
 *  e: the error at a distance from an end, `length` long; e(u) and both results in one unit.
 *  Source: Evans, Hocken and Estler (1996), CIRP Annals 45(2), 617 (what reversals separate). */
export function endForEnd(
  e: (u: number) => number,
  length: number,
): { readonly shown: (u: number) => number; readonly left: (u: number) => number } {
  return {
    shown: (u) => (e(u) - e(length - u)) / 2,
    left: (u) => (e(u) + e(length - u)) / 2,
  };
}
