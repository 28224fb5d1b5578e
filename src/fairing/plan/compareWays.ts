import type { SurveyAssessment } from '../../survey/assessment.ts';
import { figuresOf, planOf, sumsOf, untouched } from './lineFigures.ts';
import { WAYS, type Way } from '../../survey/kinds/sheet.ts';
import type { PlanOptions } from './options.ts';
import type { Hindrance, WorkPlan } from './plan.ts';

/** What each way would take, without judging what the lines will be: quick enough to compare while somebody turns a
 *  figure. Names the lines that a way cannot do. Errors as `workPlan`. */
export function compareWays(
  assessment: SurveyAssessment,
  options: Omit<PlanOptions, 'way'>,
): readonly WayCompared[] {
  return WAYS.map((way) => {
    const { worked, setting, widths } = figuresOf(assessment, { ...options, way });
    const { material = {} } = setting;
    const lines = assessment.lines.map((line) => {
      const work = worked.get(line);
      if (work === undefined) return untouched(line);
      return 'is' in work ? work : planOf(work, line, widths, material);
    });
    const impossible = lines.flatMap((plan) =>
      plan.is === 'impossible' ? [{ line: plan.line.name, because: plan.because }] : [],
    );
    return { way, ...sumsOf(lines, widths, material), impossible };
  });
}

export interface WayCompared extends Pick<WorkPlan, 'sides' | 'total'> {
  readonly way: Way;
  readonly impossible: readonly { readonly line: string; readonly because: Hindrance }[];
}
