import { group } from 'd3';
import type { Gates } from '../../src/fairing/gates.ts';
import type { WorkPlan } from '../../src/fairing/plan/plan.ts';
import { WORK_STEP_WORDS } from '../../src/fairing/workStep.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import { showTolerance, type WorkUnit } from '../../src/survey/figures.ts';
import type { HullState } from '../../src/survey/fold/hullOf.ts';
import type { Missing } from '../../src/survey/stillMissing.ts';
import type { Paper, SheetChoices } from './sheetChoices.ts';
import { figuresPlan, type FiguresPlan } from './sheetFigures.ts';
import {
  carryWords,
  controlLine,
  isPlanned,
  leaveAlone,
  limitWords,
  nameOf,
  proofWords,
  sideWork,
  type SideWork,
} from './sheetFirst.ts';
import { sheetLine, type SheetLine } from './sheetLine.ts';
import { materialView, type MaterialView } from './sheetMaterial.ts';
import { otherLines, type OtherLines } from './sheetOthers.ts';
import { sheetPlan, type PlanDrawing } from './sheetPlan.ts';
import { sheetProfile, sheetScale, type ProfileDrawing } from './sheetProfile.ts';
import { CALL_ANYONE, targetWords } from './sheetWords.ts';
import { tiedOnPaper, type SurfaceOnPaper } from './surfaceOnPaper.ts';
import { hullFacts, conditionFacts, standsOn, type Fact } from './sheetFacts.ts';

export interface SheetFrom {
  readonly assessment: SurveyAssessment;
  readonly plan: WorkPlan;
  /** Its whole panels, where they have been drawn. */
  readonly surfaces?: readonly SurfaceOnPaper[];
  readonly gates: Gates;
  readonly choices: SheetChoices;
  readonly unit: WorkUnit;
  readonly hull?: HullState;
  /** Of the survey, where stated. */
  readonly place?: string;
  readonly by?: string;
  /** The sheet as issued; without it the pages are a draft. */
  readonly issued?: {
    readonly number: number;
    readonly date?: string;
    readonly replaces?: number;
    readonly remainderOf?: number;
  };
  /** What nobody has stated of the haul-out. */
  readonly missing?: readonly Missing[];
  /** Whether it is the bottom at all, in a sentence. */
  readonly outcome?: string;
}

/** The whole worksheet in words and drawings, ready to be set. */
export interface SheetView {
  readonly paper: Paper;
  readonly unit: WorkUnit;
  readonly hull: string;
  readonly date: string;
  readonly invented: boolean;
  /** "Sheet 2 of 2026-05-21, replaces sheet 1", or that it is a draft. */
  readonly sheet: string;
  readonly stands: string;
  readonly state: 'GO' | 'STOP';
  readonly why: readonly string[];
  /** What nobody has stated of the haul-out. */
  readonly asks: readonly string[];
  readonly gates: readonly {
    readonly asks: string;
    readonly answer: string;
    readonly passed: boolean;
  }[];
  readonly causes: readonly string[];
  readonly outcome?: string;
  readonly against?: string;
  readonly decision?: string;
  readonly work: readonly SideWork[];
  readonly proof: readonly string[];
  readonly limits: readonly string[];
  readonly leave: readonly string[];
  readonly carry: readonly string[];
  readonly call: string;
  readonly tolerance: string;
  readonly target: string;
  readonly rounding: string;
  readonly plan: PlanDrawing;
  readonly figures?: FiguresPlan;
  /** Whole panels as they were found, where they are brought to one target. */
  readonly surfaces: readonly SurfaceOnPaper[];
  readonly lines: readonly (SheetLine & { readonly profile: ProfileDrawing })[];
  readonly others: readonly OtherLines[];
  /** The line that is read again to see whether the set-up or the hull has changed. */
  readonly control?: string;
  readonly facts: readonly Fact[];
  readonly conditions: readonly Fact[];
  /** What the readings suggest of the whole hull, and which placements contradict each other. */
  readonly remarks: readonly string[];
  readonly material?: MaterialView;
}

/** mm on paper that a profile takes: what both A4 and Letter have between their margins. */
const PROFILE_WIDTH = 184;

