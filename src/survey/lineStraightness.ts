import { minimumZone } from '../fit/minimumZone.ts';
import { straightness } from '../fit/straightness.ts';
import type { LineAssessment } from './assessment.ts';

/** Straightness parameters of the readings of a judged line. Lengths in mm. */
export interface LineStraightness {
  readonly STRt: number;
  readonly STRp: number;
  readonly STRv: number;
  readonly STRq: number;
  /** Peak to valley on the minimum zone. */
  readonly minimumZone: number;
  readonly readings: number;
  /** The stretch that the readings span. */
  readonly from: number;
  readonly to: number;
  /** Largest standard uncertainty of one of these readings. */
  readonly u: number;
  /** More than one: their readings are brought into one datum by the fit. */
  readonly placements: number;
}

/** STRt, STRp, STRv and STRq on the least-squares line and STRt on the minimum zone (ISO 12780-1:2011) of the
 *  readings within the judged stretch, as they stand: no filter, and nothing of the surface between them.
 *  Undefined where the line was not fitted, or fewer than two of its stations lie within the stretch. */
export function lineStraightness({
  outcome,
  points,
}: LineAssessment): LineStraightness | undefined {
  if (!outcome.ok) return undefined;
  const x: number[] = [];
  const z: number[] = [];
  let u = 0;
  const placements = new Set<string>();
  for (const point of points) {
    if (!point.judged || point.z === undefined) continue;
    x.push(point.station);
    z.push(point.z);
    u = Math.max(u, point.u);
    placements.add(point.placement);
  }
  const on = straightness(x, z);
  const zone = minimumZone(x, z);
  if (!on.ok || !zone.ok) return undefined;
  const { STRt, STRp, STRv, STRq, n, domain } = on;
  return {
    ...{ STRt, STRp, STRv, STRq },
    minimumZone: zone.STRt,
    readings: n,
    from: domain[0],
    to: domain[1],
    u,
    placements: placements.size,
  };
}
