import type { Deepest, Verdict } from '../../fit/judge.ts';
import type { Line, Side } from '../../survey/survey.ts';
import type { StraightLine } from '../straightLine.ts';
import type { WorkDepth } from '../workStep.ts';
import type { Camber, Feather, PlanOptions, Way } from './options.ts';

/** Everything a worksheet says of the work, from one survey: the result of `workPlan`. Lengths in mm, areas in mm²,
 *  volumes in mm³, weights in g. Fill and grind are always apart and unsigned. */
export interface WorkPlan {
  readonly options: PlanOptions;
  /** What stands in where nobody stated a figure, in words. */
  readonly houseDefaults: readonly string[];
  /** In the order of the assessment. */
  readonly lines: readonly LinePlan[];
  /** Port, starboard, centre, in that order, where there are lines. */
  readonly sides: readonly SideSum[];
  readonly total: WorkSum;
}

/** Which line is meant: a line read in parts that nothing ties is planned part by part. */
export interface LineFacts {
  readonly line: Line;
  readonly part: number;
  readonly parts: number;
}

/** One line of a plan. `measure first` and `impossible` carry no figure on purpose. */
export type LinePlan = LineFacts &
  (
    | ({ readonly is: 'planned' } & PlannedWork)
    | { readonly is: 'nothing to do'; readonly why: 'proven fair' }
    | { readonly is: 'measure first'; readonly why: 'undecided' | 'too few readings' }
    | { readonly is: 'impossible'; readonly because: Hindrance }
  );

/** What cannot be done, where, and which limit forbids it. */
export interface Hindrance {
  readonly limit:
    | 'no grind limit stated'
    | 'grind limit'
    | 'forward limit too near the transom'
    | 'lines not tied'
    | 'twist not known'
    | 'misses the hull ahead';
  /** Station where it binds most, where it is a matter of stations. */
  readonly at?: number;
  /** What would have to come off there, or by how much the hull is missed, and what may, where that is stated; mm. */
  readonly needs?: number;
  readonly allowed?: number;
  /** The same for a person, with the way out. */
  readonly words: string;
}

export interface PlannedWork {
  readonly target: Target;
  /** Surface before, target and surface after at the places of the profile, from aft forward, in the datum of the
   *  line's judged profile; untouched hull ahead of the forward limit is before and after alike. For drawing. */
  readonly profile: readonly PlanPoint[];
  /** Every station that something is known of or that was planned, from the transom forward. */
  readonly stations: readonly StationWork[];
  /** Where fill and grind lie along the line, from the transom forward. */
  readonly fill: readonly Patch[];
  readonly grind: readonly Patch[];
  /** Amounts of this line alone over the width that it stands for. */
  readonly amounts: Amounts;
  /** Set where the fill is over the person's fill limit: laminate comes first. */
  readonly laminateFirst?: readonly { readonly station: number; readonly fill: WorkDepth }[];
  /** Stations inside or at a patch that were not read, and how to carry over them. */
  readonly carryOver: readonly CarryOver[];
  readonly after: AfterWork;
}

export interface Target {
  readonly way: Way;
  /** From the aft end of the readings to the forward limit. */
  readonly over: readonly [number, number];
  readonly line: StraightLine;
  readonly camber?: Camber;
  readonly feather: Feather;
  /** How the target meets the hull: it equals the surface `at` the forward limit, and turns by `turn` (mm per mm,
   *  positive towards the water going forward) where the feather begins, at `from`. */
  readonly meets: {
    readonly at: number;
    readonly from: number;
    readonly turn: number;
    /** The forward limit that was asked for, where the readings end aft of it. */
    readonly asked?: number;
    /** Turn from the finished surface into the untouched hull ahead, where that was read; `harsher` where it is more
     *  than the feather allows: then move the forward limit. */
    readonly ahead?: { readonly turn: number; readonly harsher: boolean };
  };
  /** The cost that the programme found least: mean depth filled plus weight times mean depth ground, mm. */
  readonly cost: number;
}

export interface PlanPoint {
  readonly x: number;
  readonly before: number;
  readonly target?: number;
  readonly after: number;
  /** Standard uncertainty of the surface's height, mm. */
  readonly u: number;
}