/** Everything a worksheet says, from a survey's assessment, the plan of the work, the gates and the person's choices. */
export function sheetView(from: SheetFrom): SheetView {
  const { assessment, plan, gates, hull, choices, unit, missing = [] } = from;
  const { survey, tolerance } = assessment;
  const worked = plan.lines.filter(isPlanned);
  const scale = sheetScale(worked, PROFILE_WIDTH);
  const label = toleranceText(tolerance.gap, tolerance, unit);
  const control = controlLine(plan);
  const figures = figuresPlan(plan, unit);
  const asks = missing.map(({ ask }) => ask);
  const notStated =
    asks.length === 0
      ? []
      : [`Not stated of the haul-out: ${asks.length} things. They are listed on the next page.`];
  // The gates and causes that a reason is about stand below it, each with its answer.
  const why = [
    ...gates.why.map(({ words, about }) => (about.length === 0 ? words : `${words}: see below.`)),
    ...notStated,
  ];
  return {
    paper: choices.paper,
    unit,
    hull: hull?.hull?.name ?? survey.hull ?? 'hull not named',
    date: survey.date ?? 'on a date not stated',
    invented: hull?.hull?.invented === true,
    sheet: sheetWords(from.issued),
    stands: standsOn(survey),
    state: gates.go === 'go' && notStated.length === 0 ? 'GO' : 'STOP',
    why,
    asks,
    gates: gates.gates.map(({ asks, answer, passed }) => ({ asks, answer, passed })),
    // By what was found, so that seven that nobody checked take two lines.
    causes: [...group(gates.causes, ({ found }) => found)].map(
      ([found, causes]) => `${found}: ${causes.map(({ cause }) => cause).join(', ')}`,
    ),
    ...(from.outcome !== undefined && { outcome: from.outcome }),
    ...(gates.against && {
      against: `${gates.against.words} ${
        gates.against.acceptedBy === undefined
          ? 'Nobody has accepted that.'
          : `Accepted by ${gates.against.acceptedBy}.`
      }`,
    }),
    ...(gates.decision && {
      decision: `${gates.decision.by} chose: ${gates.decision.choice}, signed ${gates.decision.signed}${
        gates.decision.date === undefined ? '' : ` on ${gates.decision.date}`
      }.`,
    }),
    work: sideWork(plan, unit),
    proof: proofWords(plan, unit),
    limits: limitWords(plan, unit),
    leave: leaveAlone(hull, plan),
    carry: carryWords(plan),
    call: choices.call === undefined ? CALL_ANYONE : `${CALL_ANYONE} ${choices.call}`,
    tolerance: toleranceSaid(tolerance, unit),
    target: targetWords(plan.options),
    rounding: `Depths ${WORK_STEP_WORDS[unit]}`,
    plan: sheetPlan(assessment, hull),
    ...(figures && { figures }),
    surfaces: from.surfaces ?? tiedOnPaper(plan.options.panel?.tied ?? [], unit),
    lines: worked.map((line) => ({
      ...sheetLine(line, unit, tolerance.gap),
      profile: sheetProfile(line, scale, {
        width: PROFILE_WIDTH,
        tolerance: { gap: tolerance.gap, label },
        unit,
      }),
    })),
    others: otherLines(plan, unit),
    ...(control && { control: nameOf(control) }),
    facts: hullFacts(hull, unit),
    conditions: conditionFacts(from),
    remarks: assessment.remarks
      .filter(({ about, kind }) => about === 'survey' || kind === 'placements disagree')
      .map(({ words }) => words),
    ...(choices.withMaterial && { material: materialView(plan, unit) }),
  };
}

function sheetWords(issued: SheetFrom['issued']): string {
  if (issued === undefined) return 'DRAFT: not issued';
  const { number, date, replaces, remainderOf } = issued;
  return [
    `Sheet ${number}${date === undefined ? '' : ` of ${date}`}`,
    ...(replaces === undefined ? [] : [`replaces sheet ${replaces}: tear that one up`]),
    ...(remainderOf === undefined ? [] : [`holds what is left of sheet ${remainderOf}`]),
  ].join(', ');
}

/** "1.5 mm over 1500 mm, set by the owner", or that nobody set it. */
export function toleranceSaid(tolerance: SurveyAssessment['tolerance'], unit: WorkUnit): string {
  const who = tolerance.houseDefault
    ? 'house default: nobody has set one'
    : tolerance.setBy === undefined
      ? 'who set it is not stated'
      : `set by ${tolerance.setBy}`;
  return `${toleranceText(tolerance.gap, tolerance, unit)} over ${toleranceText(tolerance.over, tolerance, unit)}, ${who}`;
}

/** A house default is told as it is set, in mm: it is no whole fraction of an inch. */
function toleranceText(
  mm: number,
  { houseDefault }: SurveyAssessment['tolerance'],
  unit: WorkUnit,
): string {
  return showTolerance(mm, houseDefault ? 'mm' : unit);
}
