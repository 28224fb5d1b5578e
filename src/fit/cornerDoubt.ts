import { solveForward, type ArrowFactor } from './arrowSystem.ts';
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
/** How sharp it may be (one standard deviation), in turns of the least rough bottom over the stretch that is judged: with
 *  a floor of ten tolerances as a dent turns that is two and a half tolerances deep between straight sides, each a quarter
 *  of the line long. */
const SHARPER = 2;
/** How far from a place a corner is looked for: so many half spacings of the stations either way. */
const HALF_SPACINGS = 3;
/** Accounts that weigh less than this change no figure that is shown. */
const NEGLIGIBLE = 0.01;

/** What a corner near each of `places` would do to a figure that is linear in the profile.
 *  A smooth prior spreads the turn of a corner over its neighbourhood, so a depth measured at one, or from one,
 *  comes out too small and too sure. Here the same readings are taken once more with a turn of unknown size, from one
 *  knot to its neighbours, at each knot near the place; the readings weigh them all against none.
 *  weights: on the spline's coefficients; `stretch`: the length that is judged. Places near an end of the profile have no
 *  corner to look for.
 *  A corner's curvature, a hat h at a knot, answers to the fit through e = ∫ s·h·B″ alone, s the stiffness: with
 *  A = BᵀWB + λΩ its evidence is λ·e·c against λ∫s·h² − λ²·eᵀA⁻¹e, and the figure moves by λ·weights·A⁻¹e a unit, so no
 *  reading is asked for again.
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
  const least = Math.min(...components.map((c) => c.roughness));
  const turn = SHARPER * least * Math.sqrt(stretch / span);
  const step = span / (profile.stations - 1) / 2;
  const weighty = components.filter((c) => c.weight >= NEGLIGIBLE);
  const answers = new Map<ArrowFactor, Answer>();
  const plain = weighty.map((component) => {
    const answer = answers.get(component.factor) ?? answerOf(component, basis, weights);
    answers.set(component.factor, answer);
    return { component, answer, variance: component.noise ** 2 * answer.square };
  });
  const before = new Moments();
  for (const { component, answer, variance } of plain)
    before.add(component.weight, answer.value, variance);
  let shift = 0;
  let added = 0;
  for (const place of places) {
    const knots = knotsNear(basis, (place - domain[0]) / span, step / span);
    if (knots.length === 0) continue;
    const after = new Moments();
    for (const { component, answer, variance } of plain) {
      const { weight, noise } = component;
      after.add(weight * (1 - CORNER), answer.value, variance);
      for (const knot of knots) {
        const { evidence, moved, widened } = withCorner(answer.corner(knot), noise, turn);
        const share = ((weight * CORNER) / knots.length) * evidence;
        after.add(share, answer.value + moved, variance + widened);
      }
    }
    shift += after.mean - before.mean;
    added += after.variance - before.variance;
  }
  return { shift, variance: Math.max(0, added) };
}

/** Mean and variance of a mixture of normals, added one by one. */
class Moments {
  #total = 0;
  #sum = 0;
  #squares = 0;
  #own = 0;

  add(weight: number, value: number, variance: number): void {
    const step = value - this.mean;
    this.#total += weight;
    this.#sum += weight * value;
    this.#squares += weight * step * (value - this.mean);
    this.#own += weight * variance;
  }

  get mean(): number {
    return this.#total > 0 ? this.#sum / this.#total : 0;
  }

  get variance(): number {
    return (this.#squares + this.#own) / this.#total;
  }
}

/** How a figure answers under one factor, whatever the noise: its mean, its variance in squares of the noise, and what a
 *  corner at a knot does. */
interface Answer {
  readonly value: number;
  readonly square: number;
  corner(knot: number): Corner;
}

/** What the fit without it knows of a turn of 1 at a knot. */
interface Corner {
  /** How strongly the profile as fitted asks for the turn. */
  readonly pull: number;
  /** What the readings have against it, its own prior left out. */
  readonly held: number;
  /** By how much it moves the figure. */
  readonly perUnit: number;
}

function answerOf(
  { coefficients, factor, noise, roughness, stiffness }: Component,
  basis: SplineBasis,
  weights: Float64Array,
): Answer {
  const influence = row(factor.matrix.size + factor.matrix.extra);
  influence.set(weights);
  solveForward(factor, influence);
  const penalty = (noise / roughness) ** 2;
  const corners = new Map<number, Corner>();
  const cornerAt = (knot: number): Corner => {
    const { first, e, square } = hatAt(basis, stiffness.pieces, knot);
    const half = row(influence.length);
    half.set(e, first);
    solveForward(factor, half, first);
    let seen = 0;
    for (let j = 0; j < e.length; j++) seen += e[j] * coefficients[first + j];
    return {
      pull: penalty * seen,
      held: penalty * (square - penalty * dot(half, half, first)),
      perUnit: penalty * dot(influence, half, first),
    };
  };
  return {
    value: dot(weights, coefficients),
    square: dot(influence, influence),
    corner(knot) {
      const known = corners.get(knot) ?? cornerAt(knot);
      corners.set(knot, known);
      return known;
    },
  };
}

/** How the readings speak for a corner (1 is neither for nor against), and what it does to a figure. */
function withCorner(
  { pull, held, perUnit }: Corner,
  noise: number,
  turn: number,
): { evidence: number; moved: number; widened: number } {
  const known = (noise / turn) ** 2;
  const whole = held + known;
  const size = pull / whole;
  return {
    evidence: Math.sqrt(known / whole) * Math.exp((0.5 * size * pull) / (noise * noise)),
    moved: size * perUnit,
    widened: (noise * perUnit) ** 2 / whole,
  };
}

/** A curvature that rises from nothing at one knot to its peak at the next and falls to nothing at the one after,
 *  turning the profile by 1 in all. */
interface Hat {
  /** ∫ stiffness·h·B″ of five basis functions from `first` on; of all others it is 0. */
  readonly first: number;
  readonly e: Float64Array;
  /** ∫ stiffness·h². */
  readonly square: number;
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
function hatAt({ breaks, bends }: SplineBasis, pieces: Float64Array, knot: number): Hat {
  const before = breaks[knot] - breaks[knot - 1];
  const after = breaks[knot + 1] - breaks[knot];
  const peak = 2 / (before + after);
  const [aft, fore] = [before * pieces[knot - 1], after * pieces[knot]];
  const e = new Float64Array(5);
  [aft / 6, (aft + fore) / 3, fore / 6].forEach((share, r) => {
    const bend = 3 * (knot - 1 + r);
    for (let a = 0; a < 3; a++) e[r + a] += peak * share * bends[bend + a];
  });
  return { first: knot - 1, e, square: (peak * peak * (aft + fore)) / 3 };
}
