import type { Profile } from '../fit/posterior.ts';
import { splineBasis, type SplineBasis } from '../fit/splineBasis.ts';
import type { Judged, LineAssessment, SurveyAssessment } from './assessment.ts';
import { foundOf } from './foundApart.ts';
import { withoutSeries } from './log/withSeries.ts';

/** An assessment as it can be handed from one thread to another: without functions, and without the readings of
 *  logs, of which it has what was found from them. `takeOver` makes it whole again; a line with a log stays without the
 *  readings that it was fitted to. */
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
    if (!outcome.ok) return line;
    const { fitted, apart } = outcome;
    return {
      ...line,
      outcome: {
        ...outcome,
        ...(fitted && { fitted: { ...fitted, profile: whole(fitted.profile) } }),
        ...(apart && { apart: { ...apart, profile: whole(apart.profile) } }),
      },
    };
  });
  return { ...assessment, lines };
}

function bare(line: LineAssessment, outcome: Judged, all: SurveyAssessment): Judged {
  const { fitted, ...judged } = outcome;
  if (fitted === undefined) return judged;
  if (fitted.columns.every(({ placement }) => placement.log === undefined)) {
    return { ...judged, fitted: { ...fitted, profile: plain(fitted.profile) } };
  }
  const found = foundOf(line, all);
  if (found === undefined) return judged;
  const judgedLine = { ...line.line, placements: found.placements };
  const [{ placements }] = withoutSeries({ ...all.survey, lines: [judgedLine] }).lines;
  return { ...judged, apart: { ...found, profile: plain(found.profile), placements } };
}

function plain(profile: Profile): Profile {
  const { breaks, size, penalty } = profile.basis;
  return { ...profile, basis: { breaks, size, penalty } as SplineBasis };
}

function whole(profile: Profile): Profile {
  return { ...profile, basis: splineBasis(profile.basis.breaks) };
}
