/** A number as the unevaluated sum of two doubles, about 32 digits: `high` is the whole rounded to a
 *  double, `low` what the rounding left.
 *  For sums in which most digits cancel; ranges and infinities are those of a double.
 *  Accuracy: a few units in 2⁻¹⁰⁴ an operation (test/fit/doubleDouble.test.ts, against integers of any size).
 *  Source: Dekker (1971), Numer. Math. 18, 224 (exact product, split at 2²⁷ + 1); Knuth, The Art of
 *  Computer Programming 2, 4.2.2 (exact sum); Joldes, Muller and Popescu (2017), ACM TOMS 44, 15
 *  (algorithms 6 and 10); from memory. */
export type DoubleDouble = readonly [high: number, low: number];

/** a + b, nothing lost. */
export function exactSum(a: number, b: number): DoubleDouble {
  const high = a + b;
  const partOfB = high - a;
  return [high, a - (high - partOfB) + (b - partOfB)];
}

/** a − b, nothing lost. */
export function exactDifference(a: number, b: number): DoubleDouble {
  return exactSum(a, -b);
}

/** a · b, nothing lost while neither factor exceeds 2⁹⁹⁶ and the product's last digit is no subnormal. */
export function exactProduct(a: number, b: number): DoubleDouble {
  const high = a * b;
  const [a1, a0] = split(a);
  const [b1, b0] = split(b);
  return [high, a0 * b0 - (high - a1 * b1 - a0 * b1 - a1 * b0)];
}

export function add(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  const s = exactSum(a[0], b[0]);
  const t = exactSum(a[1], b[1]);
  const v = ordered(s[0], s[1] + t[0]);
  return ordered(v[0], t[1] + v[1]);
}

export function subtract(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  return add(a, [-b[0], -b[1]]);
}

export function multiply(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  const c = exactProduct(a[0], b[0]);
  return ordered(c[0], c[1] + (a[0] * b[1] + a[1] * b[0]));
}

/** a ÷ b by long division, each quotient digit a double; b is not 0. */
export function divide(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  const first = a[0] / b[0];
  const afterFirst = subtract(a, multiply(b, [first, 0]));
  const second = afterFirst[0] / b[0];
  const afterSecond = subtract(afterFirst, multiply(b, [second, 0]));
  return add(ordered(first, second), [afterSecond[0] / b[0], 0]);
}

/** A power of two within a step of a magnitude; 1 for 0. Dividing the magnitude by it loses nothing. */
export function powerOfTwo(magnitude: number): number {
  return magnitude === 0 ? 1 : 2 ** Math.min(1023, Math.floor(Math.log2(magnitude)));
}

/** a + b where a is the larger or 0. */
function ordered(a: number, b: number): DoubleDouble {
  const high = a + b;
  return [high, b - (high - a)];
}

function split(a: number): DoubleDouble {
  const shifted = 134217729 * a;
  const high = shifted - (shifted - a);
  return [high, a - high];
}
