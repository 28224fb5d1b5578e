/** One haul-out's measurements in memory: what a CSV file or a hull's entries say, before any judgement.
 *  All lengths in mm. The text as typed is kept beside every number that a person wrote.
 *  Plain readonly data; absent means "not stated", never 0. */

import type { LogReadings } from './log/logReadings.ts';

export type Side = 'port' | 'starboard' | 'centre';

/** A number a person wrote, in mm, with the text as typed. */
export interface Typed {
  readonly mm: number;
  readonly text: string;
}

/** Cells of columns that the tool does not know, by header, as written: kept, never computed with. */
export type ExtraCells = Readonly<Record<string, string>>;

/** One gap at one station of a placement. `look` counts from 1; a second look keeps both readings. */
export interface Reading {
  readonly station: Typed;
  readonly gap: Typed;
  readonly look: number;
  /** Division of the gauge this one was read with, where it differs from the placement's. */
  readonly division?: number;
  /** How that gauge speaks, where it differs from the placement's. */
  readonly reads?: GaugeReads;
  /** How many raw readings were averaged into this one (logs only). */
  readonly weight?: number;
  readonly note?: string;
  /** Where it came from: the row of the file or the id of the entry. */
  readonly source: string;
  readonly extra?: ExtraCells;
}

/** A station that cannot be read, and why. */
export interface VoidStation {
  readonly station: Typed;
  readonly reason: string;
  readonly note?: string;
  readonly source: string;
  readonly extra?: ExtraCells;
}

/** A station put off ("a stand in the way"): to be listed before the person leaves. */
export interface LaterStation {
  readonly station: Typed;
  readonly reason: string;
  readonly note?: string;
  readonly source: string;
  readonly extra?: ExtraCells;
}

export type Held = 'resting' | 'blocks';

/** How a gauge speaks: the mark nearest to the gap, or the last leaf that still went in (reads half a step low). */
export type GaugeReads = 'nearest mark' | 'last leaf';

/** One laying of the edge on a line. Each placement has an offset and a tilt of its own. */
export interface Placement {
  readonly id: string;
  /** The placement's name on the line ("1", "2"), and which laying of it this is. */
  readonly name: string;
  readonly repeat: number;
  readonly held: Held;
  /** Height of the two equal blocks, mm; only with `blocks`. */
  readonly block?: number;
  /** Height of the fore block, mm, where it is not that of the aft one. */
  readonly blockFore?: number;
  /** Where the blocks stand along the line, mm. */
  readonly blocksAt?: readonly [number, number];
  /** Station of the edge's aft end, mm; negative where it overhangs the transom. */
  readonly aftEnd?: number;
  /** Which of the edge's ends is aft. */
  readonly aftMark?: 'A' | 'B';
  /** Which of the edge's faces was towards the hull. */
  readonly face?: Face;
  readonly edge?: string;
  readonly edgeLength?: number;
  readonly gauge?: string;
  readonly division?: number;
  readonly reads?: GaugeReads;
  /** Place in the survey's `support` of what the hull stood on; absent where nobody stated it. Placements of
   *  different periods are never tied. */
  readonly supportPeriod?: number;
  readonly readings: readonly Reading[];
  /** Where it was logged and the readings are too many to be held one by one; `readings` is then empty. */
  readonly log?: LogReadings;
  readonly voids: readonly VoidStation[];
  readonly later: readonly LaterStation[];
}

/** How a straightedge lay across lines: at one station, or on the diagonal. */
export type Direction = 'athwart' | 'diagonal';

/** A gap where a straightedge that lies across meets a line; `line` is that line's id. */
export interface AcrossReading extends Reading {
  readonly line: string;
}

/** On which side a straightedge across lies; `both`: right across the keel of a bottom that is flat there. */
export type AcrossSide = 'port' | 'starboard' | 'both';

/** One laying of the edge across lines of one side, along the panel, so that the deadrise is kept out of it; or, where
 *  the bottom is flat across the keel, across lines of both. Like a
 *  placement on a line it has an offset and a tilt of its own; where it meets a line it sees the height that is read
 *  along it, and so ties the lines it crosses. What is said of stations along an edge is said here of offsets from the
 *  keel: across it, those to starboard, and to port below 0. */
export interface PlacementAcross extends Omit<
  Placement,
  'readings' | 'voids' | 'later' | 'log' | 'aftEnd' | 'aftMark'
> {
  readonly side: AcrossSide;
  readonly direction: Direction;
  readonly readings: readonly AcrossReading[];
  readonly voids: readonly (VoidStation & { readonly line: string })[];
  readonly later: readonly (LaterStation & { readonly line: string })[];
}

