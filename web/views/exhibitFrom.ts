import type { Standing } from '../../src/book/standing.ts';
import { gatesOf, gateStatementsOf } from '../../src/fairing/gates.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import type { HullState } from '../../src/survey/fold/hullOf.ts';
import { signaturesOf } from '../../src/survey/fold/signaturesOf.ts';
import type { SurveyState } from '../../src/survey/fold/surveyOf.ts';
import { bookSays } from './bookSays.ts';
import type { ExhibitFrom } from './exhibitView.ts';

/** What an exhibit is made of, from a hull's entries. */
export function exhibitFrom({
  stands,
  hull,
  state,
  assessment,
  ...rest
}: {
  readonly stands: Standing;
  readonly hull: HullState;
  readonly state: SurveyState;
  readonly assessment: SurveyAssessment;
} & Pick<ExhibitFrom, 'unit' | 'paper' | 'history'>): ExhibitFrom {
  const { standing } = stands;
  const { key } = state;
  return {
    ...rest,
    assessment,
    hull,
    gates: gatesOf(assessment, gateStatementsOf(standing, key)),
    ...(state.place !== undefined && { place: state.place }),
    ...(state.by !== undefined && { by: state.by }),
    planned: state.plan.stations,
    remarks: state.remarks,
    signatures: signaturesOf(stands, key),
    says: bookSays(stands),
  };
}
