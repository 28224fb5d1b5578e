import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import { BAR, barOf, budgetView } from '../../../web/views/budgetView.ts';
import type { BudgetPart } from '../../../src/survey/budget.ts';
import { lineOf, placementOf, sample, surveyOf } from '../../survey/madeSurveys.ts';

function part(kind: BudgetPart['kind'], letter: string, share: number): BudgetPart {
  const common = { kind, letter, share, contribution: share, name: letter, basis: '' } as const;
  return { ...common, type: 'B', distribution: 'normal', clause: '' };
}

describe('the bar of shares', () => {
  it('is filled from end to end by pieces as wide as their shares', () => {
    const pieces = barOf([
      part('between', 'B', 34),
      part('rounding', 'G', 46),
      part('repeatability', 'A', 0),
      part('edge', 'S', 20),
    ]);
    expect(pieces.map(({ letter }) => letter)).toEqual(['B', 'G', 'S']);
    let x = 0;
    for (const piece of pieces) {
      expect(piece.x).toBeCloseTo(x, 9);
      x += piece.width;
      expect(piece.middle[0]).toBeCloseTo(piece.x + piece.width / 2, 9);
    }
    expect(x).toBeCloseTo(BAR.width, 9);
    expect(pieces[1].width).toBeCloseTo(0.46 * BAR.width, 9);
  });

  it('tells pieces apart by hatch, without colour', () => {
    const hatches = barOf([
      part('between', 'B', 25),
      part('rounding', 'G', 25),
      part('repeatability', 'A', 25),
      part('edge', 'S', 25),
    ]).map(({ hatch, x }) => hatch.replace(/[\d.]+/g, '') + (hatch === '' ? '' : String(x)));
    expect(new Set(hatches).size).toBe(4);
    expect(hatches[1]).toBe('');
  });

  it('writes the share where there is room, else the letter, else nothing', () => {
    const labels = (share: number) =>
      barOf([part('between', 'B', share), part('rounding', 'G', 100 - share)])[0].label;
    expect(labels(60)).toBe('B 60 %');
    expect(labels(10)).toBe('B');
    expect(labels(3)).toBe('');
  });
});

describe('what is shown of how sure a line is', () => {
  it('has the largest share first in words, every source of the bar, and the table', () => {
    const assessment = assess(sample('inches-wide.csv'));
    const view = budgetView(assessment.lines[1], assessment, 'in');
    expect(view.results.map(({ title }) => title)).toEqual(['Hollow', 'Tail angle']);
    for (const { headline, shares, bar } of view.results) {
      expect(shares[0].name).toBe('how a reading repeats');
      expect(headline).toContain(`(${shares[0].share})`);
      expect(bar.map(({ letter }) => letter).sort()).toEqual(
        shares.map(({ letter }) => letter).sort(),
      );
    }
    expect(view.table?.rows.map(({ letter }) => letter)).toEqual(['B', 'G', 'A']);
    expect(view.straightness?.rows).toHaveLength(5);
  });

  it('is nothing for a line that was not judged', () => {
    const assessment = assess(surveyOf([lineOf([placementOf([0, 500, 900], () => 0)])]));
    expect(budgetView(assessment.lines[0], assessment, 'mm')).toEqual({ results: [], notes: [] });
  });
});