export type Face = 'marked' | 'other';

export type EdgeKind = 'bar' | 'taut string' | 'laser line';

/** "Out by at most `size` over `over`": what is stated of an edge; mm. */
export interface EdgeBound {
  readonly size: number;
  readonly over: number;
}

/** How far the two scribed lines of a reversal stand apart at a point of the edge, mm from its end A. Positive
 *  where the first line lies farther from where the edge lay when it was drawn. */
export interface ReversalPoint {
  readonly at: number;
  readonly apart: number;
}

/** Gaps between three edges laid face to face in pairs, their ends A together, at a point mm from there. */
export interface PairsPoint {
  readonly at: number;
  /** Between the edge that is checked and the second, the second and the third, the third and it. */
  readonly withSecond: number;
  readonly secondWithThird: number;
  readonly withThird: number;
}

interface CheckFacts {
  /** When it was made, as written. */
  readonly date?: string;
  /** Which face was checked; the marked one where nobody says. */
  readonly face?: Face;
  /** What its figures were read to, mm. */
  readonly readTo: number;
}

/** A check of an edge that shows a bow. */
export type EdgeCheck =
  | (CheckFacts & { readonly method: 'reversal'; readonly points: readonly ReversalPoint[] })
  | (CheckFacts & { readonly method: 'three edges'; readonly points: readonly PairsPoint[] });

export const MATERIALS = ['aluminium', 'steel'] as const;

/** What an edge sags by under its own weight, as far as it is known. Lengths in mm. */
export type EdgeSag =
  | {
      readonly from: 'section';
      readonly width: number;
      /** Up and down, as the edge is held. */
      readonly depth: number;
      /** Of a box section; absent: solid. */
      readonly wall?: number;
      readonly material: (typeof MATERIALS)[number];
    }
  /** kg/m, and E·I in N·m². */
  | { readonly from: 'stiffness'; readonly weight: number; readonly stiffness: number }
  /** Sag in the middle between two supports at its ends, that far apart. */
  | { readonly from: 'measured'; readonly sag: number; readonly between: number }
  /** A taut string: kg/m, and the pull in N. */
  | { readonly from: 'tension'; readonly weight: number; readonly tension: number };

/** What is known of a straightedge by the name that placements call it by. */
export interface Edge {
  readonly name: string;
  readonly length?: number;
  /** A bar where nobody says. */
  readonly kind?: EdgeKind;
  readonly bound?: EdgeBound;
  readonly checks?: readonly EdgeCheck[];
  readonly sag?: EdgeSag;
}

/** A fore-and-aft line: its side and its offset from the keel along the bottom, mm. */
export interface Line {
  readonly id: string;
  readonly name: string;
  readonly side: Side;
  readonly offset: number;
  readonly landmark?: string;
  /** How far forward this line is judged, mm, where it differs from the survey's. */
  readonly limit?: number;
  readonly placements: readonly Placement[];
}

/** "T over G": the largest gap allowed under an edge of a given length, mm. */
export interface Tolerance {
  readonly gap: number;
  readonly over: number;
  readonly setBy?: string;
  /** True where nobody stated one and the house default stands in. */
  readonly houseDefault: boolean;
}

/** What stands where under the hull, and since when: a timed event. Placements before and after a move are never tied. */
export interface SupportEvent {
  readonly at?: string;
  readonly what: string;
  readonly engine?: 'hung' | 'held' | 'off';
  readonly checkedBy?: string;
}

export interface Survey {
  readonly hull?: string;
  readonly date?: string;
  /** Every `# key: value` of a file, or stated condition of a haul-out, as written. */
  readonly conditions: Readonly<Record<string, string>>;
  readonly support: readonly SupportEvent[];
  readonly tolerance?: Tolerance;
  /** How far forward lines are judged, mm, where stated. */
  readonly limit?: number;
  /** Stated repeatability of a reading, standard uncertainty in mm. */
  readonly repeatability?: number;
  /** Radius of a rounded transom edge, mm. */
  readonly transomRadius?: number;
  /** The unit the person works in, for defaults and for figures shown to them. */
  readonly workUnit: 'mm' | 'in';
  /** `log`: the same station twice in a lay is averaged with its weight rather than a fault. */
  readonly kind: 'hand' | 'log';
  /** What is known of the edges that placements name, beyond their length. */
  readonly edges?: readonly Edge[];
  readonly lines: readonly Line[];
  /** Placements across lines; absent where there are none. */
  readonly across?: readonly PlacementAcross[];
}
