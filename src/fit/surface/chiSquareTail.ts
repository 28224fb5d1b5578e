/** Probability that the sum of squares of `dof` standard normal numbers is x or more: the regularised upper incomplete
 *  gamma function, by its series below and its continued fraction above. x from 0, dof from 1.
 *  Accuracy: scipy to 1e-10 (test/fit/surface/chiSquareTail.test.ts).
 *  Source: Abramowitz & Stegun (1964), 6.5.29 and 6.5.31; log Γ by Lanczos' series (1964). */
export function chiSquareTail(x: number, dof: number): number {
  if (!(x >= 0 && x < Infinity)) throw new RangeError(`x from 0 expected, got ${x}`);
  if (!(dof >= 1)) throw new RangeError(`degrees of freedom from 1 expected, got ${dof}`);
  if (x === 0) return 1;
  const [a, half] = [dof / 2, x / 2];
  const scale = Math.exp(a * Math.log(half) - half - logGamma(a));
  if (half < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let k = 1; term > 1e-16 * sum; k++) {
      term *= half / (a + k);
      sum += term;
    }
    return 1 - scale * sum;
  }
  let fraction = half + 1 - a + 2 * 200;
  for (let k = 200; k >= 1; k--) fraction = half + 2 * k - 1 - a - (k * (k - a)) / fraction;
  return scale / fraction;
}

const LANCZOS = [
  676.5203681218851, -1259.1392167224028, 771.3234287776531, -176.6150291621406, 12.507343278686905,
  -0.13857109526572012, 9.984369578019572e-6, 1.5056327351493116e-7,
];

function logGamma(a: number): number {
  const b = a - 1;
  const sum = LANCZOS.reduce((s, c, i) => s + c / (b + i + 1), 0.9999999999998099);
  const t = b + LANCZOS.length - 0.5;
  return 0.5 * Math.log(2 * Math.PI) + (b + 0.5) * Math.log(t) - t + Math.log(sum);
}
