import { assess } from '../survey/assess.ts';
import { assessPanels } from '../survey/panels/assessPanels.ts';
import { readAssessArguments } from './assessArguments.ts';
import { assessmentJson } from './assessmentJson.ts';
import { assessmentText } from './assessmentText.ts';
import { complain, printable, readSurveyFile } from './surveyFile.ts';

/** `aftrun assess FILE.csv`: the verdict on standard output, what is wrong on standard error. */
export function assessCommand(args: readonly string[]): number {
  const asked = readAssessArguments(args);
  if (!asked.ok) {
    complain(`aftrun assess: ${asked.message}`);
    return 2;
  }
  const read = readSurveyFile(asked.file);
  if (!read) return 1;
  const assessment = assess(read.survey, asked.options);
  const { resolution } = asked.options;
  const panels = read.survey.across && assessPanels(assessment, asked.options);
  process.stdout.write(
    asked.json
      ? `${JSON.stringify(assessmentJson(assessment, resolution, panels))}\n`
      : printable(assessmentText(assessment, read.recognised.assumed, resolution, panels)),
  );
  return 0;
}
