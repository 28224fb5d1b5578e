import { add, divide, exactDifference, multiply, powerOfTwo, subtract } from './doubleDouble.ts';
import type { DoubleDouble } from './doubleDouble.ts';
import { checkPairs, rangeOf } from './pairs.ts';

/** A fitted polynomial y = Σ b_j x^j. */
export interface PolynomialFit {
  readonly ok: true;
  /** b_0, b_1, … for x as given. */
  readonly coefficients: readonly number[];
  /** The same polynomial in (x − centre) ÷ scale, from which it is evaluated without cancelling. */
  readonly centred: {
    readonly centre: number;
    readonly scale: number;
    readonly coefficients: readonly number[];
  };
  readonly n: number;
  readonly dof: number;
  readonly domain: readonly [number, number];
  /** Frobenius condition number of the powers of x as given, each column scaled to unit length: times
   *  2⁻⁵³, how far the last digit of the readings can move a term b_j x^j, as a share of y. */
  readonly condition: number;
  /** Residual standard deviation, in y's unit; absent, with all below but R², when no degree of
   *  freedom is left. */
  readonly residualDeviation?: number;
  /** Standard errors of the coefficients, from the residuals. */
  readonly deviations?: readonly number[];
  readonly covariance?: readonly (readonly number[])[];
  /** Share of the variation about the mean that is explained; absent when every y is the same. */
  readonly rSquared?: number;
}

/** Why a polynomial cannot be fitted: the data's fault, not the caller's. */
export type PolynomialRefusal =
  | {
      readonly ok: false;
      readonly reason: 'too few readings' | 'degenerate';
      readonly n: number;
      readonly needed: number;
    }
  | {
      readonly ok: false;
      readonly reason: 'ill-conditioned';
      readonly n: number;
      readonly condition: number;
      readonly limit: number;
    };

/** Beyond this the last digit of the readings could move a term by more than a 100,000th of y. */
const CONDITION_LIMIT = 1e11;

/** Least-squares polynomial with its covariance.
 *  x, y: same length n ≥ degree + 1, finite; coefficient j in y-unit per x-unit^j.
 *  Solved in polynomials orthogonal on the readings, x centred and scaled, carried with 32 digits; only
 *  then turned into powers of x.
 *  Throws RangeError on unequal lengths, a value that is not finite, a degree that is no whole number
 *  from 0, or coefficients beyond a double's range. Refuses fewer than degree + 1 readings; returns
 *  `degenerate` when they stand at fewer places than that, and `ill-conditioned`, with the condition
 *  number, when the powers of x resemble each other so much that the last digit of a reading would
 *  spoil the coefficients (moving x nearer to its own middle helps).
 *  Accuracy: NIST StRD Norris, Pontius, Wampler1 to 3 and Filip to 13 digits in estimates and in
 *  standard errors (test/fit/polynomial.test.ts).
 *  Source: Forsythe (1957), J. SIAM 5, 74 (orthogonal polynomials by recurrence), the projections
 *  taken from what is left, as in modified Gram-Schmidt (Björck 1967, BIT 7, 1); from memory. */
export function fitPolynomial(
  x: readonly number[],
  y: readonly number[],
  degree: number,
): PolynomialFit | PolynomialRefusal {
  checkPairs(x, y);
  if (!Number.isInteger(degree) || degree < 0) {
    throw new RangeError(`a degree of 0, 1, 2 … expected, got ${degree}`);
  }
  const n = x.length;
  const needed = degree + 1;
  if (n < needed) return { ok: false, reason: 'too few readings', n, needed };
  if (new Set(x).size < needed) return { ok: false, reason: 'degenerate', n, needed };

  const domain = rangeOf(x);
  const centre = domain[0] / 2 + domain[1] / 2;
  const scale = powerOfTwo(Math.max(domain[1] - centre, centre - domain[0]));
  const unit = powerOfTwo(Math.max(...rangeOf(y).map(Math.abs)));
  const basis = orthogonalise(x, y, degree, { centre, scale, unit });

  const condition = conditionOf(x, scale, basis);
  if (!(condition <= CONDITION_LIMIT)) {
    const limit = CONDITION_LIMIT;
    return { ok: false, reason: 'ill-conditioned', n, condition, limit };
  }

  const powers = Array.from({ length: needed }, (_, j) => scale ** j);
  const coefficients = powers.map((p, j) => (combined(basis, 'raw', j)[0] / p) * unit);
  const centredCoefficients = powers.map((_, j) => combined(basis, 'centred', j)[0] * unit);
  const dof = n - needed;
  const rSquared = subtract([1, 0], divide(basis.left, basis.about))[0];
  const fit = {
    ok: true as const,
    coefficients,
    centred: { centre, scale, coefficients: centredCoefficients },
    n,
    dof,
    domain,
    condition,
    ...(y.every((value) => value === y[0]) ? {} : { rSquared }),
  };
  if (dof === 0) return inRange(fit);
  const residualDeviation = Math.sqrt(basis.left[0] / dof) * unit;
  const deviations = powers.map((p, j) => (residualDeviation * Math.sqrt(factor(basis, j, j))) / p);
  const covariance = powers.map((p, j) =>
    powers.map((q, k) => (residualDeviation / p) * (residualDeviation / q) * factor(basis, j, k)),
  );
  return inRange({ ...fit, residualDeviation, deviations, covariance });
}

