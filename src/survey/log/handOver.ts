import { splineBasis, type SplineBasis } from '../../fit/splineBasis.ts';
import type { Judged, LineAssessment, SurveyAssessment } from '../assessment.ts';
import { foundOf } from '../foundApart.ts';
import { withoutSeries } from './withSeries.ts';

/** An assessment as it can be handed from one thread to another: without functions, and without the readings of
 *  logs, of which it has what was found from them. `takeOver` makes it whole again, but for the readings that each line
 *  was fitted to. */
export interface HandedOver {
  readonly assessment: SurveyAssessment;
}

export function handOver(assessment: SurveyAssessment): HandedOver {
  const survey = withoutSeries(assessment.survey);
  const lines = assessment.lines.map((line) => {
    const { outcome } = line;
    const [own] = withoutSeries({ ...survey, lines: [line.line] }).lines;
    return { ...line, line: own, ...(outcome.ok && { outcome: bare(line, outcome, assessment) }) };
  });
  return { assessment: { ...assessment, survey, lines } };
}

export function takeOver({ assessment }: HandedOver): SurveyAssessment {
  const lines = assessment.lines.map((line) => {
    const { outcome } = line;
    if (!outcome.ok || outcome.apart === undefined) return line;
    const { profile } = outcome.apart;
    const whole = { ...profile, basis: splineBasis(profile.basis.breaks) };
    return { ...line, outcome: { ...outcome, apart: { ...outcome.apart, profile: whole } } };
  });
  return { ...assessment, lines };
}

function bare(
  line: LineAssessment,
  { fitted: _, ...judged }: Judged,
  all: SurveyAssessment,
): Judged {
  const found = foundOf(line, all);
  if (found === undefined) return judged;
  const { breaks, size, penalty } = found.profile.basis;
  const basis = { breaks, size, penalty } as SplineBasis;
  const profile = { ...found.profile, basis };
  const judgedLine = { ...line.line, placements: found.placements };
  const [{ placements }] = withoutSeries({ ...all.survey, lines: [judgedLine] }).lines;
  return { ...judged, apart: { ...found, profile, placements } };
}
