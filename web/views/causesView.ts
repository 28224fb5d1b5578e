import { readFigure, speedOf } from '../../src/running/file/quantity.ts';
import { engineHeight } from '../../src/running/causes/engineHeight.ts';
import { speedUnitNamed, type SpeedUnit } from '../../src/running/speedUnits.ts';
import { agreementOf } from '../../src/survey/causes/agreement.ts';
import { firstTry, orderCauses, type CauseNow } from '../../src/running/causes/orderCauses.ts';
import { outcomeOf } from '../../src/running/causes/outcome.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import { showTolerance } from '../../src/survey/figures.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import { lineWords } from '../../src/survey/verdictWords.ts';

export const TRIAL_CAUTIONS =
  'Calm water, all seated, kill-cord on, a lookout, speed in steps. Local rules and licensed practice come first.';

/** Everything that the page "Is it the bottom?" says. */
export function causesView(
  assessment: SurveyAssessment | undefined,
  complaint: BodyOf<'complaint'> | undefined,
  found: ReadonlyMap<string, BodyOf<'cause'>>,
  unit: 'mm' | 'in',
) {
  const causes = orderCauses(complaint, found);
  const bottom = agreementOf(assessment, complaint);
  const now = new Map(causes.map((each) => [each.cause, each]));
  return {
    /** Stay where they are while they are answered: what was found moves the next test, not the list. */
    causes: orderCauses(complaint, new Map()).map(({ cause }) => now.get(cause) as CauseNow),
    bottom,
    outcome: outcomeOf(causes, bottom),
    /** Only until something was found: from then on the next test leads. */
    first: found.size === 0 ? firstTry(complaint?.does ?? []) : [],
    lines: (assessment?.lines ?? []).map((line) => {
      const { where, word, proof } = lineWords(line, assessment as SurveyAssessment, unit);
      return { key: `${line.line.id} ${line.part}`, where, word, proof };
    }),
  };
}

/** A speed typed by hand: a bare number stands in `unit`. Undefined where it says none above 0. */
export function typedSpeed(
  text: string,
  unit: SpeedUnit,
): { readonly mps: number; readonly text: string } | undefined {
  const typed = text.trim().replace(',', '.');
  const full = /^[\d.]+$/.test(typed) ? `${typed} ${unit}` : typed;
  const mps = readFigure(full, speedOf);
  return mps !== undefined && mps > 0 ? { mps, text: full } : undefined;
}

/** The unit in which the last run was typed; knots before there is one. */
export function speedUnitOf(runs: readonly BodyOf<'sea trial'>[]): SpeedUnit {
  const word = /[a-z/]+$/i.exec(runs.at(-1)?.speed.text.trim() ?? '')?.[0] ?? 'kn';
  return speedUnitNamed(word) ?? 'kn';
}

/** What the rule of thumb says of the engine's height, to read and to keep in the note. */
export function engineHeightWords(setback: number, plate: number, unit: 'mm' | 'in'): string {
  const { says, low, high, by } = engineHeight(setback, plate);
  const show = (mm: number) => showTolerance(mm, unit);
  const stands = `${show(Math.abs(plate))} ${plate < 0 ? 'below' : 'above'} the bottom at ${show(setback)} of setback`;
  const rule = `the rule of thumb puts it ${setback === 0 ? 'level' : `${show(low)} to ${show(high)} above`}`;
  const word = says === 'about right' ? 'about right' : `too ${says} by ${show(by)}`;
  return `Plate ${stands}: ${word}; ${rule}.`;
}
