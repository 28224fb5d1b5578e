import type { LineAssessment, Remark, SurveyAssessment } from '../../src/survey/assessment.ts';
import { nextStepsOf, type NextStep } from '../../src/survey/nextStep.ts';
import { lineWords, verdictWord, type LineWords } from '../../src/survey/verdictWords.ts';

/** A line's verdict in words, with the stations that its next steps ask for. */
export interface LineVerdict extends Omit<LineWords, 'next'> {
  /** Absent while they are worked out; empty where none could be. */
  readonly steps?: readonly NextStep[];
  /** What can be put right while the edge is still at the line. */
  readonly amiss: readonly string[];
}

const AMISS: readonly Remark['kind'][] = ['placements disagree', 'possible slip'];

/** `acts`: whether it is known what would decide the line. */
export function lineVerdict(
  line: LineAssessment,
  all: SurveyAssessment,
  acts: 'known' | 'working' | 'failed',
): LineVerdict {
  const { word, where, findings, proof, blind } = lineWords(line, all);
  const amiss = all.remarks
    .filter(({ kind, line: name }) => AMISS.includes(kind) && name === line.line.name)
    .map(({ words }) => words);
  const said = { word, where, findings, proof, blind, amiss: line.part === 1 ? amiss : [] };
  if (acts === 'working') return said;
  return { ...said, steps: acts === 'known' ? nextStepsOf(line, all, all.survey.workUnit) : [] };
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
