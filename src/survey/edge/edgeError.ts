import { heightsAt } from '../../fit/functionals.ts';
import { fitProfile, meanCoefficients } from '../../fit/posterior.ts';
import { posteriorDraws } from '../../fit/posteriorDraws.ts';
import { pairedMoments } from '../../fit/pairedMoments.ts';
import { principalModes } from '../../fit/principalModes.ts';
import type { EdgeCheck } from '../survey.ts';
import { checkPoints, type CheckPoints, type ErrorPoint } from './checkPoints.ts';

/** An edge's own error as a check found it: positive proud, mm, against the straight line between the ends of the
 *  checked stretch. Distances from end A, mm. */
export interface EdgeError {
  readonly ok: true;
  readonly n: number;
  readonly domain: readonly [number, number];
  /** Throws RangeError outside the checked stretch: nothing is extrapolated. */
  readonly at: (u: number) => number;
  /** Where it stands farthest off that line, and by how much; negative hollow. `u`: standard uncertainty. */
  readonly bow: { readonly size: number; readonly u: number; readonly at: number };
  /** The ways in which the check itself may be out, one standard deviation each. */
  readonly modes: readonly ((u: number) => number)[];
}

/** An edge is taken as no smoother than this many times what one point is uncertain by, so that a kink between points
 *  is not smoothed away. */
const FLOOR = 10;
const PLACES = 41;
const PAIRS = 200;

/** Fits the error to what a check read, as a line's profile is fitted to its readings; or says why the check cannot
 *  be used. `length`: of the edge, mm, where it is known. */
export function edgeError(
  check: EdgeCheck,
  length?: number,
): EdgeError | Extract<CheckPoints, { ok: false }> {
  const read = checkPoints(check, length);
  return read.ok ? errorThrough(read.points) : read;
}

/** The same through points that are known. At least 4 different ones. */
export function errorThrough(points: readonly ErrorPoint[]): EdgeError {
  const uncertainty = Math.max(...points.map((p) => p.uncertainty));
  const profile = fitProfile(
    [
      {
        x: points.map((p) => p.u),
        gap: points.map((p) => -p.e),
        u: points.map((p) => p.uncertainty),
      },
    ],
    FLOOR * uncertainty,
  );
  if (!profile.ok)
    throw new RangeError(`points that determine an edge expected: ${profile.reason}`);
  const [from, to] = profile.domain;
  const x = Array.from({ length: PLACES }, (_, i) => from + ((to - from) * i) / (PLACES - 1));
  const heights = heightsAt(profile, x);
  const offEnds = (z: Float64Array) =>
    z.map((v, i) => v - z[0] - ((z[PLACES - 1] - z[0]) * i) / (PLACES - 1));
  const coefficients = meanCoefficients(profile);
  const mean = offEnds(heights(coefficients));
  let far = 0;
  for (let i = 1; i < PLACES; i++) if (Math.abs(mean[i]) > Math.abs(mean[far])) far = i;
  const draws = posteriorDraws(profile, 0, PAIRS).map((c) => offEnds(heights(c))[far]);
  const ends = heightsAt(profile, [from, to])(coefficients);
  return {
    ok: true,
    n: points.length,
    domain: [from, to],
    at: (u) => {
      const [e] = heightsAt(profile, [u])(coefficients);
      return e - ends[0] - ((ends[1] - ends[0]) * (u - from)) / (to - from);
    },
    bow: { size: mean[far], u: pairedMoments(draws).deviation, at: x[far] },
    modes: principalModes(profile, x, { most: 3, share: 0.98 }).map(between(x)),
  };
}

/** A broken line through heights at evenly spaced places; straight on beyond the ends, which nobody asks for. */
function between(x: readonly number[]): (heights: Float64Array) => (u: number) => number {
  return (heights) => (u) => {
    const step = (x[x.length - 1] - x[0]) / (x.length - 1);
    const i = Math.min(x.length - 2, Math.max(0, Math.floor((u - x[0]) / step)));
    const share = (u - x[i]) / step;
    return heights[i] + share * (heights[i + 1] - heights[i]);
  };
}
