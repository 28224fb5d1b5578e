import type { LineAssessment, Remark, SurveyAssessment } from '../../src/survey/assessment.ts';
import { nextStepsOf, type NextStep } from '../../src/survey/nextStep.ts';
import { lineWords, verdictWord, type LineWords } from '../../src/survey/verdictWords.ts';

/** A line's verdict in words, with the stations that its next steps ask for. */
export interface LineVerdict extends LineWords {
  readonly steps: readonly NextStep[];
  /** What can be put right while the edge is still at the line. */
  readonly amiss: readonly string[];
}

const AMISS: readonly Remark['kind'][] = ['placements disagree', 'possible slip'];

export function lineVerdict(line: LineAssessment, all: SurveyAssessment): LineVerdict {
  const amiss = all.remarks
    .filter(({ kind, line: name }) => AMISS.includes(kind) && name === line.line.name)
    .map(({ words }) => words);
  return {
    ...lineWords(line, all),
    steps: nextStepsOf(line, all, all.survey.workUnit),
    amiss: line.part === 1 ? amiss : [],
  };
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
