import type { LineAssessment, SurveyAssessment } from '../survey/assessment.ts';
import { lineBudget, type ResultBudget } from '../survey/budget.ts';
import { lineStraightness } from '../survey/lineStraightness.ts';
import { rounded } from './rounded.ts';

/** Uncertainty budgets of a judged line, one a result that has a place to be taken apart at; mm, of the tail
 *  degrees. Shares are whole per cent and add up to 100. */
export function budgetJson(line: LineAssessment, all: SurveyAssessment) {
  return Object.fromEntries(lineBudget(line, all).map((result) => [result.of, resultJson(result)]));
}

function resultJson({ chord, value, u, dof, coverage, expanded, noise, parts }: ResultBudget) {
  return {
    ...(chord && {
      at: rounded(chord.at, 1),
      from: rounded(chord.from, 1),
      to: rounded(chord.to, 1),
    }),
    value: rounded(value, 4),
    u: rounded(u, 4),
    ...(dof !== undefined && { dof: rounded(dof, 1) }),
    coverage: rounded(coverage, 3),
    expanded: rounded(expanded, 4),
    noise: rounded(noise, 2),
    sources: parts.map((part) => ({
      source: part.kind,
      name: part.name,
      basis: part.basis,
      ...(part.u !== undefined && { u: rounded(part.u, 4) }),
      contribution: rounded(part.contribution, 4),
      share: part.share,
      type: part.type,
      distribution: part.distribution,
      gum: part.clause,
      ...(part.dof !== undefined && { dof: part.dof }),
    })),
  };
}

/** ISO 12780-1 parameters of a judged line's readings, mm. */
export function straightnessJson(line: LineAssessment) {
  const found = lineStraightness(line);
  return (
    found && {
      leastSquares: {
        STRt: rounded(found.STRt, 4),
        STRp: rounded(found.STRp, 4),
        STRv: rounded(found.STRv, 4),
        STRq: rounded(found.STRq, 4),
      },
      minimumZone: { STRt: rounded(found.minimumZone, 4) },
      readings: found.readings,
      placements: found.placements,
      from: rounded(found.from, 3),
      to: rounded(found.to, 3),
      u: rounded(found.u, 4),
    }
  );
}
