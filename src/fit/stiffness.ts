import type { SplineBasis } from './splineBasis.ts';

/** How stiff a profile is held along its length: as everywhere, or less over one half of it, where the bottom may be
 *  rougher than elsewhere. */
export interface Stiffness {
  readonly isEven: boolean;
  /** Of each piece between two knots, as a multiple of the stiffness elsewhere. */
  readonly pieces: Float64Array;
  /** ∫ stiffness · (second derivative)² as a band, laid out like `SplineBasis.penalty`. */
  readonly penalty: Float64Array;
  /** log of the determinant of the prior's precision, less that of a profile held evenly. */
  readonly logDeterminant: number;
  /** How likely it is before anything was read. The shares add up to 1. */
  readonly share: number;
}

/** The halves over which a bottom may be rougher, in x scaled to 0..1: aft, middle, fore. */
const HALVES = [
  [0, 0.5],
  [0.25, 0.75],
  [0.5, 1],
] as const;
/** How many times as rough. */
const ROUGHER = 4;
/** How likely a bottom is as rough everywhere. */
const EVEN = 0.9;

/** The ways in which a profile may be held, the even one first.
 *  A prior that is as stiff everywhere smooths a short hollow in a straight bottom as if the bottom were as straight there: the
 *  straight part says how rough the whole is, and the hollow reads low. With these the readings say where the bottom
 *  bends. As a set they are the same seen from either end.
 *  Source: a penalty that is constant piece by piece, after Pintore, Speckman and Holmes (2006), Spatially adaptive
 *  smoothing splines, Biometrika 93, 113 (cited from memory). */
export function stiffnesses(basis: SplineBasis): readonly Stiffness[] {
  const { breaks, penalty } = basis;
  const even = new Float64Array(breaks.length - 1).fill(1);
  const evenly = logDeterminant(breaks, even);
  const soft = HALVES.map(([from, to]) => {
    const pieces = even.map((_, i) => {
      const middle = (breaks[i] + breaks[i + 1]) / 2;
      return middle > from && middle < to ? 1 / ROUGHER ** 2 : 1;
    });
    return {
      isEven: false,
      pieces,
      penalty: basis.penaltyWith(pieces),
      logDeterminant: logDeterminant(breaks, pieces) - evenly,
      share: (1 - EVEN) / HALVES.length,
    };
  });
  return [{ isEven: true, pieces: even, penalty, logDeterminant: 0, share: EVEN }, ...soft];
}

/** log of the determinant of the matrix that integrates stiffness times the product of two broken lines. The second derivative
 *  at the knots takes every value, whatever the stiffness, so this is all in which the priors' determinants differ. */
function logDeterminant(breaks: Float64Array, pieces: Float64Array): number {
  const weighed = (i: number) => (i < pieces.length ? (breaks[i + 1] - breaks[i]) * pieces[i] : 0);
  let pivot = weighed(0) / 3;
  let sum = Math.log(pivot);
  for (let i = 1; i < breaks.length; i++) {
    const before = weighed(i - 1);
    pivot = (before + weighed(i)) / 3 - (before / 6) ** 2 / pivot;
    sum += Math.log(pivot);
  }
  return sum;
}
