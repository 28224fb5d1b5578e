import { exactLength } from './exactText.ts';
import { blockUnder } from './edge/blockUnder.ts';
import type { Placement, Reading, Survey } from './survey.ts';
import { houseDivision, readingSpread, usableReadings, type UsableReading } from './usable.ts';
import type { Repeatability } from './assessment.ts';

/** A placement's usable readings as columns, from aft forward: block taken off, gauge and edge corrected. Of a hand
 *  survey each is also there by itself; of a log, whose readings are too many for that, `usableAt` makes one up. */
export interface UsableColumns {
  readonly placement: Placement;
  readonly x: ArrayLike<number>;
  readonly gap: ArrayLike<number>;
  /** Absent in a log. */
  readonly readings?: readonly UsableReading[];
  /** Of a log: division of its gauge, and what each reading averages. */
  readonly division?: number;
  readonly weight?: ArrayLike<number>;
}

/** How many readings a placement has, those of a log before they were averaged. */
export function readingCount({ readings, log }: Pick<Placement, 'readings' | 'log'>): number {
  return readings.length + (log === undefined ? 0 : log.count);
}

/** Arguments as for `usableReadings`. Throws RangeError on a log whose kept file has not been read. */
export function usableColumns(
  placement: Placement,
  workUnit: Survey['workUnit'],
  resolution?: number,
  edgeError?: (station: number) => number,
): UsableColumns {
  if (placement.log === undefined) {
    const readings = usableReadings(placement, workUnit, resolution, edgeError);
    return {
      placement,
      x: readings.map((r) => r.reading.station.mm),
      gap: readings.map((r) => r.gap),
      readings,
    };
  }
  const { series, count } = placement.log;
  if (series === undefined) {
    throw new RangeError(
      `placement ${placement.name}: a log of ${count} readings whose kept file was read is expected`,
    );
  }
  if (placement.readings.length > 0) {
    throw new RangeError(
      `placement ${placement.name}: a log, or readings one by one, are expected, got both`,
    );
  }
  const { x, weight } = series;
  const division = resolution ?? placement.division ?? houseDivision(workUnit);
  const half = placement.reads === 'last leaf' ? division / 2 : 0;
  const plain = half === 0 && edgeError === undefined && placement.held !== 'blocks';
  const gap = plain
    ? series.gap
    : series.gap.map((read, i) => {
        const block = blockUnder(placement, x[i]);
        const clear = block === undefined ? read + half : read + half - block;
        return edgeError === undefined ? clear : clear + edgeError(x[i]);
      });
  return { placement, x, gap, division, ...(weight !== undefined && { weight }) };
}

/** Standard uncertainty of each reading. */
export function columnUncertainties(
  { readings, x, division, weight }: UsableColumns,
  repeatability: Repeatability,
): Float64Array {
  const u = new Float64Array(x.length);
  if (readings !== undefined) {
    readings.forEach((r, i) => {
      u[i] = readingSpread(r.division, r.reading.weight, repeatability);
    });
    return u;
  }
  const step = division as number;
  u.fill(readingSpread(step, undefined, repeatability));
  if (weight === undefined) return u;
  for (let i = 0; i < u.length; i += 1) {
    if (weight[i] !== 1) u[i] = readingSpread(step, weight[i], repeatability);
  }
  return u;
}

/** One reading by itself. */
export function usableAt(columns: UsableColumns, i: number, unit: 'mm' | 'in'): UsableReading {
  const { placement, readings, x, gap, division } = columns;
  if (readings !== undefined) return readings[i];
  const { log } = placement;
  const typed = (mm: number) => ({ mm, text: exactLength(mm, unit) });
  const reading: Reading = {
    station: typed(x[i]),
    gap: typed(log?.series === undefined ? gap[i] : log.series.gap[i]),
    look: 1,
    source: `row ${log?.series === undefined ? i + 1 : log.series.row[i]}`,
    ...(columns.weight !== undefined && columns.weight[i] !== 1 && { weight: columns.weight[i] }),
  };
  return { reading, placement, gap: gap[i], division: division as number };
}
