import { slopeWeights } from '../functionals.ts';
import { normalTail } from '../normalTail.ts';
import { PROVEN } from '../proven.ts';
import type { SystematicMode } from '../systematic.ts';
import type { Panel } from './fitPanel.ts';
import { linearFigure } from './linearFigure.ts';

/** How the outermost line of a panel turns against the innermost. */
export interface Twist {
  /** Degrees; positive where the outer line stands out more towards the water the farther forward. */
  readonly angle: number;
  /** Standard uncertainty, degrees. */
  readonly u: number;
  /** How far that lifts the fourth corner off the plane of the other three, over `over`; same sign. */
  readonly corner: number;
  readonly cornerU: number;
  readonly over: number;
  /** Probability that the corner is off by more than the tolerance, either way. */
  readonly probability: number;
  readonly verdict: 'twisted' | 'not twisted' | 'undecided';
}

/** Twist over the stretch `from` to `to`, its corner taken over no more than the tolerance's length. Undefined where no
 *  diagonal was laid: nothing that was read tells of it. Exact from the posterior: no draws. */
export function twistOf(
  panel: Panel,
  [from, to]: readonly [number, number],
  { tolerance, over }: { readonly tolerance: number; readonly over: number },
  systematic: readonly SystematicMode[] = [],
): Twist | undefined {
  if (panel.datum !== 'plane') return undefined;
  const length = Math.min(over, to - from);
  let mean = 0;
  let square = 0;
  let probability = 0;
  const parts = linearFigure(panel, twistRow(panel, [from, to]), systematic);
  for (const { weight, centre, variance } of parts) {
    mean += weight * centre;
    square += weight * (variance + centre * centre);
    const s = Math.sqrt(variance) * length;
    const beyond =
      normalTail((tolerance - centre * length) / s) + normalTail((tolerance + centre * length) / s);
    probability += weight * beyond;
  }
  const u = Math.sqrt(Math.max(0, square - mean * mean));
  const degrees = 180 / Math.PI;
  return {
    angle: mean * degrees,
    u: u * degrees,
    corner: mean * length,
    cornerU: u * length,
    over: length,
    probability,
    verdict:
      probability >= PROVEN ? 'twisted' : 1 - probability >= PROVEN ? 'not twisted' : 'undecided',
  };
}

/** Slope of the outermost line less that of the innermost over a stretch, as weights on the unknowns. */
export function twistRow(
  { space, system }: Pick<Panel, 'space' | 'system'>,
  [from, to]: readonly [number, number],
): Float64Array {
  const m = space.lines.length;
  const weights = new Float64Array(system.matrix.size + system.matrix.extra);
  slopeWeights(space, from, to).forEach((w, k) => {
    weights[k * m] = -w;
    weights[k * m + m - 1] = w;
  });
  return weights;
}
