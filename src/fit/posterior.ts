import type { ArrowFactor } from './arrowSystem.ts';
import { Accumulator, type NormalEquations } from './normalEquations.ts';
import { penalisedFit, type PenalisedFit } from './penalisedFit.ts';
import { splineBasis, type SplineBasis } from './splineBasis.ts';
import { stiffnesses, type Stiffness } from './stiffness.ts';
import type { ReadingColumns } from './tied.ts';

/** What the readings say of a line's profile, known up to one straight line. */
export interface Profile {
  readonly ok: true;
  readonly n: number;
  /** Distinct stations, counted no farther than one past the most knots that are used (129). */
  readonly stations: number;
  readonly domain: readonly [number, number];
  readonly basis: SplineBasis;
  /** Accounts of the same readings, one a stiffness, roughness and noise level, with their weights (sum 1). */
  readonly components: readonly Component[];
}

export interface Component {
  readonly weight: number;
  /** Scale of the integrated Wiener process, x scaled to 0..1. */
  readonly roughness: number;
  /** Reading uncertainty as a multiple of the stated one. */
  readonly noise: number;
  /** Where the bottom may be rougher than that. */
  readonly stiffness: Stiffness;
  /** Accounts whose roughness is to their noise as another's share its coefficients and its factor. */
  readonly coefficients: Float64Array;
  readonly factor: ArrowFactor;
}

export interface ProfileRefusal {
  readonly ok: false;
  readonly reason: 'too few readings' | 'not tied';
  readonly n: number;
  readonly needed: number;
}

/** Fewest stations that a verdict can rest on. */
export const STATIONS_NEEDED = 4;

/** Where the bottom is as rough everywhere, and where a half of it is rougher still. */
const ROUGHNESS_STEPS = { even: 19, uneven: 12 };
/** Of one roughness to the next, and of one noise level to the next, so that one solution serves several levels. */
const RATIO = 1.4;
const NOISE_LEVELS = [
  { power: -1, weight: 0.25 },
  { power: 0, weight: 0.5 },
  { power: 1, weight: 0.25 },
] as const;
/** Accounts that weigh less than this change no digit. */
const NOTHING = 1e-17;
const LOG_NOTHING = Math.log(NOTHING);
const FINEST = 64;
const MOST_KNOTS = 128;

/** Which levels are kept: roughness goes up until no account weighs anything any more, or to the last step. */
type Levels = 'that weigh' | 'all';

/** Fits one profile to the tied placements of a line.
 *  The height z is minus the gap, up to each placement's own offset and tilt. z is a cubic spline under
 *  an integrated-Wiener prior (penalised second derivative); its roughness is averaged over its marginal
 *  likelihood from `floor` upwards, and so is where the bottom is rougher than elsewhere (`stiffnesses`); the reading
 *  uncertainty is averaged over a factor of 1.4 either way.
 *  Units: x one length unit, gaps and u another; `floor` in the gaps' unit, the least scale that the
 *  roughness may take (about ten tolerances), so that a rough bottom cannot be talked straight.
 *  `stretch`: the length that the floor speaks of, where readings reach farther than what is judged;
 *  the scale of an integrated Wiener process grows with the power 3/2 of its length.
 *  `levels`: all, for whoever compares fits of other readings level by level.
 *  Throws RangeError on values that are not finite, u not positive, or lengths that differ.
 *  Refuses fewer than 4 stations, and a placement whose own line nothing determines. It does not ask
 *  whether placements share stations: the prior would bridge them. Group them by `tiedGroups` first.
 *  Source: Wahba (1978), J. R. Statist. Soc. B 40, 364 (the prior behind a smoothing spline);
 *  Wood (2017), Generalized Additive Models, 6.2 (marginal likelihood). */
export function fitProfile(
  placements: readonly ReadingColumns[],
  floor: number,
  stretch = Infinity,
  levels: Levels = 'that weigh',
): Profile | ProfileRefusal {
  if (!(floor > 0)) throw new RangeError(`a positive floor expected, got ${floor}`);
  if (!(stretch > 0)) throw new RangeError(`a positive stretch expected, got ${stretch}`);
  let low = Infinity;
  let high = -Infinity;
  let n = 0;
  const distinct = new Set<number>();
  for (const { x, gap, u } of placements) {
    if (x.length !== gap.length || x.length !== u.length) {
      throw new RangeError(
        `x, gap and u of one length expected, got ${x.length}, ${gap.length}, ${u.length}`,
      );
    }
    for (let i = 0; i < x.length; i++) {
      if (!Number.isFinite(x[i]) || !Number.isFinite(gap[i]) || !(u[i] > 0 && u[i] < Infinity)) {
        throw new RangeError(
          `finite x and gap and a positive u expected, got ${x[i]}, ${gap[i]}, ${u[i]}`,
        );
      }
      if (x[i] < low) low = x[i];
      if (x[i] > high) high = x[i];
      if (distinct.size <= MOST_KNOTS) distinct.add(x[i]);
      n++;
    }
  }
  if (distinct.size < STATIONS_NEEDED) {
    return { ok: false, reason: 'too few readings', n: distinct.size, needed: STATIONS_NEEDED };
  }
  const span = high - low;
  const basis = splineBasis(knotsFor(distinct, low, high));
  const sums = new Accumulator(basis, placements.length);
  placements.forEach(({ x, gap, u }, p) => {
    for (let i = 0; i < x.length; i++) {
      const place = Math.min(1, Math.max(0, (x[i] - low) / span));
      sums.add(place, -gap[i], 1 / (u[i] * u[i]), p);
    }
  });
  const longer = Math.max(1, span / stretch) ** 1.5;
  const components = weigh(sums.sums(), floor * longer, levels);
  if (!components) return { ok: false, reason: 'not tied', n, needed: 2 };
  return { ok: true, n, stations: distinct.size, domain: [low, high], basis, components };
}

