import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import { verdictWord } from '../../src/survey/verdictWords.ts';

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
