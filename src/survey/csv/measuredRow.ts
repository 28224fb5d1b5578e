import type { Direction, ExtraCells, GaugeReads, Placement, Side, Typed } from '../survey.ts';

/** What is said of a laying of the edge besides how it is held and on which support: in its rows, or once for all
 *  above the header. */
export const LAY_KEYS = [
  'block',
  'blockFore',
  'blocksAt',
  'aftEnd',
  'aftMark',
  'face',
  'edge',
  'edgeLength',
  'gauge',
  'division',
  'reads',
] as const;

/** What can be said once, above the header, of every laying in a file. */
export type CommonFacts = Partial<Pick<Placement, 'held' | (typeof LAY_KEYS)[number]>>;

/** What a row says of the laying of the edge that it belongs to. */
export type LayFacts = CommonFacts & Partial<Pick<Placement, 'supportPeriod'>>;

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
  /** Where the straightedge lay across lines. */
  readonly direction?: Direction;
  /** Where it lay right across the keel, over lines of both sides. */
  readonly overKeel?: true;
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
