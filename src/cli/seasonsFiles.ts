import { repairsStated } from '../seasons/repairsStated.ts';
import type { Repair } from '../seasons/repair.ts';
import { dayOf } from '../seasons/season.ts';
import { assess } from '../survey/assess.ts';
import type { SurveyAssessment } from '../survey/assessment.ts';
import type { SeasonsAsked } from './seasonsArguments.ts';
import { complain, complainOfHulls, readSurveyFile } from './surveyFile.ts';

export interface SeasonsRead {
  /** By date where every file has one that can be read, else in the order given. */
  readonly surveys: readonly SurveyAssessment[];
  /** Those of the command line and of the files. */
  readonly repairs: readonly Repair[];
}

/** Surveys of one hull from their files. Undefined where one could not be used; why stands on standard error, as does
 *  what is odd: names of hulls that differ, repairs that cannot be read. */
export function readSeasons({
  files,
  assess: options,
  seasons,
}: SeasonsAsked): SeasonsRead | undefined {
  const surveys = [];
  let failed = false;
  for (const file of files) {
    const read = readSurveyFile(file);
    if (read) surveys.push(read.survey);
    else failed = true;
  }
  if (failed) return undefined;
  complainOfHulls(surveys);
  const stated = repairsStated(surveys);
  for (const text of stated.unreadable) {
    complain(`repair: found '${text}', expected "2026-03-14; P450, P700; what was done"; not used`);
  }
  const dated = surveys.map((survey) => ({ survey, day: dayOf(survey.date) }));
  if (dated.every(({ day }) => day !== undefined)) {
    dated.sort((a, b) => (String(a.day) < String(b.day) ? -1 : a.day === b.day ? 0 : 1));
  }
  return {
    surveys: dated.map(({ survey }) => assess(survey, options)),
    repairs: [...(seasons.repairs ?? []), ...stated.repairs],
  };
}
