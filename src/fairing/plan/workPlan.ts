import type { SurveyAssessment } from '../../survey/assessment.ts';
import { showTolerance } from '../../survey/figures.ts';
import { figuresOf, GRIND_WEIGHT, planOf, sumsOf, untouched } from './lineFigures.ts';
import type { Feather, PlanOptions } from './options.ts';
import type { Setting } from './plannedWork.ts';
import type { LinePlan, WorkPlan } from './plan.ts';

/** What is to be done to a surveyed bottom: per line the target, fill and grind at each station, patches, what was not
 *  read, and what the line will be; per side and in all what it takes. Lines that are proven hook or rocker are
 *  planned, and those asked for (`also`); a line that is proven fair gets nothing, and one that is undecided is to be
 *  measured first. Nothing is said ahead of the readings or of the judged stretch, and nothing is ground without a
 *  stated limit. The same survey and options always give the same plan.
 *  Lengths in mm. Throws RangeError on options that cannot be meant, and on an assessment whose lines were not fitted
 *  to readings. What cannot be done as asked is a line's `impossible`, with the place and the limit that bind. */
export function workPlan(assessment: SurveyAssessment, options: PlanOptions): WorkPlan {
  const { worked, setting, widths } = figuresOf(assessment, options);
  const { material = {}, feather } = setting;
  const lines = assessment.lines.map((line): LinePlan => {
    const work = worked.get(line);
    if (work === undefined) return untouched(line);
    return 'is' in work ? work : { ...planOf(work, line, widths, material), after: work.after() };
  });
  return {
    options,
    houseDefaults: houseDefaults(options, feather, setting),
    lines,
    ...sumsOf(lines, widths, material),
  };
}

function houseDefaults(
  options: PlanOptions,
  feather: Feather,
  { step, tolerance }: Pick<Setting, 'step' | 'tolerance'>,
): readonly string[] {
  const { unit, way, grindLimit, grindWeight, panel, material = {} } = options;
  const mm = (length: number) => showTolerance(length, unit);
  return [
    ...(panel === undefined
      ? []
      : [
          panel.target === 'one plane'
            ? `Lines that straightedges across tie are brought to one plane, all of a panel when any of it has to be; it may miss the hull at the forward limit by ${mm(tolerance.gap / 2)} (half the tolerance), which the feather takes up.`
            : `Lines that straightedges across tie are brought to straight lines fore and aft together, which stand no more than ${mm(tolerance.gap / 2)} (half the tolerance) off straight athwart; a twist of the panel is left as it is.`,
        ]),
    ...(options.feather === undefined && panel === undefined
      ? [
          `Feathered over the last ${mm(feather.length)} before the forward limit, bending by no more than ${mm(feather.turn * feather.length)} (a tenth of the tolerance).`,
        ]
      : []),
    ...(way === 'least work' && grindLimit !== undefined && grindWeight === undefined
      ? [`Grinding a depth off counts ${GRIND_WEIGHT} times filling it.`]
      : []),
    ...(options.step === undefined ? [`Depths to the nearest ${mm(step)}.`] : []),
    ...(material.pot !== undefined && material.waste === undefined
      ? ['No waste is counted in the pots: state it.']
      : []),
  ];
}
