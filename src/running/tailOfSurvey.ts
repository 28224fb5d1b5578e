import type { TailAngle } from '../fit/tail.ts';
import type { SurveyAssessment } from '../survey/assessment.ts';
import { tailOfLines } from './planing/tailFlap.ts';

/** The tail of a bottom as a survey found it. */
export interface SurveyTail {
  /** Absent where no line gives one. */
  readonly tail?: TailAngle;
  /** Lines that give it, and those of the survey that do not: too short, or over another length. */
  readonly lines: readonly string[];
  readonly without: readonly string[];
}

/** The mean tail of the lines that were judged far enough forward to have one. Where lines have tails over several lengths,
 *  the length that most of them have. */
export function tailOfSurvey({ lines }: SurveyAssessment): SurveyTail {
  const told = lines.flatMap(({ line, outcome }) =>
    outcome.ok && outcome.judgement.tail ? [{ name: line.name, tail: outcome.judgement.tail }] : [],
  );
  const lengths = told.map(({ tail }) => tail.over);
  const most = (over: number) => lengths.filter((one) => one === over).length;
  const over = [...lengths].sort((a, b) => most(b) - most(a) || a - b).at(0);
  const taken = told.filter(({ tail }) => tail.over === over);
  const tail = tailOfLines(taken.map((one) => one.tail));
  const names = new Set(taken.map(({ name }) => name));
  return {
    ...(tail && { tail }),
    lines: [...names],
    without: [...new Set(lines.map(({ line }) => line.name))].filter((name) => !names.has(name)),
  };
}
