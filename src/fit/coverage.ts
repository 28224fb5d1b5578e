/** One part of a combined standard uncertainty. `dof`: its degrees of freedom; absent where it is taken
 *  as known. */
export interface Part {
  readonly u: number;
  readonly dof?: number;
}

/** Effective degrees of freedom of the root of the sum of squares of independent parts; undefined where no
 *  part that counts has any. Throws RangeError on a u below 0 or degrees of freedom not above 0.
 *  Source: Welch (1947) and Satterthwaite (1946), as in JCGM 100:2008 (GUM) G.4.1, equation G.2b. */
export function effectiveDof(parts: readonly Part[]): number | undefined {
  let squares = 0;
  let fourths = 0;
  for (const { u, dof } of parts) {
    if (!(u >= 0)) throw new RangeError(`u of 0 or more expected, got ${u}`);
    squares += u * u;
    if (dof === undefined) continue;
    if (!(dof > 0)) throw new RangeError(`degrees of freedom above 0 expected, got ${dof}`);
    fourths += u ** 4 / dof;
  }
  return fourths === 0 ? undefined : squares ** 2 / fourths;
}

const NORMAL_95 = 1.959963984540054;

/** Factor that takes a standard uncertainty to a two-sided interval of 95 %: Student's t of the degrees
 *  of freedom, the normal one where there are none. The table of GUM G.2 from 5 degrees of freedom up to
 *  its last digit. Throws RangeError below 5, where the series does not reach.
 *  Source: Abramowitz & Stegun (1964), 26.7.5. */
export function coverage95(dof?: number): number {
  if (dof === undefined) return NORMAL_95;
  if (!(dof >= 5)) throw new RangeError(`5 degrees of freedom or more expected, got ${dof}`);
  const z = NORMAL_95;
  return (
    z +
    (z ** 3 + z) / (4 * dof) +
    (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * dof ** 2) +
    (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / (384 * dof ** 3) +
    (79 * z ** 9 + 776 * z ** 7 + 1482 * z ** 5 - 1920 * z ** 3 - 945 * z) / (92160 * dof ** 4)
  );
}
