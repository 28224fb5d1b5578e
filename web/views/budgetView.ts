import type { LineAssessment, SurveyAssessment } from '../../src/survey/assessment.ts';
import { lineBudget, type BudgetPart, type ResultBudget } from '../../src/survey/budget.ts';
import { budgetTable, type BudgetTable } from '../../src/survey/budgetTable.ts';
import {
  budgetNotes,
  budgetWords,
  worthShowing,
  type BudgetWords,
} from '../../src/survey/budgetWords.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { lineStraightness } from '../../src/survey/lineStraightness.ts';
import { straightnessWords, type StraightnessWords } from '../../src/survey/straightnessWords.ts';
import { hatchPath, type Box } from './hatch.ts';

/** A source's piece of a bar of shares: told by its letter and its hatch, in one ink. */
export interface BarPiece extends Box {
  readonly key: string;
  readonly letter: string;
  /** Empty where the piece is too narrow to hold it. */
  readonly label: string;
  readonly middle: readonly [x: number, y: number];
  readonly hatch: string;
}

export interface ShownBudget extends BudgetWords {
  readonly of: ResultBudget['of'];
  readonly bar: readonly BarPiece[];
  /** The bar in words: "A how a reading repeats 53 %", largest first. */
  readonly shares: readonly {
    readonly letter: string;
    readonly name: string;
    readonly share: string;
  }[];
}

/** How sure a line's figures are, and why; absent parts where the line was not judged. */
export interface BudgetView {
  readonly results: readonly ShownBudget[];
  readonly table?: BudgetTable;
  readonly notes: readonly string[];
  readonly straightness?: StraightnessWords;
}

/** The drawing of a bar, px. */
export const BAR = { width: 320, height: 30, em: 14 } as const;

export function budgetView(
  line: LineAssessment,
  assessment: SurveyAssessment,
  unit: WorkUnit,
): BudgetView {
  const results = worthShowing(lineBudget(line, assessment));
  const found = lineStraightness(line);
  return {
    results: results.map((result) => ({
      of: result.of,
      ...budgetWords(result, unit),
      bar: barOf(result.parts),
      shares: [...result.parts]
        .filter(({ contribution }) => contribution > 0)
        .sort((a, b) => b.contribution - a.contribution)
        .map(({ letter, name, share }) => ({
          letter,
          name,
          share: share === 0 ? 'under 1 %' : `${share} %`,
        })),
    })),
    ...(results.length > 0 && { table: budgetTable(results, unit) }),
    notes: budgetNotes(line, results, assessment),
    ...(found && { straightness: straightnessWords(found, unit) }),
  };
}

/** Pieces as wide as their shares, side by side over the whole bar; a share of 0 has none. */
export function barOf(parts: readonly BudgetPart[]): readonly BarPiece[] {
  const pieces: BarPiece[] = [];
  let x = 0;
  for (const { kind, letter, share } of parts) {
    if (share === 0) continue;
    const box = { x, y: 0, width: (BAR.width * share) / 100, height: BAR.height };
    const whole = `${letter} ${share} %`;
    const room = box.width - 6;
    pieces.push({
      ...box,
      key: `${letter} ${x}`,
      letter,
      label: room >= whole.length * 0.6 * BAR.em ? whole : room >= 0.8 * BAR.em ? letter : '',
      middle: [box.x + box.width / 2, BAR.height / 2],
      hatch: hatchOf(kind, box),
    });
    x += box.width;
  }
  return pieces;
}

function hatchOf(kind: BudgetPart['kind'], box: Box): string {
  switch (kind) {
    case 'between':
      return hatchPath(box, 8, 'rising');
    case 'repeatability':
      return hatchPath(box, 8, 'falling');
    case 'edge':
      return hatchPath(box, 8, 'rising') + hatchPath(box, 8, 'falling');
    case 'rounding':
      return '';
  }
}
