import { describe, expect, it } from 'vitest';
import { assess } from '../../src/survey/assess.ts';
import { lineBudget, type ResultBudget } from '../../src/survey/budget.ts';
import { budgetTable } from '../../src/survey/budgetTable.ts';
import { budgetNotes, budgetWords, worthShowing } from '../../src/survey/budgetWords.ts';
import { bump, lineOf, placementOf, stationsTo, surveyOf } from './madeSurveys.ts';

function part(
  kind: ResultBudget['parts'][number]['kind'],
  letter: string,
  name: string,
  contribution: number,
  share: number,
): ResultBudget['parts'][number] {
  const common = { kind, letter, name, contribution, share } as const;
  return { ...common, basis: 'made', type: 'B', distribution: 'normal', clause: '4.3.1' };
}

const between = 'how the bottom may run between what was read';
const hollow: ResultBudget = {
  of: 'hollow',
  chord: { from: 0, at: 612, to: 1500 },
  value: 2.13,
  parts: [
    part('between', 'B', between, 0.1, 62),
    part('rounding', 'G', 'rounding of the gauge', 0.06, 22),
    part('repeatability', 'A', 'how a reading repeats', 0.05, 16),
  ],
  u: 0.127,
  coverage: 1.96,
  expanded: 0.249,
  noise: 1,
  shown: { value: 2.16, u: 0.122 },
};
const tail: ResultBudget = {
  of: 'tail',
  value: -0.41,
  parts: hollow.parts,
  u: 0.04,
  dof: 42.6,
  coverage: 2.018,
  expanded: 0.0807,
  noise: 1,
  shown: { value: -0.41, u: 0.04 },
};

describe('a budget in words', () => {
  it('says first where most of the doubt comes from, and what would lessen it', () => {
    expect(budgetWords(hollow, 'mm')).toEqual({
      title: 'Hollow',
      headline:
        'Most of the doubt about the hollow (62 %) is what lies between the stations: read closer.',
      figure:
        'Taken apart here: 2.1 mm ± 0.3 mm (95 %) below a straight line laid from 0 to 1500 mm, near 610 mm.',
      notes: [],
    });
    expect(budgetWords(tail, 'in').figure).toBe(
      'Taken apart here: the tail turned up by 0.41° ± 0.09° (95 %).',
    );
  });

  it('does not say most where it is less than half', () => {
    const parts = [
      part('rounding', 'G', 'rounding of the gauge', 0.09, 46),
      part('between', 'B', between, 0.08, 34),
      part('edge', 'S', 'a bow of the straightedge', 0.05, 20),
    ];
    expect(budgetWords({ ...hollow, of: 'hump', parts }, 'mm').headline).toBe(
      'The largest part of the doubt about the hump (46 %) is the rounding of the gauge: use a finer gauge.',
    );
  });

  it.each([
    ['repeatability', 'normal', 'lay the edge again and read the line once more'],
    ['edge', 'rectangular', 'have the straightedge checked, or use one that has been'],
    ['edge', 'normal', 'check the straightedge itself more closely'],
  ] as const)('says what lessens %s, %s', (kind, distribution, lessened) => {
    const top = { ...part(kind, 'X', 'what it is', 0.2, 90), distribution };
    const parts = [top, part('between', 'B', between, 0.05, 10)];
    expect(budgetWords({ ...hollow, parts }, 'mm').headline).toBe(
      `Most of the doubt about the hollow (90 %) is what it is: ${lessened}.`,
    );
  });

  it('says where the verdict’s own figure differs, in size or in uncertainty', () => {
    const wider = { ...hollow, shown: { value: 2.14, u: 0.2 } };
    expect(budgetWords(wider, 'mm').notes).toEqual([
      "The verdict's figure, 2.1 mm ± 0.4 mm, is of the deepest place wherever it may lie, and allows for a corner there; this one is of one straight line at one place of an even bottom: standard uncertainty 0.20 mm there, 0.13 mm here. The verdict goes by its own.",
    ]);
    expect(budgetWords({ ...hollow, shown: { value: 2.3, u: 0.127 } }, 'mm').notes).toHaveLength(1);
    expect(budgetWords({ ...tail, shown: { value: -0.41, u: 0.06 } }, 'mm').notes[0]).toContain(
      '0.060° there, 0.040° here',
    );
  });

  it('is shown for the larger departure and for what is told from none', () => {
    const none = { ...hollow, of: 'hump', shown: { value: 0.1, u: 0.1 } } as const;
    expect(worthShowing([hollow, none, tail])).toEqual([hollow, tail]);
    const flat = { ...hollow, shown: { value: 0.15, u: 0.1 } };
    expect(worthShowing([flat, none])).toEqual([flat]);
    expect(worthShowing([])).toEqual([]);
  });
});