/** Knots at the stations and evenly between them, no farther apart than a 64th of the line;
 *  a fixed even set where there are more stations than that needs. In x scaled to 0..1. */
function knotsFor(distinct: ReadonlySet<number>, low: number, high: number): number[] {
  if (distinct.size > MOST_KNOTS) {
    return Array.from({ length: MOST_KNOTS + 1 }, (_, i) => i / MOST_KNOTS);
  }
  const stations = [...distinct].sort((a, b) => a - b).map((x) => (x - low) / (high - low));
  stations[stations.length - 1] = 1;
  const knots = [0];
  for (let i = 1; i < stations.length; i++) {
    const start = knots[knots.length - 1];
    const gap = stations[i] - start;
    if (gap < 1e-9) continue;
    const pieces = Math.ceil(gap * FINEST - 1e-9);
    for (let k = 1; k < pieces; k++) knots.push(start + (gap * k) / pieces);
    knots.push(stations[i]);
  }
  return knots;
}

function weigh(sums: NormalEquations, floor: number, levels: Levels): Component[] | undefined {
  const { basis, n, matrix } = sums;
  const unknowns = basis.size + matrix.extra;
  const found: Omit<Component, 'weight'>[] = [];
  const logWeights: number[] = [];
  let best = -Infinity;
  for (const stiffness of stiffnesses(basis)) {
    const { isEven, penalty, share, logDeterminant } = stiffness;
    const steps = isEven ? ROUGHNESS_STEPS.even : ROUGHNESS_STEPS.uneven;
    const solved = new Map<number, PenalisedFit>();
    let before = -Infinity;
    for (let step = 0; step < steps; step++) {
      const roughness = floor * RATIO ** step;
      let most = -Infinity;
      for (const { power, weight } of NOISE_LEVELS) {
        const noise = RATIO ** power;
        const smoother = power - step;
        const known = solved.get(smoother);
        const fit = known ?? penalisedFit(sums, (RATIO ** smoother / floor) ** 2, penalty);
        if (!fit.ok) return undefined;
        if (!known) solved.set(smoother, fit);
        const { coefficients, factor } = fit;
        found.push({ roughness, noise, stiffness, coefficients, factor });
        const logWeight =
          Math.log(weight * share) +
          0.5 * logDeterminant -
          (n - unknowns) * Math.log(noise) -
          (basis.size - 2) * Math.log(roughness) -
          0.5 * factor.logDeterminant -
          (0.5 * fit.penalisedSquares) / (noise * noise);
        logWeights.push(logWeight);
        most = Math.max(most, logWeight);
      }
      best = Math.max(best, most);
      if (levels === 'that weigh' && most < before && most < best + LOG_NOTHING) break;
      before = most;
    }
  }
  const weights = logWeights.map((log) => Math.exp(log - best));
  const total = weights.reduce((sum, w) => sum + w, 0);
  return found.map(({ roughness, noise, stiffness, coefficients, factor }, i) => ({
    weight: weights[i] / total,
    roughness,
    noise,
    stiffness,
    coefficients,
    factor,
  }));
}

/** The posterior mean's spline coefficients (up to a straight line). */
export function meanCoefficients(profile: Profile): Float64Array {
  return meanUnknowns(profile).slice(0, profile.basis.size);
}

/** Each placement's own line, by posterior mean: the height that a gap of 0 would have at x,
 *  in the datum of `meanCoefficients` (placement 0 carries it). Offset at the domain's aft end,
 *  tilt in gap-unit per x-unit. */
export function placementLines(
  profile: Profile,
): readonly { readonly offset: number; readonly tilt: number }[] {
  const { basis, domain } = profile;
  const unknowns = meanUnknowns(profile);
  const lines = [{ offset: 0, tilt: 0 }];
  for (let e = basis.size; e < unknowns.length; e += 2) {
    lines.push({ offset: unknowns[e], tilt: unknowns[e + 1] / (domain[1] - domain[0]) });
  }
  return lines;
}

function meanUnknowns({ components }: Profile): Float64Array {
  const mean = new Float64Array(components[0].coefficients.length);
  for (const { weight, coefficients } of components) {
    if (weight < NOTHING) continue;
    for (let j = 0; j < mean.length; j++) mean[j] += weight * coefficients[j];
  }
  return mean;
}
