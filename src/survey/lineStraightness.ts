import { minimumZone } from '../fit/minimumZone.ts';
import { straightness } from '../fit/straightness.ts';
import { placementLines } from '../fit/posterior.ts';
import type { LineAssessment } from './assessment.ts';
import { SAME_STATION } from './usable.ts';

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
export function lineStraightness({ outcome }: LineAssessment): LineStraightness | undefined {
  if (!outcome.ok) return undefined;
  if (!outcome.fitted) return outcome.apart?.straightness;
  const { profile, columns } = outcome.fitted;
  const judgedTo = outcome.judgement.judged[1] + SAME_STATION / 2;
  const datum = placementLines(profile);
  const x: number[] = [];
  const z: number[] = [];
  let placements = 0;
  columns.forEach(({ x: at, gap }, p) => {
    const before = x.length;
    for (let i = 0; i < at.length; i++) {
      if (at[i] > judgedTo) continue;
      x.push(at[i]);
      z.push(datum[p].offset + datum[p].tilt * (at[i] - profile.domain[0]) - gap[i]);
    }
    if (x.length > before) placements += 1;
  });
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
    u: outcome.readingUncertainty,
    placements,
  };
}
