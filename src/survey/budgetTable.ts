import type { ResultBudget } from './budget.ts';
import { RESULT_TITLES } from './budgetWords.ts';
import type { WorkUnit } from './figures.ts';
import { smallFigure } from './smallFigure.ts';

/** What one source brings to one result: "53 %" and "0.054 mm". */
export interface BudgetCell {
  readonly share: string;
  readonly brings: string;
}

/** The budgets of one line as a table in the terms of the GUM: a row a source, two columns a result, every
 *  figure as text with no more digits than it bears. */
export interface BudgetTable {
  readonly results: readonly string[];
  readonly rows: readonly {
    readonly letter: string;
    readonly source: string;
    readonly basis: string;
    /** Its own standard uncertainty, of a single reading; empty where it has no single size. */
    readonly own: string;
    readonly cells: readonly BudgetCell[];
    readonly type: 'A' | 'B';
    readonly distribution: string;
    /** "GUM 4.3.1". */
    readonly clause: string;
    readonly dof: string;
  }[];
  readonly combined: readonly string[];
  /** "± 0.14 mm", and the factor with its degrees of freedom. */
  readonly expanded: readonly string[];
  readonly coverage: readonly string[];
}

/** results: of one line, so that all have the same sources in the same order; at least one. */
export function budgetTable(results: readonly ResultBudget[], unit: WorkUnit): BudgetTable {
  if (results.length === 0) throw new RangeError('at least one result expected');
  const units = results.map(({ of }) => (of === 'tail' ? '°' : unit));
  return {
    results: results.map(({ of }) => RESULT_TITLES[of]),
    rows: results[0].parts.map((part, i) => ({
      letter: part.letter,
      source: part.name,
      basis: part.basis,
      own: part.u === undefined ? '' : smallFigure(part.u, unit),
      cells: results.map(({ parts }, k) => cellOf(parts[i], units[k])),
      type: part.type,
      distribution: part.distribution,
      clause: `GUM ${part.clause}`,
      dof: part.dof === undefined ? '∞' : String(part.dof),
    })),
    combined: results.map(({ u }, k) => smallFigure(u, units[k])),
    expanded: results.map(({ expanded }, k) => `± ${smallFigure(expanded, units[k])}`),
    coverage: results.map(
      ({ coverage, dof }) =>
        `k = ${coverage.toFixed(2)}, ${dof === undefined ? '∞' : Math.floor(dof)} dof`,
    ),
  };
}

function cellOf(
  { share, contribution }: ResultBudget['parts'][number],
  unit: WorkUnit | '°',
): BudgetCell {
  if (contribution === 0) return { share: '0 %', brings: 'none' };
  return {
    share: share === 0 ? 'under 1 %' : `${share} %`,
    brings: smallFigure(contribution, unit),
  };
}
