import { fitLine, lineAt, type LineFit, type LineRefusal } from './line.ts';

/** How far a profile departs from its own least-squares line, in z's unit, none of them negative. */
export interface Straightness {
  readonly ok: true;
  /** Peak to valley: STRp + STRv. */
  readonly STRt: number;
  /** Peak to reference: the largest deviation outward. */
  readonly STRp: number;
  /** Reference to valley: the largest deviation inward. */
  readonly STRv: number;
  /** Root mean square of the deviations, each reading counted once: where readings stand unevenly
   *  this is not the mean over the length. */
  readonly STRq: number;
  /** Deviation of each reading, in the order given, positive outward. */
  readonly deviations: readonly number[];
  /** The reference line the deviations are taken from. */
  readonly line: LineFit;
  readonly n: number;
  readonly domain: readonly [number, number];
}

/** Straightness of a profile on the least-squares reference line.
 *  x, z: same length n ≥ 2, finite, in any order; z positive outward from the material, deviations
 *  measured along z (square to the nominal direction, fine for slopes of a few hundredths).
 *  Of the readings as they stand: no filter, no allowance for their uncertainty.
 *  Throws RangeError on unequal lengths or a value that is not finite; refuses as `fitLine` does.
 *  Accuracy: closed forms of a parabola to 12 digits (test/fit/straightness.test.ts).
 *  Source: ISO 12780-1:2011, parameters STRt, STRp, STRv and STRq on the least squares reference line;
 *  symbols from memory of the standard. */
export function straightness(
  x: readonly number[],
  z: readonly number[],
): Straightness | LineRefusal {
  const line = fitLine(x, z);
  if (!line.ok) return line;
  const deviations = x.map((at, i) => z[i] - lineAt(line, at).y);
  let STRp = 0;
  let STRv = 0;
  let squares = 0;
  for (const deviation of deviations) {
    if (deviation > STRp) STRp = deviation;
    if (-deviation > STRv) STRv = -deviation;
    squares += deviation * deviation;
  }
  const STRq = Math.sqrt(squares / line.n);
  const { n, domain } = line;
  return { ok: true, STRt: STRp + STRv, STRp, STRv, STRq, deviations, line, n, domain };
}
