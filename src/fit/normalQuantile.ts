/** The standard normal quantile of a probability in (0, 1), to about 7 digits
 *  (test/fit/normalQuantile.test.ts). Throws RangeError outside.
 *  Source: Wichura (1988), Algorithm AS 241 (PPND7), Applied Statistics 37, 477. */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`a probability between 0 and 1 expected, got ${p}`);
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (
      (q * (((59.10937472 * r + 159.29113202) * r + 50.434271938) * r + 3.3871327179)) /
      (((67.18756362 * r + 78.757757664) * r + 17.895169469) * r + 1)
    );
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const size = r <= 5 ? near(r - 1.6) : far(r - 5);
  return q < 0 ? -size : size;
}

function near(r: number): number {
  return (
    (((0.17023821103 * r + 1.3067284816) * r + 2.75681539) * r + 1.4234372777) /
    ((0.12021132975 * r + 0.7370016425) * r + 1)
  );
}

function far(r: number): number {
  return (
    (((0.017337203997 * r + 0.42868294337) * r + 3.081226386) * r + 6.657905115) /
    ((0.012258202635 * r + 0.24197894225) * r + 1)
  );
}
