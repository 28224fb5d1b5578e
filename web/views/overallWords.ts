import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import { verdictsByLine } from './verdictsByLine.ts';

/** What is said of a bottom at a glance: a word, and the lines that it is said of. */
export interface Overall {
  readonly word: string;
  /** Names, in the survey's order. */
  readonly lines: readonly string[];
}

const GRAVITY = ['hook', 'rocker', 'undecided', 'too few readings', 'fair'];

/** Every line under its word, the gravest first; a line read in parts stands under the words of them all. */
export function overallWords(assessment: SurveyAssessment): readonly Overall[] {
  const names = new Map(assessment.lines.map(({ line }) => [line.id, line.name]));
  const byWord = new Map<string, string[]>();
  for (const [id, word] of verdictsByLine(assessment)) {
    const lines = byWord.get(word) ?? [];
    lines.push(names.get(id) ?? id);
    byWord.set(word, lines);
  }
  const gravity = (word: string) =>
    GRAVITY.findIndex((each) =>
      word
        .toLowerCase()
        .split(/, | and /)
        .includes(each),
    );
  return [...byWord]
    .map(([word, lines]) => ({ word, lines }))
    .sort((a, b) => gravity(a.word) - gravity(b.word));
}
