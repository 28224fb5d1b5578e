import type { LineAssessment } from '../survey/assessment.ts';
import type { Typed } from '../survey/survey.ts';
import { SAME_STATION } from '../survey/usable.ts';

/** A station of a line, and whether it was read. */
export interface StationKnown {
  readonly station: number;
  readonly text: string;
  readonly read: boolean;
  readonly said?: { readonly is: 'void' | 'put off'; readonly reason: string };
}

/** Every station that something is known of, or that was to be read. A reading goes before a void, a void before a
 *  putting off. From the transom forward. */
export function stationsOf(
  { line, points }: LineAssessment,
  planned: readonly Typed[],
): readonly StationKnown[] {
  const places: StationKnown[] = [];
  const add = (place: StationKnown) => {
    const known = places.some((each) => Math.abs(each.station - place.station) < SAME_STATION / 2);
    if (!known) places.push(place);
  };
  for (const { station, stationText } of points) add({ station, text: stationText, read: true });
  for (const { voids } of line.placements) {
    for (const { station, reason } of voids) add(unreadable(station, 'void', reason));
  }
  for (const { later } of line.placements) {
    for (const { station, reason } of later) add(unreadable(station, 'put off', reason));
  }
  for (const { mm, text } of planned) add({ station: mm, text, read: false });
  return places.sort((a, b) => a.station - b.station);
}

function unreadable({ mm, text }: Typed, is: 'void' | 'put off', reason: string): StationKnown {
  return { station: mm, text, read: false, said: { is, reason } };
}