/** The fitted polynomial at x. */
export function polynomialAt(fit: PolynomialFit, x: number): number {
  const { centre, scale, coefficients } = fit.centred;
  const t = (x - centre) / scale;
  return coefficients.reduceRight((sum, coefficient) => sum * t + coefficient, 0);
}

/** Polynomials orthogonal on the readings, each as coefficients of t = (x − centre) ÷ scale and of
 *  x ÷ scale; their sums of squares; the readings' coefficients on them; the sum of squares of the
 *  readings about their mean and of what the polynomials left. */
interface Basis {
  readonly centred: DoubleDouble[][];
  readonly raw: DoubleDouble[][];
  readonly squares: DoubleDouble[];
  readonly shares: DoubleDouble[];
  readonly about: DoubleDouble;
  readonly left: DoubleDouble;
}

function orthogonalise(
  x: readonly number[],
  y: readonly number[],
  degree: number,
  { centre, scale, unit }: { centre: number; scale: number; unit: number },
): Basis {
  // Scale and unit are powers of two: dividing by them loses nothing.
  const t = x.map((value) => over(exactDifference(value, centre), scale));
  const shift: DoubleDouble = [centre / scale, 0];
  let left: DoubleDouble[] = y.map((value) => [value / unit, 0]);
  let previous: DoubleDouble[] = y.map(() => [0, 0]);
  let current: DoubleDouble[] = y.map(() => [1, 0]);
  const centred: DoubleDouble[][] = [[[1, 0]]];
  const raw: DoubleDouble[][] = [[[1, 0]]];
  const squares: DoubleDouble[] = [];
  const shares: DoubleDouble[] = [];
  let about: DoubleDouble = [0, 0];
  for (let k = 0; ; k++) {
    squares.push(dot(current, current));
    const share = divide(dot(left, current), squares[k]);
    shares.push(share);
    left = left.map((value, i) => subtract(value, multiply(share, current[i])));
    if (k === 0) about = dot(left, left);
    if (k === degree) return { centred, raw, squares, shares, about, left: dot(left, left) };

    const moved = current.map((value, i) => multiply(t[i], value));
    const alpha = divide(dot(moved, current), squares[k]);
    const beta: DoubleDouble = k === 0 ? [0, 0] : divide(squares[k], squares[k - 1]);
    const next = moved.map((value, i) =>
      subtract(subtract(value, multiply(alpha, current[i])), multiply(beta, previous[i])),
    );
    previous = current;
    current = next;
    centred.push(recurrence(centred, k, alpha, beta));
    raw.push(recurrence(raw, k, add(alpha, shift), beta));
  }
}

/** Coefficients of (t − α) p_k − β p_(k−1). */
function recurrence(
  polynomials: readonly (readonly DoubleDouble[])[],
  k: number,
  alpha: DoubleDouble,
  beta: DoubleDouble,
): DoubleDouble[] {
  return Array.from({ length: k + 2 }, (_, j) => {
    let sum: DoubleDouble = j > 0 ? polynomials[k][j - 1] : [0, 0];
    if (j <= k) sum = subtract(sum, multiply(alpha, polynomials[k][j]));
    if (j < k) sum = subtract(sum, multiply(beta, polynomials[k - 1][j]));
    return sum;
  });
}

/** Coefficient j of the fit, in units of scale and y. */
function combined(basis: Basis, form: 'raw' | 'centred', j: number): DoubleDouble {
  let sum: DoubleDouble = [0, 0];
  for (let k = j; k < basis.shares.length; k++) {
    sum = add(sum, multiply(basis.shares[k], basis[form][k][j]));
  }
  return sum;
}

/** Element (j, l) of the inverse of the normal matrix in powers of x ÷ scale. */
function factor({ raw, squares }: Basis, j: number, l: number): number {
  let sum: DoubleDouble = [0, 0];
  for (let k = Math.max(j, l); k < squares.length; k++) {
    sum = add(sum, divide(multiply(raw[k][j], raw[k][l]), squares[k]));
  }
  return sum[0];
}

/** √Σ‖a_j‖² · √Σ‖row j of the pseudo-inverse‖² with columns of unit length; the 2-norm condition number
 *  is at most this. Its terms are Stewart's collinearity indices (1987, Statist. Sci. 2, 68). */
function conditionOf(x: readonly number[], scale: number, basis: Basis): number {
  let sum = 0;
  for (let j = 0; j < basis.squares.length; j++) {
    let length = 0;
    for (const value of x) length += (value / scale) ** (2 * j);
    sum += length * factor(basis, j, j);
  }
  const condition = Math.sqrt(basis.squares.length * sum);
  return Number.isNaN(condition) ? Infinity : condition;
}

function inRange(fit: PolynomialFit): PolynomialFit {
  const values = [...fit.coefficients, ...(fit.deviations ?? []), ...(fit.covariance ?? []).flat()];
  const at = values.find((value) => !Number.isFinite(value));
  if (at !== undefined) throw new RangeError(`coefficients within a double expected, got ${at}`);
  return fit;
}

function dot(a: readonly DoubleDouble[], b: readonly DoubleDouble[]): DoubleDouble {
  let sum: DoubleDouble = [0, 0];
  for (let i = 0; i < a.length; i++) sum = add(sum, multiply(a[i], b[i]));
  return sum;
}

function over([high, low]: DoubleDouble, power: number): DoubleDouble {
  return [high / power, low / power];
}
