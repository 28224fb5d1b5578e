import type { Repeatability } from '../../../src/survey/assessment.ts';
import type { CanProve, PlannedLine } from '../../../src/survey/canProve.ts';
import type { NextAct } from '../../../src/survey/nextActs.ts';
import type { SurfaceFound } from '../../../src/survey/panels/surfaceFrom.ts';
import type { HandedOver } from '../../../src/survey/handOver.ts';
import type { PlanAim, RecommendedPlan } from '../../../src/survey/recommendedPlan.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import type { HistoryView } from '../../views/exhibitHistory.ts';
import type { HistoryAsked } from '../../views/historyAsked.ts';
import type { SheetAsked, SheetWork } from '../../views/sheetWork.ts';
import type { KeptFile, LogProgress } from '../../store/logJobs.ts';

/** A survey with the kept files that its logs stand in. */
export interface WholeSurvey {
  readonly survey: Survey;
  readonly files: readonly KeptFile[];
}

/** What stations are to reach, with which gauge; `line`: those that are planned now. */
export interface PlanAsked {
  readonly line: PlannedLine;
  readonly aim: PlanAim;
  readonly division: number;
  readonly repeatability: Repeatability;
}

/** What can be asked before anything is read. */
export type AheadJob =
  { readonly do: 'prove'; readonly line: PlannedLine } | ({ readonly do: 'plan' } & PlanAsked);

/** What can be asked of a survey. */
export type SurveyJob =
  | ({ readonly do: 'judge' } & WholeSurvey)
  /** What would decide a line; `line`: its place in the assessment. */
  | ({ readonly do: 'acts'; readonly line: number } & WholeSurvey)
  /** `before`: the survey that a checked sheet was made from. */
  | ({
      readonly do: 'sheet';
      readonly asked: SheetAsked;
      readonly before?: WholeSurvey;
    } & WholeSurvey)
  /** What the hull's other surveys say beside it, which are judged for that. */
  | ({ readonly do: 'history'; readonly asked: HistoryAsked } & WholeSurvey)
  | ({ readonly do: 'surface'; readonly unit: Survey['workUnit'] } & WholeSurvey);

export type JudgeJob = AheadJob | SurveyJob;

export function isAhead(job: JudgeJob): job is AheadJob {
  return job.do === 'prove' || job.do === 'plan';
}

/** What is answered, by what was asked. */
export interface JudgeAnswers {
  readonly prove: CanProve;
  readonly plan: RecommendedPlan;
  readonly judge: HandedOver;
  readonly acts: readonly NextAct[];
  readonly sheet: SheetWork;
  readonly history: HistoryView;
  readonly surface: SurfaceFound;
}

export type JudgeAnswer = JudgeAnswers[JudgeJob['do']];

/** What goes to the thread, and what comes back; `ask` tells questions apart. */
export interface JudgeAsked {
  readonly ask: number;
  readonly job: JudgeJob;
}

export type JudgeSaid = { readonly ask: number } & (
  | { readonly is: 'progress'; readonly progress: LogProgress }
  | { readonly is: 'answer'; readonly answer: JudgeAnswer }
  | { readonly is: 'failed'; readonly reason: string }
);
