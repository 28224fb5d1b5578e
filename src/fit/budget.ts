import { solveBackward, solveForward } from './arrowSystem.ts';
import { dot } from './functionals.ts';
import type { Component, Profile } from './posterior.ts';
import type { SystematicMode } from './systematic.ts';

/** Where the variance of one figure taken from a profile comes from. The parts add up to `variance`. */
export interface Budget {
  /** The figure's posterior mean. */
  readonly value: number;
  /** Its whole variance: readings, between, levels and systematic. */
  readonly variance: number;
  /** What each reading brings by its own uncertainty, a list a placement, in the order given. */
  readonly readings: readonly Float64Array[];
  /** How the profile may run where it was not read. */
  readonly between: number;
  /** How far the accounts of the same readings, one a stiffness, roughness and noise level, differ in the figure. */
  readonly levels: number;
  /** What each systematic mode brings, in the order given. */
  readonly systematic: readonly number[];
  /** How many times its stated uncertainty a reading is taken to have, by the readings' own evidence;
   *  root of the mean square over what the figure draws on. `readings` holds it already. */
  readonly noise: number;
}

/** Where a placement was read, and the standard uncertainty of each reading. */
export interface ReadAt {
  readonly x: ArrayLike<number>;
  readonly u: ArrayLike<number>;
}

/** Accounts that weigh less than this change no figure that is shown. */
const NEGLIGIBLE = 1e-9;

/** Splits the posterior variance of a figure that is linear in the profile.
 *  weights: on the spline's coefficients, one each; placements: the readings that the profile was fitted
 *  to, in the same order; modes: what bends the whole profile at once, independent of the readings.
 *  A reading's part is the square of its uncertainty times the estimator's sensitivity to it; what the
 *  smoothness of the spline leaves open between readings is worked out on its own and not as a rest, so
 *  that the sum is a check. Linear in the number of readings.
 *  Throws RangeError where weights, readings or modes do not fit the profile.
 *  Accuracy: exact dense kriging to 1e-7 where the figure is taken at stations, GUM H.3 in the limit of a
 *  straight line (test/fit/budget.test.ts). Source: JCGM 100:2008 (GUM) 5.1.2 for the readings;
 *  Nychka (1988), J. Am. Statist. Assoc. 83, 1134, for the parts of a smoothing spline's variance. */
export function budgetOf(
  profile: Profile,
  weights: Float64Array,
  placements: readonly ReadAt[],
  modes: readonly Pick<SystematicMode, 'name' | 'shape'>[] = [],
): Budget {
  const { basis, components } = profile;
  check(profile, weights, placements, modes);
  const parts = placements.map((p) => new Float64Array(p.x.length));
  const total = components.reduce((sum, c) => sum + c.weight, 0);
  let value = 0;
  let squares = 0;
  let between = 0;
  let asStated = 0;
  let read = 0;
  for (const component of components) {
    if (component.weight < NEGLIGIBLE * total) continue;
    const share = component.weight / total;
    const { noise, roughness, stiffness } = component;
    const mean = dot(weights, component.coefficients.subarray(0, basis.size));
    value += share * mean;
    squares += share * mean * mean;
    const influence = influenceOf(component, weights);
    between += share * (noise ** 4 / roughness ** 2) * penaltyOf(stiffness.penalty, influence);
    placements.forEach((placement, p) => {
      const extra = p === 0 ? undefined : basis.size + 2 * (p - 1);
      const added = addReadings(profile, influence, placement, extra, share * noise ** 2, parts[p]);
      read += added;
      asStated += added / noise ** 2;
    });
  }
  const levels = Math.max(0, squares - value * value);
  const systematic = modes.map(({ shape }) => dot(weights, shape) ** 2);
  return {
    value,
    variance: read + between + levels + systematic.reduce((a, b) => a + b, 0),
    readings: parts,
    between,
    levels,
    systematic,
    noise: asStated > 0 ? Math.sqrt(read / asStated) : 1,
  };
}

/** A⁻¹ times the weights: how the figure answers to each unknown's equation. */
function influenceOf({ factor }: Component, weights: Float64Array): Float64Array {
  const influence = new Float64Array(factor.matrix.size + factor.matrix.extra);
  influence.set(weights);
  solveForward(factor, influence);
  solveBackward(factor, influence);
  return influence;
}

/** ∫ stiffness · (second derivative)² of the spline with these coefficients. */
function penaltyOf(penalty: Float64Array, c: Float64Array): number {
  const size = penalty.length / 4;
  let sum = 0;
  for (let j = 0; j < size; j++) {
    for (let d = 0; d < 4 && j + d < size; d++) {
      sum += (d === 0 ? 1 : 2) * penalty[4 * j + d] * c[j] * c[j + d];
    }
  }
  return sum;
}

/** Adds `times` each reading's part and gives their sum: with sensitivity (row · influence) / u², a part is
 *  (row · influence / u)². */
function addReadings(
  { basis, domain: [low, high] }: Profile,
  influence: Float64Array,
  { x, u }: ReadAt,
  extra: number | undefined,
  times: number,
  into: Float64Array,
): number {
  const values = new Float64Array(4);
  let sum = 0;
  for (let i = 0; i < x.length; i++) {
    const place = Math.min(1, Math.max(0, (x[i] - low) / (high - low)));
    const first = basis.valuesAt(place, values);
    let answer = 0;
    for (let a = 0; a < 4; a++) answer += values[a] * influence[first + a];
    if (extra !== undefined) answer -= influence[extra] + place * influence[extra + 1];
    const part = times * (answer / u[i]) ** 2;
    into[i] += part;
    sum += part;
  }
  return sum;
}

function check(
  { basis, n, components }: Profile,
  weights: Float64Array,
  placements: readonly ReadAt[],
  modes: readonly Pick<SystematicMode, 'name' | 'shape'>[],
): void {
  if (weights.length !== basis.size) {
    throw new RangeError(`${basis.size} weights expected, got ${weights.length}`);
  }
  const count = placements.reduce((sum, p) => sum + p.x.length, 0);
  const lines = components[0].factor.matrix.extra / 2 + 1;
  if (count !== n || placements.length !== lines) {
    throw new RangeError(
      `the ${n} readings in ${lines} placements that were fitted expected, got ${count} in ${placements.length}`,
    );
  }
  for (const { name, shape } of modes) {
    if (shape.length !== basis.size) {
      throw new RangeError(`${name}: ${basis.size} coefficients expected, got ${shape.length}`);
    }
  }
}
