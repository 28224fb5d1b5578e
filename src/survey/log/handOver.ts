import { splineBasis, type SplineBasis } from '../../fit/splineBasis.ts';
import type { Judged, SurveyAssessment } from '../assessment.ts';
import { withoutSeries } from './withSeries.ts';

/** An assessment as it can be handed from one thread to another: without functions, and without the readings of
 *  logs. `takeOver` makes it whole again, but for the readings that each line was fitted to. */
export interface HandedOver {
  readonly assessment: SurveyAssessment;
}

export function handOver(assessment: SurveyAssessment): HandedOver {
  const survey = withoutSeries(assessment.survey);
  const lines = assessment.lines.map((line) => {
    const { outcome } = line;
    const [own] = withoutSeries({ ...survey, lines: [line.line] }).lines;
    return { ...line, line: own, ...(outcome.ok && { outcome: bare(outcome) }) };
  });
  return { assessment: { ...assessment, survey, lines } };
}

export function takeOver({ assessment }: HandedOver): SurveyAssessment {
  const lines = assessment.lines.map((line) => {
    const { outcome } = line;
    if (!outcome.ok || outcome.profile === undefined) return line;
    const { profile } = outcome;
    const whole = { ...profile, basis: splineBasis(profile.basis.breaks) };
    return { ...line, outcome: { ...outcome, profile: whole } };
  });
  return { ...assessment, lines };
}

function bare({ fitted, ...judged }: Judged): Judged {
  if (fitted === undefined) return judged;
  const { breaks, size, penalty } = fitted.profile.basis;
  const basis = { breaks, size, penalty } as SplineBasis;
  return { ...judged, profile: { ...fitted.profile, basis } };
}
