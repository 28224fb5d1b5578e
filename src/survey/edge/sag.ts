/** Under its own weight, how far a uniform beam lies below the straight line through its two supports, mm; negative
 *  above it. Overhangs are as they are. length and supports in mm, the first support aft of the second;
 *  `load`: weight per length over stiffness, w/(E·I), 1/mm³. Returns a function of the distance from the beam's end.
 *  Throws RangeError where the supports do not stand under the beam.
 *  Accuracy: the beam figures of handbooks to 5 digits (test/survey/edge/sag.test.ts).
 *  Source: Euler and Bernoulli's beam, integrated by Macaulay's brackets; see Roark. */
export function beamSag(
  length: number,
  supports: readonly [number, number],
  load: number,
): (u: number) => number {
  const [a, b] = supports;
  if (!(a >= 0 && b > a && b <= length && length < Infinity)) {
    throw new RangeError(`supports under a beam of ${length} mm expected, got ${a} and ${b}`);
  }
  if (!(load >= 0 && load < Infinity)) {
    throw new RangeError(`a load of 0 or more expected, got ${load}`);
  }
  const span = b - a;
  const aft = (length * (b - length / 2)) / span;
  const fore = length - aft;
  const cube = (v: number) => (v > 0 ? v ** 3 : 0);
  const shape = (u: number) => u ** 4 / 24 - (aft * cube(u - a)) / 6 - (fore * cube(u - b)) / 6;
  const [atA, atB] = [shape(a), shape(b)];
  return (u) => load * (shape(u) - atA - ((atB - atA) * (u - a)) / span);
}

/** How far a taut string hangs below the straight line between its ends, w·x·(L − x)/(2H); mm.
 *  `load`: weight per length over the pull, w/H, 1/mm. Source: the parabola of a flat cable, handbooks of statics. */
export function stringSag(ends: readonly [number, number], load: number): (u: number) => number {
  const [a, b] = ends;
  if (!(b > a)) throw new RangeError(`two ends expected, got ${a} and ${b}`);
  return (u) => (load * (u - a) * (b - u)) / 2;
}

/** Second moment of a rectangle or, with a wall, of a box: b·h³/12 less what is hollow; mm⁴. */
export function secondMoment(width: number, depth: number, wall?: number): number {
  const solid = (width * depth ** 3) / 12;
  if (wall === undefined || 2 * wall >= Math.min(width, depth)) return solid;
  return solid - ((width - 2 * wall) * (depth - 2 * wall) ** 3) / 12;
}

/** Standard acceleration of free fall, m/s² (exact by definition, 3rd CGPM 1901). */
export const G = 9.80665;

/** Young's modulus, N/mm², and density, kg/m³: handbook values. */
export const MATERIAL = {
  aluminium: { modulus: 69_000, density: 2700 },
  steel: { modulus: 205_000, density: 7850 },
} as const;
