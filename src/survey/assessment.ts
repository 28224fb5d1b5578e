import type { Judgement } from '../fit/judge.ts';
import type { Profile } from '../fit/posterior.ts';
import type { SystematicMode } from '../fit/systematic.ts';
import type { EdgeAssessment } from './edge/edgeAssessment.ts';
import type { FoundApart } from './foundApart.ts';
import type { Line, Survey, Tolerance } from './survey.ts';
import type { UsableColumns } from './usableColumns.ts';

/** What a survey's readings prove, line by line: the result of `assess`. Lengths in mm, angles in degrees. */
export interface SurveyAssessment {
  readonly survey: Survey;
  readonly tolerance: Tolerance;
  readonly limit: Limit;
  readonly repeatability: Repeatability;
  /** What was taken of every straightedge that was laid. */
  readonly edges: readonly EdgeAssessment[];
  readonly lines: readonly LineAssessment[];
  readonly remarks: readonly Remark[];
}

/** How far forward lines are judged, and whether anybody said so. */
export interface Limit {
  readonly mm: number;
  readonly houseDefault: boolean;
}

/** Standard uncertainty of repeating one reading, and where it comes from. A house default has one
 *  value per division, so `mm` is then that of the finest gauge used. */
export interface Repeatability {
  readonly mm: number;
  readonly from: 'repeats' | 'stated' | 'house default';
  /** Degrees of freedom, where found from repeats. */
  readonly dof?: number;
}

/** One line judged once. A line whose placements nothing ties, or whose support moved in between,
 *  is judged in parts, never bridged: `part` of `parts`, counted from 1. */
export interface LineAssessment {
  readonly line: Line;
  readonly part: number;
  readonly parts: number;
  /** Usable readings; `stations`: distinct stations among those within the limit. */
  readonly readings: number;
  readonly stations: number;
  readonly outcome: Judged | TooFew;
  /** How many readings were logged, before those of one station were averaged; absent where none was. */
  readonly logged?: number;
  /** Each reading as a height in the profile's datum, for drawing and for the table; of a log those that keep its
   *  picture, 2,000 at most. */
  readonly points: readonly ReadingPoint[];
}

export interface Judged {
  readonly ok: true;
  readonly judgement: Judgement;
  /** What bends the whole profile at once and is in the judgement: what is not known of the straightedges. */
  readonly systematic: readonly SystematicMode[];
  /** What was judged: the profile, and the readings that it was fitted to, one a placement. Absent where a
   *  profile was given and not fitted. */
  readonly fitted?: {
    readonly profile: Profile;
    readonly columns: readonly UsableColumns[];
  };
  /** What was found from the readings, where it was judged in another thread and they stayed there. */
  readonly apart?: FoundApart;
  /** Narrowest and widest spacing of the judged stations, mm. A spacing cannot show a feature shorter
   *  than about three times itself. */
  readonly spacing: { readonly narrowest: number; readonly widest: number };
  /** Standard uncertainty of a single reading, mm (the largest on the line). */
  readonly readingUncertainty: number;
  /** Division of the coarsest gauge used, mm. */
  readonly division: number;
}

export interface TooFew {
  readonly ok: false;
  readonly reason: 'too few readings';
  readonly n: number;
  readonly needed: number;
}

export interface ReadingPoint {
  readonly station: number;
  readonly stationText: string;
  /** Gap as read, block taken off, gauge and straightedge corrected, mm. */
  readonly gap: number;
  readonly gapText: string;
  /** Standard uncertainty of the reading, mm. */
  readonly u: number;
  /** Height in the profile's datum, mm, positive proud; absent where the line could not be fitted. */
  readonly z?: number;
  readonly placement: string;
  readonly look: number;
  readonly judged: boolean;
  readonly source: string;
}

/** Something the readings suggest beyond the verdict of one line, in words. */
export interface Remark {
  readonly about: 'survey' | 'line' | 'placement';
  readonly line?: string;
  readonly kind:
    | 'same departure on every line'
    | 'edge not checked'
    | 'edge not corrected'
    | 'edge check not usable'
    | 'sag not taken off'
    | 'alike port and starboard'
    | 'may recover afloat'
    | 'slipped block'
    | 'readings ahead of the limit'
    | 'placements not tied'
    | 'support moved'
    | 'placement says nothing'
    | 'placements disagree'
    | 'no contact'
    | 'possible slip'
    | 'scatter beyond stated';
  readonly words: string;
}
