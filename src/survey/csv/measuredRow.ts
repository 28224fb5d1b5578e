import type { ExtraCells, GaugeReads, Placement, Side, Typed } from '../survey.ts';

/** What a row says of the laying of the edge that it belongs to. */
export type LayFacts = Pick<
  Partial<Placement>,
  | 'held'
  | 'block'
  | 'blocksAt'
  | 'aftEnd'
  | 'aftMark'
  | 'edge'
  | 'edgeLength'
  | 'gauge'
  | 'division'
  | 'reads'
  | 'supportPeriod'
>;

/** One cell of measurement with all that stands around it, read and in mm, not yet judged against its neighbours.
 *  At most one of gap, void and later is there; none of them: the reading is absent. */
export interface MeasuredRow {
  readonly row: number;
  /** Headers, for faults found later. */
  readonly stationColumn: string;
  readonly gapColumn: string;
  /** The line's name where one is given. */
  readonly line?: string;
  readonly side: Side;
  readonly offset: Typed;
  readonly landmark?: string;
  readonly limit?: number;
  readonly placement: string;
  readonly repeat: number;
  readonly lay: LayFacts;
  /** Absent only where the row says no more than that there is such a lay. */
  readonly station?: Typed;
  readonly gap?: Typed;
  readonly void?: string;
  readonly later?: string;
  readonly look: number;
  readonly division?: number;
  readonly reads?: GaugeReads;
  readonly weight?: number;
  readonly note?: string;
  readonly extra?: ExtraCells;
  readonly source: string;
}
