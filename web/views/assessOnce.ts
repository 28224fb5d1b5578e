import { assess } from '../../src/survey/assess.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import type { Survey } from '../../src/survey/survey.ts';

/** How many assessments stay known by what their surveys say. */
const KEPT = 24;

const known = new WeakMap<Survey, SurveyAssessment>();
const texts = new WeakMap<Survey, string>();
/** The one kept last at the end. */
const byText = new Map<string, SurveyAssessment>();

/** A survey in words: two that say the same have one verdict. */
export function surveyText(survey: Survey): string {
  const text = texts.get(survey) ?? JSON.stringify(survey);
  texts.set(survey, text);
  return text;
}

/** The assessment of a survey, or of one that says the same, where it has been worked out. Every entry of a hull folds
 *  all its surveys anew, most of them to what they said before. */
export function knownAssessment(survey: Survey): SurveyAssessment | undefined {
  return known.get(survey) ?? byText.get(surveyText(survey));
}

/** The assessment of a survey, worked out on the spot where it is not known. */
export function assessOnce(survey: Survey): SurveyAssessment {
  const assessment = knownAssessment(survey);
  return assessment ?? keep(survey, assess(survey));
}

/** Keeps an assessment that was worked out elsewhere, such as in a thread of its own. */
export function rememberAssessment(survey: Survey, assessment: SurveyAssessment): SurveyAssessment {
  return keep(survey, { ...assessment, survey });
}

function keep(survey: Survey, assessment: SurveyAssessment): SurveyAssessment {
  known.set(survey, assessment);
  const text = surveyText(survey);
  byText.delete(text);
  byText.set(text, assessment);
  for (const [oldest] of byText) {
    if (byText.size <= KEPT) break;
    byText.delete(oldest);
  }
  return assessment;
}
