import { budgetOf, type Budget } from '../fit/budget.ts';
import { countedWeights } from '../fit/countedWeights.ts';
import { coverage95, effectiveDof } from '../fit/coverage.ts';
import { tailWeights } from '../fit/tail.ts';
import type { Judged, LineAssessment, SurveyAssessment } from './assessment.ts';
import { edgeSources, readingSources, type BudgetSource } from './budgetSources.ts';
import { readingUncertainties } from './readingUncertainties.ts';
import { wholeShares } from './shares.ts';
import { columnUncertainties } from './usableColumns.ts';

/** One source of a result's uncertainty, with what it brings. */
export interface BudgetPart extends BudgetSource {
  /** Standard uncertainty that it brings to the result, in the result's unit. */
  readonly contribution: number;
  /** Of the result's variance, whole per cent; the shares of a result add up to 100. */
  readonly share: number;
}

/** Where the uncertainty of one result of a line comes from. Hollow and hump in mm, tail in degrees. */
export interface ResultBudget {
  readonly of: 'hollow' | 'hump' | 'tail';
  /** The one chord that is taken apart; absent for the tail. mm. */
  readonly chord?: { readonly at: number; readonly from: number; readonly to: number };
  readonly value: number;
  readonly parts: readonly BudgetPart[];
  /** Combined standard uncertainty. */
  readonly u: number;
  /** Effective degrees of freedom; absent where no source has any. */
  readonly dof?: number;
  readonly coverage: number;
  /** For 95 %: coverage times u. */
  readonly expanded: number;
  /** How many times its stated uncertainty a reading is taken to have, by the readings' own evidence. */
  readonly noise: number;
  /** What the verdict shows for it, from the whole posterior: of the deepest chord wherever it lies. */
  readonly shown: { readonly value: number; readonly u: number };
}

/** Uncertainty budgets of a judged line: deepest hollow, highest hump and tail angle, each where it is given
 *  and has a place to be taken apart at. Empty for a line that was not judged from its readings; as it was found where these
 *  stayed behind.
 *  The parts of each add up to its variance, and every result of a line has the same sources in the same order
 *  (GUM 5.1.2, the systematic ones independent of the rest). */
export function lineBudget(
  { outcome }: LineAssessment,
  assessment: Pick<SurveyAssessment, 'tolerance' | 'repeatability' | 'edges' | 'survey'>,
): readonly ResultBudget[] {
  if (!outcome.ok) return [];
  if (!outcome.fitted) return outcome.apart?.budget ?? [];
  const { profile, columns } = outcome.fitted;
  const { repeatability } = assessment;
  const plain = columns.map((each) => ({
    x: each.x,
    u: columnUncertainties(each, repeatability),
  }));
  const sources = [
    ...readingSources(columns, assessment),
    ...edgeSources(
      columns.map(({ placement }) => placement),
      outcome.systematic,
      assessment,
    ),
  ];
  return figuresOf(outcome, assessment.tolerance.over).map(({ weights, ...figure }) => {
    const budget = budgetOf(profile, weights, plain, outcome.systematic);
    return { ...figure, ...resultOf(budget, sources, outcome, assessment) };
  });
}

type Figure = Pick<ResultBudget, 'of' | 'chord' | 'shown'> & { readonly weights: Float64Array };

function figuresOf({ judgement, fitted }: Judged, over: number): readonly Figure[] {
  if (!fitted) return [];
  const { profile } = fitted;
  const { judged, told, tail } = judgement;
  const figures: Figure[] = [];
  for (const of of ['hollow', 'hump'] as const) {
    const { at, from, to, size: value, u } = judgement[of];
    const weights = countedWeights(profile, { at, from, to }, of, { judged, over, told });
    if (weights) figures.push({ of, chord: { at, from, to }, shown: { value, u }, weights });
  }
  const weights = tail && tailWeights(profile, judged[0], tail.over, judged[1]);
  if (tail && weights) {
    figures.push({ of: 'tail', shown: { value: tail.angle, u: tail.u }, weights });
  }
  return figures;
}

function resultOf(
  budget: Budget,
  sources: readonly BudgetSource[],
  { fitted, systematic }: Judged,
  { repeatability }: Pick<SurveyAssessment, 'repeatability'>,
): Omit<ResultBudget, 'of' | 'chord' | 'shown'> {
  let rounding = 0;
  let repeat = 0;
  fitted?.columns.forEach((columns, p) => {
    budget.readings[p].forEach((variance, i) => {
      const own = readingUncertainties(columns, i, repeatability);
      const share = own.rounding ** 2 / (own.rounding ** 2 + own.repeat ** 2);
      rounding += share * variance;
      repeat += (1 - share) * variance;
    });
  });
  const varianceOf = ({ kind, name }: BudgetSource): number => {
    if (kind === 'rounding') return rounding;
    if (kind === 'repeatability') return repeat;
    if (kind === 'between') return budget.between + budget.levels;
    return systematic.reduce(
      (sum, mode, i) => (mode.name === name ? sum + budget.systematic[i] : sum),
      0,
    );
  };
  const variances = sources.map(varianceOf);
  const shares = wholeShares(variances);
  const parts = sources.map((source, i) => ({
    ...source,
    contribution: Math.sqrt(variances[i]),
    share: shares[i],
  }));
  const u = Math.sqrt(budget.variance);
  const dof = effectiveDof(
    parts.map(({ contribution, dof: own }) => ({
      u: contribution,
      ...(own !== undefined && { dof: own }),
    })),
  );
  const coverage = coverage95(dof);
  return {
    value: budget.value,
    parts,
    u,
    ...(dof !== undefined && { dof }),
    coverage,
    expanded: coverage * u,
    noise: budget.noise,
  };
}
