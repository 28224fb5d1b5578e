import { assess } from '../../src/survey/assess.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import type { Survey } from '../../src/survey/survey.ts';

const known = new WeakMap<Survey, SurveyAssessment>();

/** The assessment of a survey, worked out once for each state of it: folds give a new survey whenever something else
 *  stands, and the same one as long as nothing does. */
export function assessOnce(survey: Survey): SurveyAssessment {
  let assessment = known.get(survey);
  if (assessment === undefined) {
    assessment = assess(survey);
    known.set(survey, assessment);
  }
  return assessment;
}

/** Keeps an assessment that was worked out elsewhere, such as that of a log in a thread of its own. */
export function rememberAssessment(survey: Survey, assessment: SurveyAssessment): void {
  known.set(survey, { ...assessment, survey });
}
