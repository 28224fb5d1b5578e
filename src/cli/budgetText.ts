import type { LineAssessment, SurveyAssessment } from '../survey/assessment.ts';
import { lineBudget } from '../survey/budget.ts';
import { budgetTable } from '../survey/budgetTable.ts';
import { budgetNotes, budgetWords, worthShowing } from '../survey/budgetWords.ts';
import { lineStraightness } from '../survey/lineStraightness.ts';
import { straightnessWords } from '../survey/straightnessWords.ts';
import { layOut } from './layOut.ts';

/** How sure a line's figures are and why, and its straightness, as text; empty where the line was not judged. */
export function budgetText(line: LineAssessment, all: SurveyAssessment): string {
  const unit = all.survey.workUnit;
  const results = worthShowing(lineBudget(line, all));
  const found = lineStraightness(line);
  const part = line.parts > 1 ? ` ${line.part}/${line.parts}` : '';
  const said: string[] = [];
  if (results.length > 0) {
    said.push(
      ...results.flatMap((result) => {
        const { headline, figure, notes } = budgetWords(result, unit);
        return [headline, `  ${[figure, ...notes].join(' ')}`];
      }),
      tableText(results, unit),
      ...budgetNotes(line, results, all),
    );
  }
  if (found) {
    const { rows, note } = straightnessWords(found, unit);
    said.push(
      `Straightness: ${rows.map(({ symbol, value }) => `${symbol} ${value}`).join(', ')}. ${note}`,
    );
  }
  if (said.length === 0) return '';
  return `How sure, and why: ${line.line.name}${part}\n${indented(said.join('\n'))}`;
}

function tableText(
  results: Parameters<typeof budgetTable>[0],
  unit: Parameters<typeof budgetTable>[1],
): string {
  const { results: titles, rows, combined, expanded, coverage } = budgetTable(results, unit);
  const heads = titles.flatMap((title) => [title.toLowerCase(), '']);
  return layOut([
    ['source', 'one reading', ...heads, 'evaluation', 'dof'],
    ...rows.map(({ source, basis, own, cells, type, distribution, clause, dof }) => [
      `${source} (${basis})`,
      own,
      ...cells.flatMap(({ share, brings }) => [share, brings]),
      `type ${type}, ${distribution}, ${clause}`,
      dof,
    ]),
    ['combined standard uncertainty', '', ...combined.flatMap((u) => ['100 %', u]), '', ''],
    ['at 95 %', '', ...expanded.flatMap((u) => ['', u]), '', ''],
    ['', '', ...coverage.flatMap((k) => ['', k]), '', ''],
  ]);
}

function indented(text: string): string {
  return text.replace(/^/gm, '  ');
}
