import type { LineAssessment, SurveyAssessment } from '../../src/survey/assessment.ts';
import { nextStepsOf, type NextStep } from '../../src/survey/nextStep.ts';
import { lineWords, verdictWord, type LineWords } from '../../src/survey/verdictWords.ts';

/** A line's verdict in words, with the stations that its next steps ask for. */
export interface LineVerdict extends LineWords {
  readonly steps: readonly NextStep[];
}

export function lineVerdict(line: LineAssessment, all: SurveyAssessment): LineVerdict {
  return { ...lineWords(line, all), steps: nextStepsOf(line, all, all.survey.workUnit) };
}

/** One word a line, by its id: what was proven of its parts, "Undecided", or "Too few readings". */
export function verdictsByLine(
  assessment: SurveyAssessment | undefined,
): ReadonlyMap<string, string> {
  const words = new Map<string, string[]>();
  for (const { line, outcome } of assessment?.lines ?? []) {
    const word = outcome.ok ? verdictWord(outcome.judgement) : 'Too few readings';
    const beside = words.get(line.id);
    if (beside === undefined) words.set(line.id, [word]);
    else if (!beside.includes(word)) beside.push(word);
  }
  return new Map([...words].map(([id, each]) => [id, each.join(', ')]));
}
