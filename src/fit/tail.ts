import { dot, slopeWeights } from './functionals.ts';
import { pairedMoments } from './pairedMoments.ts';
import type { Profile } from './posterior.ts';

/** How the tail turns against the bottom ahead of it, degrees; positive turned towards the water. */
export interface TailAngle {
  readonly angle: number;
  /** Standard uncertainty, degrees. */
  readonly u: number;
  /** Length of the tail, in x's unit. */
  readonly over: number;
}

/** What must lie ahead of the tail for its angle to be given, in the same unit as `over`. */
const AHEAD_OF_TAIL = 2;

/** Weights on a draw's coefficients that give the tail angle in degrees: least-squares slope over the
 *  tail less that from there to `to`, free of any straight line. Heights positive towards the water and
 *  x forward, so a tail turned towards the water has the more negative slope: the sign is turned.
 *  `unitRatio` is z-unit in x-units (1 where both are mm). Undefined where less than twice the tail's
 *  length lies ahead of it. */
export function tailWeights(
  profile: Profile,
  from: number,
  over: number,
  to: number,
): Float64Array | undefined {
  const end = from + over;
  if (to - end < AHEAD_OF_TAIL * over * (1 - 1e-9)) return undefined;
  const tail = slopeWeights(profile, from, end);
  const ahead = slopeWeights(profile, end, to);
  return tail.map((w, i) => ((ahead[i] - w) * 180) / Math.PI);
}

/** Mean and standard deviation of the tail angle over draws, which come in mirrored pairs. */
export function tailAngle(
  weights: Float64Array,
  draws: readonly Float64Array[],
  over: number,
): TailAngle {
  const angles = draws.map((c) => dot(weights, c));
  const { mean: angle, deviation: u } = pairedMoments(angles);
  return { angle, u, over };
}
