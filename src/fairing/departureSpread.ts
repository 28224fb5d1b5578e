import { heightsAt } from '../fit/functionals.ts';
import { pairedMoments } from '../fit/pairedMoments.ts';
import { posteriorDraws } from '../fit/posteriorDraws.ts';
import type { PlacementReadings } from '../fit/tied.ts';
import type { LineAssessment } from '../survey/assessment.ts';
import { fitReadings } from '../survey/fitReadings.ts';
import { heightOn, straightReference, type ReferenceKind } from './straightReference.ts';

const PAIRS = 100;
const PLACES = 100;

/** Standard uncertainty of the departure from the reference at each place, mm: in every draw of the profile's whole
 *  posterior the reference is drawn anew, so that where it touches is as unsure as it is. The same readings always
 *  give the same figures. `places` and the tolerance in mm; places within the judged stretch.
 *  Undefined where the line's readings cannot be fitted. */
export function departureSpread(
  line: LineAssessment,
  kind: ReferenceKind,
  tolerance: number,
  places: readonly number[],
): readonly number[] | undefined {
  if (!line.outcome.ok) return undefined;
  const [from, to] = line.outcome.judgement.judged;
  const profile = fitReadings(placementsOf(line), tolerance, to);
  if (!profile.ok) return undefined;
  const x = Array.from({ length: PLACES + 1 }, (_, i) => from + ((to - from) * i) / PLACES);
  const onGrid = heightsAt(profile, x);
  const onPlaces = heightsAt(profile, places);
  const departures = posteriorDraws(profile, 0, PAIRS).map((draw) => {
    const reference = straightReference(kind, { x, z: onGrid(draw) });
    return onPlaces(draw).map((z, i) => z - heightOn(reference, places[i]));
  });
  return places.map((_, i) => pairedMoments(departures.map((draw) => draw[i])).deviation);
}

function placementsOf({ points }: LineAssessment): readonly PlacementReadings[] {
  const placements = new Map<string, { x: number[]; gap: number[]; u: number[] }>();
  for (const { placement, station, gap, u } of points) {
    const known = placements.get(placement) ?? { x: [], gap: [], u: [] };
    placements.set(placement, known);
    known.x.push(station);
    known.gap.push(gap);
    known.u.push(u);
  }
  return [...placements.values()];
}
