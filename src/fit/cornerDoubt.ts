import { solveForward } from './arrowSystem.ts';
import { dot } from './functionals.ts';
import type { Component, Profile } from './posterior.ts';
import { row } from './row.ts';
import type { SplineBasis } from './splineBasis.ts';

/** How a figure changes, and how much less sure it is, when the bottom may have a corner. */
export interface CornerDoubt {
  readonly shift: number;
  /** What is added to the figure's variance; never below 0. */
  readonly variance: number;
}

/** How likely a corner is near a place before anything was read: as likely as not. */
const CORNER = 0.5;
/** How far from a place a corner is looked for: so many half spacings of the stations either way. */
const HALF_SPACINGS = 3;
/** Accounts that weigh less than this change no figure that is shown. */
const NEGLIGIBLE = 0.01;

/** What a corner near each of `places` would do to a figure that is linear in the profile.
 *  A smooth prior spreads the turn of a corner over its neighbourhood, so a depth measured at one, or from one,
 *  comes out too small and too sure. Here the same readings are taken once more with a turn of unknown size, from one
 *  knot to its neighbours, at each knot near the place; the readings weigh them all against none.
 *  weights: on the spline's coefficients; `stretch`: the length that is judged, over which the least rough bottom turns
 *  as much as a corner may (one standard deviation). Places near an end of the profile have no corner to look for.
 *  A corner's curvature, a hat h at a knot, answers to the fit through e = ∫ h·B″ alone: with A = BᵀWB + λΩ its evidence is
 *  λ·e·c against λ∫h² − λ²·eᵀA⁻¹e, and the figure moves by λ·weights·A⁻¹e a unit, so no reading is asked for again.
 *  Mirroring a profile mirrors the shift to the last bit.
 *  Accuracy: a dense fit with the corner as a column of its own, to 1e-6 (test/fit/cornerDoubt.test.ts). */
export function cornerDoubt(
  profile: Profile,
  weights: Float64Array,
  places: readonly number[],
  stretch: number,
): CornerDoubt {
  const { components, basis, domain } = profile;
  const span = domain[1] - domain[0];
  const turn = Math.min(...components.map((c) => c.roughness)) * Math.sqrt(stretch / span);
  const step = span / (profile.stations - 1) / 2;
  const weighty = components.filter((c) => c.weight >= NEGLIGIBLE);
  const plain = weighty.map((component) => ({ component, ...figureOf(component, weights) }));
  const before = momentsOf(
    plain.map(({ component, value, variance }) => ({ weight: component.weight, value, variance })),
  );
  let shift = 0;
  let variance = 0;
  for (const place of places) {
    const knots = knotsNear(basis, (place - domain[0]) / span, step / span);
    if (knots.length === 0) continue;
    const corners = knots.map((knot) => hatAt(basis, knot));
    const after = momentsOf(
      plain.flatMap(({ component, influence, value, variance: own }) => [
        { weight: component.weight * (1 - CORNER), value, variance: own },
        ...corners.map((hat) => {
          const { evidence, moved, widened } = withCorner(component, influence, hat, turn);
          const weight = ((component.weight * CORNER) / knots.length) * evidence;
          return { weight, value: value + moved, variance: own + widened };
        }),
      ]),
    );
    shift += after.value - before.value;
    variance += after.variance - before.variance;
  }
  return { shift, variance: Math.max(0, variance) };
}

interface Weighed {
  readonly weight: number;
  readonly value: number;
  readonly variance: number;
}

function momentsOf(parts: readonly Weighed[]): { value: number; variance: number } {
  const total = parts.reduce((sum, p) => sum + p.weight, 0);
  const value = parts.reduce((sum, p) => sum + p.weight * p.value, 0) / total;
  const squares = parts.reduce(
    (sum, p) => sum + p.weight * (p.variance + (p.value - value) ** 2),
    0,
  );
  return { value, variance: squares / total };
}

/** A figure under one account: its mean, its variance, and L⁻¹ of its weights. */
function figureOf({ coefficients, factor, noise }: Component, weights: Float64Array) {
  const influence = row(factor.matrix.size + factor.matrix.extra);
  influence.set(weights);
  solveForward(factor, influence);
  return {
    influence,
    value: dot(weights, coefficients),
    variance: noise * noise * dot(influence, influence),
  };
}

/** A curvature that rises from nothing at one knot to its peak at the next and falls to nothing at the one after,
 *  turning the profile by 1 in all. */
interface Hat {
  /** ∫ h·B″ of five basis functions from `first` on; of all others it is 0. */
  readonly first: number;
  readonly e: Float64Array;
  /** ∫ h². */
  readonly square: number;
}

/** How the readings speak for a corner (1 is neither for nor against), and what it does to a figure. */
function withCorner(
  { coefficients, factor, noise, roughness }: Component,
  influence: Float64Array,
  { first, e, square }: Hat,
  turn: number,
): { evidence: number; moved: number; widened: number } {
  const penalty = (noise / roughness) ** 2;
  const half = row(influence.length);
  half.set(e, first);
  solveForward(factor, half, first);
  let seen = 0;
  for (let j = 0; j < e.length; j++) seen += e[j] * coefficients[first + j];
  const known = (noise / turn) ** 2;
  const whole = penalty * (square - penalty * dot(half, half, first)) + known;
  const size = (penalty * seen) / whole;
  const perUnit = penalty * dot(influence, half, first);
  return {
    evidence: Math.sqrt(known / whole) * Math.exp((0.5 * size * penalty * seen) / (noise * noise)),
    moved: size * perUnit,
    widened: (noise * perUnit) ** 2 / whole,
  };
}

/** Inner knots nearest to the place and to every half spacing either way of it. In x scaled to 0..1. */
function knotsNear({ breaks }: SplineBasis, place: number, step: number): number[] {
  const found = new Set<number>();
  for (let k = -HALF_SPACINGS; k <= HALF_SPACINGS; k++) {
    const at = place + k * step;
    if (!(at > 0 && at < 1)) continue;
    let nearest = 0;
    for (let i = 1; i < breaks.length; i++) {
      // Of two as near the aft one, whatever rounding says.
      if (Math.abs(breaks[i] - at) < Math.abs(breaks[nearest] - at) - 1e-9) nearest = i;
    }
    if (nearest > 0 && nearest < breaks.length - 1) found.add(nearest);
  }
  return [...found];
}

/** Both curvatures are broken lines, whose product integrates by their values at the three knots. */
function hatAt({ breaks, bends }: SplineBasis, knot: number): Hat {
  const before = breaks[knot] - breaks[knot - 1];
  const after = breaks[knot + 1] - breaks[knot];
  const peak = 2 / (before + after);
  const e = new Float64Array(5);
  [before / 6, (before + after) / 3, after / 6].forEach((share, r) => {
    const bend = 3 * (knot - 1 + r);
    for (let a = 0; a < 3; a++) e[r + a] += peak * share * bends[bend + a];
  });
  return { first: knot - 1, e, square: (peak * peak * (before + after)) / 3 };
}
