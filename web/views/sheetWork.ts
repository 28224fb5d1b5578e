import type { WorkCheck } from '../../src/fairing/checkWork.ts';
import type { PanelTarget } from '../../src/fairing/panel/panelProgramme.ts';
import type { PlanOptions } from '../../src/fairing/plan/options.ts';
import type { WorkPlan } from '../../src/fairing/plan/plan.ts';
import { workPlan } from '../../src/fairing/plan/workPlan.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import type { Stated } from '../../src/survey/fold/readStanding.ts';
import { tiedPanels, type TiedPanel } from '../../src/survey/panels/tiedPanels.ts';
import { remainderPlan, workCheck } from './checkView.ts';
import { tiedOnPaper, type SurfaceOnPaper } from './surfaceOnPaper.ts';

/** What a sheet is asked for, as plain data that goes between threads. */
export interface SheetAsked {
  readonly options: Omit<PlanOptions, 'panel'>;
  /** Whole panels are brought to this, where straightedges laid across tie their lines. */
  readonly panel?: PanelTarget;
  /** The sheet that the survey checks, if it does. */
  readonly checks?: Stated<'sheet'>;
}

export interface SheetWork {
  /** Without the panels that its straightedges across tie: they have been counted and drawn. */
  readonly plan: WorkPlan;
  /** Whole panels as they were found, where they are brought to one target. */
  readonly surfaces: readonly SurfaceOnPaper[];
  /** How the work that was done stands; absent where none is checked. */
  readonly check?: WorkCheck;
}

/** The work that a sheet asks for: a plan of all that is to be done or, where the survey checks an earlier sheet, of
 *  what is left of it, with the check. `before`: the survey that the checked sheet was made from; without it nothing is
 *  checked. Errors as `workPlan`. */
export function sheetWork(
  now: SurveyAssessment,
  { options, panel, checks }: SheetAsked,
  before?: SurveyAssessment,
): SheetWork {
  const tied = panel === undefined ? [] : tiedOnce(now);
  const asked = { ...options, ...(panel && { panel: { target: panel, tied } }) };
  const surfaces = tiedOnPaper(tied, options.unit);
  if (checks === undefined || before === undefined) {
    return { plan: plain(workPlan(now, asked)), surfaces };
  }
  const plan = remainderPlan(checks, now, asked);
  return { plan: plain(plan), surfaces, check: workCheck(checks, before, now, plan) };
}

const fitted = new WeakMap<SurveyAssessment, readonly TiedPanel[]>();

/** Another choice of how to work fits no panel again. */
function tiedOnce(assessment: SurveyAssessment): readonly TiedPanel[] {
  const tied = fitted.get(assessment) ?? tiedPanels(assessment);
  fitted.set(assessment, tied);
  return tied;
}

function plain(plan: WorkPlan): WorkPlan {
  const { panel } = plan.options;
  if (panel === undefined) return plan;
  return { ...plan, options: { ...plan.options, panel: { target: panel.target, tied: [] } } };
}
