import type { TailAngle } from '../../fit/tail.ts';
import type { Flap } from './running.ts';

/** The measured tail of a bottom as the flap that it is likened to: as wide as the beam, its chord the tail's length,
 *  its angle the tail's angle; turned down (hook) positive, turned up (rocker) negative. An analogy: the flap formulas
 *  were made from hinged flaps set down, none was turned up. */
export function tailFlap({ angle, over }: Pick<TailAngle, 'angle' | 'over'>): Flap {
  return { chord: over, angle, span: 1, aft: 0 };
}

/** How far a bent bottom may do more or less than a hinged flap of its angle: a factor between these, all as likely.
 *  A house default; nothing is published. */
export const ANALOGY = { low: 0.5, high: 1.5 } as const;

/** The tail of a whole bottom from its lines: the mean angle over the same length. One straightedge read them all, so
 *  their own uncertainties are taken as shared; what the lines differ by comes on top. Undefined without a line.
 *  Throws RangeError where the tails differ in length. */
export function tailOfLines(lines: readonly TailAngle[]): TailAngle | undefined {
  if (lines.length === 0) return undefined;
  const [{ over }] = lines;
  if (lines.some((line) => line.over !== over)) {
    throw new RangeError(
      `tails of one length expected, got ${lines.map((l) => l.over).join(', ')}`,
    );
  }
  const n = lines.length;
  const angle = lines.reduce((sum, line) => sum + line.angle, 0) / n;
  const shared = lines.reduce((sum, line) => sum + line.u, 0) / n;
  const squares = lines.reduce((sum, line) => sum + (line.angle - angle) ** 2, 0);
  const ofMean = n > 1 ? Math.sqrt(squares / (n - 1) / n) : 0;
  return { angle, u: Math.hypot(shared, ofMean), over };
}