describe('a budget as a table', () => {
  it('has two digits at most, each with its unit, and effective degrees of freedom cut to whole ones', () => {
    const table = budgetTable([hollow, tail], 'mm');
    expect(table.results).toEqual(['Hollow', 'Tail angle']);
    expect(table.rows[0]).toEqual({
      letter: 'B',
      source: between,
      basis: 'made',
      own: '',
      cells: [
        { share: '62 %', brings: '0.10 mm' },
        { share: '62 %', brings: '0.10°' },
      ],
      type: 'B',
      distribution: 'normal',
      clause: 'GUM 4.3.1',
      dof: '∞',
    });
    expect(table.combined).toEqual(['0.13 mm', '0.040°']);
    expect(table.expanded).toEqual(['± 0.25 mm', '± 0.081°']);
    expect(table.coverage).toEqual(['k = 1.96, ∞ dof', 'k = 2.02, 42 dof']);
  });

  it('tells a share of nothing from one that is small', () => {
    const parts = [
      part('between', 'B', between, 0.12, 100),
      part('rounding', 'G', 'rounding of the gauge', 0.004, 0),
      part('repeatability', 'A', 'how a reading repeats', 0, 0),
    ];
    const { rows } = budgetTable([{ ...hollow, parts }], 'mm');
    expect(rows[1].cells).toEqual([{ share: 'under 1 %', brings: '0.004 mm' }]);
    expect(rows[2].cells).toEqual([{ share: '0 %', brings: 'none' }]);
  });

  it('throws RangeError without a result', () => {
    expect(() => budgetTable([], 'mm')).toThrow(RangeError);
  });
});

describe('what is said of a line’s budgets as a whole', () => {
  const gap = bump(2.4, 0, 900);
  const notesOf = (more: Parameters<typeof placementOf>[2] = {}, options = {}) => {
    const assessment = assess(
      surveyOf([lineOf([placementOf(stationsTo(1500, 100), gap, more)])]),
      options,
    );
    const [line] = assessment.lines;
    return budgetNotes(line, lineBudget(line, assessment), assessment);
  };

  it('says that a straightedge nobody checked was taken as straight, and is silent where one is bounded', () => {
    expect(notesOf().join(' ')).toMatch(/taken as straight: its own bow is not in the budget/);
    expect(notesOf({}, { edgeBound: 0.3, edgeLength: 1800 }).join(' ')).not.toMatch(/straight/);
  });

  it('says that blocks drop out', () => {
    const blocks = { held: 'blocks', block: 0, blocksAt: [100, 1400] } as const;
    expect(notesOf(blocks).join(' ')).toMatch(/height of the blocks drops out/);
    expect(notesOf().join(' ')).not.toMatch(/blocks/);
  });

  it('says when readings scatter otherwise than was taken', () => {
    const line = assess(surveyOf([lineOf([placementOf(stationsTo(1500, 100), gap)])])).lines[0];
    const notes = (noise: number) =>
      budgetNotes(line, [{ ...hollow, noise }], { edges: [] }).join(' ');
    expect(notes(1.31)).toBe(
      'The readings scatter more than was taken: what they bring is reckoned with 1.3 times their own uncertainty.',
    );
    expect(notes(0.75)).toMatch(/less than was taken.* 0\.8 times/);
    expect(notes(1.05)).toBe('');
  });
});
