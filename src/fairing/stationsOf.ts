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
 *  putting off. A log was read everywhere: its stations are those of a tape, LOG_STEP apart. From the transom
 *  forward. */
export function stationsOf(
  { line, points, logged }: LineAssessment,
  planned: readonly Typed[],
): readonly StationKnown[] {
  const places: StationKnown[] = [];
  const add = (place: StationKnown) => {
    const known = places.some((each) => Math.abs(each.station - place.station) < SAME_STATION / 2);
    if (!known) places.push(place);
  };
  if (logged === undefined) {
    for (const { station, stationText } of points) add({ station, text: stationText, read: true });
  } else for (const place of alongLog(points)) add(place);
  for (const { voids } of line.placements) {
    for (const { station, reason } of voids) add(unreadable(station, 'void', reason));
  }
  for (const { later } of line.placements) {
    for (const { station, reason } of later) add(unreadable(station, 'put off', reason));
  }
  for (const { mm, text } of planned) add({ station: mm, text, read: false });
  return places.sort((a, b) => a.station - b.station);
}

/** House choice: stations at which a logged line is worked, mm: as close as those of a survey by hand. */
const LOG_STEP = 75;

function alongLog(points: LineAssessment['points']): readonly StationKnown[] {
  const stations = points.map(({ station }) => station);
  const first = Math.ceil(Math.min(...stations) / LOG_STEP);
  const last = Math.floor(Math.max(...stations) / LOG_STEP);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => {
    const station = (first + i) * LOG_STEP;
    return { station, text: `${station} mm`, read: true };
  });
}

function unreadable({ mm, text }: Typed, is: 'void' | 'put off', reason: string): StationKnown {
  return { station: mm, text, read: false, said: { is, reason } };
}
