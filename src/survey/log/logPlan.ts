import type { Column, Columns, LengthColumn } from '../csv/columns.ts';
import type { CountedUnit } from '../units.ts';
import { plainScale, type PlainScale } from './plainNumber.ts';
import { isTimeHeader } from './readTime.ts';

/** Which cells of a log's rows are looked at, and for what. */
export interface LogPlan {
  readonly station: number;
  readonly stationScale: PlainScale;
  /** The gap's column, or in the wide form one a line. */
  readonly gaps: readonly number[];
  readonly gapScale: PlainScale;
  readonly time: number | undefined;
  readonly weight: number | undefined;
  /** Cells that say the same in row after row: which line, how laid, with what. */
  readonly shared: readonly number[];
  /** Cells whose row is read with care where anything stands in them. */
  readonly careful: readonly number[];
  /** Cells whose row is read with care where it has no gap. */
  readonly besideBlank: readonly number[];
}

const CAREFUL: readonly Column['is'][] = ['void', 'later', 'station_typed', 'gap_typed'];

export function logPlan(
  { columns }: Columns,
  units: ReadonlyMap<LengthColumn, CountedUnit>,
): LogPlan {
  const places = (wanted: (column: Column) => boolean): readonly number[] =>
    columns.flatMap((column, place) => (wanted(column) ? [place] : []));
  const [station] = places(({ is }) => is === 'station');
  const gaps = places(({ is }) => is === 'gap' || is === 'a line');
  const [time] = places(({ is, header }) => is === 'unknown' && isTimeHeader(header));
  const [weight] = places(({ is }) => is === 'weight');
  const besideBlank = places(({ is }) => is === 'note');
  const careful = places(({ is }) => CAREFUL.includes(is));
  const apart = new Set([station, ...gaps, time, weight, ...besideBlank, ...careful]);
  return {
    station,
    stationScale: plainScale(units.get('station') ?? { unit: 'mm' }),
    gaps,
    gapScale: plainScale(units.get('gap') ?? { unit: 'mm' }),
    time,
    weight,
    shared: places((column) => column.is !== 'unknown').filter((place) => !apart.has(place)),
    careful,
    besideBlank,
  };
}
