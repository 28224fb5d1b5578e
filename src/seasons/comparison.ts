import type { Deepest } from '../fit/judge.ts';
import type { Movement, MovementClass } from '../fit/movement.ts';
import type { LineAssessment, SurveyAssessment } from '../survey/assessment.ts';
import type { Line } from '../survey/survey.ts';
import type { Unlike } from './unlike.ts';

/** What a change did to the bottom. */
export type Way = 'hollow deeper' | 'hollow shallower' | 'hump higher' | 'hump lower';

/** A longest stretch that changed one way, or in which no change stands out; mm forward of the transom. */
export interface SectionChange {
  readonly from: number;
  readonly to: number;
  readonly outcome: MovementClass;
  /** Absent where no change stands out. */
  readonly way?: Way;
  readonly probability: number;
}

/** A change of depth or height, mm; `size` is positive. */
export interface SizedChange extends Deepest {
  readonly way: Way;
}

/** What a line did between two surveys. Lengths in mm, angles in degrees. */
export interface Change extends Pick<
  Movement,
  'tail' | 'threshold' | 'visible' | 'stillness' | 'difference' | 'compared'
> {
  readonly ok: true;
  readonly outcome: MovementClass;
  readonly sections: readonly SectionChange[];
  /** The largest departure of the difference, the surface going hollow (`inward`) and going proud (`outward`). */
  readonly inward: SizedChange;
  readonly outward: SizedChange;
  /** What the same straightedge did to both surveys alike cancels; what differs between them counts. */
  readonly edge: 'cancels' | 'counts in both' | 'taken as straight';
}

export interface NotCompared {
  readonly ok: false;
  readonly reason: 'unlike' | 'too few readings' | 'no common stretch';
  /** What differs and was not accepted, where that is why. */
  readonly unlike: readonly Unlike['what'][];
}

/** A line that stands in both surveys. A line judged in parts is compared part by part. */
export interface LineChange {
  readonly first: LineAssessment;
  readonly second: LineAssessment;
  readonly matchedBy: 'offset' | 'landmark';
  /** A line that nobody worked on, named so beforehand. */
  readonly control: boolean;
  readonly outcome: Change | NotCompared;
}

export interface Unmatched {
  readonly line: Line;
  readonly in: 'first' | 'second';
}

/** What the control lines say of everything else: `steady`, the set-up is the same, so that what moved elsewhere is
 *  the hull; `moved`, the set-up changed, and no other change may be laid to the hull. */
export type ControlOutcome = 'none read' | 'steady' | 'moved' | 'cannot tell';

/** Two surveys of one hull side by side. */
export interface Comparison {
  readonly first: SurveyAssessment;
  readonly second: SurveyAssessment;
  /** The change that matters, mm. */
  readonly tolerance: number;
  /** A smaller change is laid to the measuring, mm. */
  readonly least: number;
  /** What is not alike, or not known to be, in the order in which it is to be said. */
  readonly unlike: readonly Unlike[];
  readonly lines: readonly LineChange[];
  readonly unmatched: readonly Unmatched[];
  readonly control: ControlOutcome;
}