/** One station of a planned line. */
export type StationWork = { readonly station: number; readonly text: string } & (
  | {
      readonly is: 'worked';
      readonly fill: WorkDepth;
      readonly grind: WorkDepth;
      readonly u: number;
    }
  /** Read, but ahead of the forward limit. */
  | { readonly is: 'left alone' }
  /** Read, but not judged. */
  | { readonly is: 'not judged' }
  | { readonly is: 'void' | 'put off'; readonly reason: string }
  | { readonly is: 'unread' }
);

/** A stretch along a line that gets filled, or ground. */
export interface Patch {
  /** Forward of the transom. */
  readonly from: number;
  readonly to: number;
  readonly deepest: { readonly at: number; readonly depth: WorkDepth };
  /** How it ends aft. A first station a little forward of the transom (100 mm at most) stands for it: its figure is
   *  carried straight aft, and `from` is where the readings end. */
  readonly aft: 'runs out' | 'transom' | 'carried aft to the transom' | 'end of the readings';
  /** How it ends forward: it runs out either way. */
  readonly fore: 'runs out' | 'forward limit';
  /** Whether it has a step or more of depth at its aft end, so that it is dammed there and not feathered. */
  readonly dam: boolean;
  /** Section, mm²: depth along the line added up. */
  readonly section: number;
}

/** A range that holds the truth about 95 times of 100, as far as the readings tell; `likely` is the plan's own. */
export interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** What one line takes. Absent where the width it stands for is not known: state it. */
export interface Amounts {
  readonly width?: number;
  readonly fill: { readonly section: Range; readonly area?: number; readonly volume?: Range };
  readonly grind: { readonly section: Range; readonly area?: number; readonly volume?: Range };
  /** Passes that the deepest fill takes under the label's limit, where that is stated. */
  readonly passes?: number;
  /** Whether what is unsure of it is unsure alike on every line (the straightedge). */
  readonly shared: boolean;
  /** Of a line that is worked with its panel: its sections on each surface that the panel's readings leave possible, mm²,
   *  in the same order on every line of the same panel. */
  readonly together?: Together;
}

export interface Together {
  readonly of: string;
  readonly fill: readonly number[];
  readonly grind: readonly number[];
}

export interface WorkSum {
  readonly fill: { readonly area?: number; readonly volume?: Range };
  readonly grind: { readonly area?: number; readonly volume?: Range };
  /** What follows from the stated material; each only where its figures are stated. */
  readonly weight?: Range;
  readonly passes?: number;
  /** Pots to mix, waste included. */
  readonly batches?: Range;
  readonly hours?: Range;
  /** Which lines are not in these sums, by name and why; empty where all are. */
  readonly without: readonly { readonly line: string; readonly why: string }[];
  /** How the sums across the lines were made; `widths`: each section times the width that its line stands for. */
  readonly rule: 'Simpson' | 'trapezoids' | 'mixed' | 'widths' | 'none';
}

export interface SideSum extends WorkSum {
  readonly side: Side;
}

export interface CarryOver {
  readonly station: number;
  readonly text: string;
  readonly is: 'void' | 'put off' | 'unread';
  readonly reason?: string;
  /** The read stations next to it, with what is to be done there. */
  readonly aft?: { readonly station: number; readonly text: string };
  readonly fore?: { readonly station: number; readonly text: string };
  readonly words: string;
}

/** What the line will be if the work is done to the figures: judged like any line, with what was measured unsure as
 *  it is, and each depth as it was rounded. */
export interface AfterWork {
  readonly verdict: readonly Verdict[];
  readonly hollow: Deepest;
  readonly hump: Deepest;
  /** Probability that nothing departs by more than the tolerance. */
  readonly fairness: number;
  readonly rounding: Rounding;
}

export interface Rounding {
  readonly step: number;
  /** The largest difference between a depth and its rounded figure at a station. */
  readonly most: number;
  /** Largest departure that counts of the predicted surface (as likely), with exact depths and with rounded ones. */
  readonly departure: { readonly exact: number; readonly rounded: number };
  /** Whether it is the rounding that takes the departure over the tolerance, or changes the verdict from fair. */
  readonly breaks: boolean;
  /** Set where it breaks: in words, with the step that would do. */
  readonly words?: string;
}
