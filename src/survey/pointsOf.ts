import { extremes } from '../fit/extremes.ts';
import type { Judgement } from '../fit/judge.ts';
import { placementLines, type Profile } from '../fit/posterior.ts';
import type { ReadingPoint } from './assessment.ts';
import { usableAt, type UsableColumns } from './usableColumns.ts';

/** Columns into which a log is thinned for drawing: the lowest and the highest reading of each are kept, 2,000 marks
 *  in all at most. */
const DRAWN_COLUMNS = 1000;

/** Each reading as a height in the profile's datum; of a log those that keep its picture, its extremes among them.
 *  `limit`: how far forward readings are judged, mm. */
export function pointsOf(
  group: readonly { readonly columns: UsableColumns; readonly u: Float64Array }[],
  { limit, unit }: { readonly limit: number; readonly unit: 'mm' | 'in' },
  fitted?: { readonly profile: Profile; readonly judgement: Judgement },
): ReadingPoint[] {
  const datum = fitted && placementLines(fitted.profile);
  const logs = group.filter(({ columns }) => columns.readings === undefined).length;
  return group
    .flatMap(({ columns, u }, p) => {
      const { x, gap } = columns;
      const height = (i: number): number => {
        if (!fitted || !datum) return -gap[i];
        const { reference } = fitted.judgement;
        const own = datum[p].offset + datum[p].tilt * (x[i] - fitted.profile.domain[0]);
        const line = reference.level + reference.slope * (x[i] - reference.middle);
        return own - gap[i] - line;
      };
      const pointAt = (i: number, z = height(i)): ReadingPoint => {
        const { reading, placement } = usableAt(columns, i, unit);
        const { station, look, source } = reading;
        return {
          station: station.mm,
          stationText: station.text,
          gap: gap[i],
          gapText: reading.gap.text,
          u: u[i],
          placement: placement.id,
          look,
          judged: station.mm <= limit,
          source,
          ...(fitted && { z }),
        };
      };
      if (columns.readings !== undefined) return columns.readings.map((_, i) => pointAt(i));
      const z = Float64Array.from(x, (_, i) => height(i));
      const shown = extremes(x, z, Math.max(1, Math.floor(DRAWN_COLUMNS / logs)));
      return Array.from(shown, (i) => pointAt(i, z[i]));
    })
    .sort((a, b) => a.station - b.station);
}
