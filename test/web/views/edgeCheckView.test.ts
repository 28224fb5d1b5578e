import { describe, expect, it } from 'vitest';
import type { Straightedge } from '../../../src/survey/fold/hullOf.ts';
import {
  readEdgeCheck,
  startingRows,
  type EdgeCheckAnswers,
} from '../../../web/views/edgeCheckView.ts';

const edge: Straightedge = {
  id: 'edge',
  name: 'long bar',
  length: { mm: 1500, text: '1500 mm' },
  checks: [],
};

/** A line scribed twice along 1500 mm, with figures at its points from end A. */
function answers(figures: readonly string[], more: Partial<EdgeCheckAnswers> = {}) {
  const rows = startingRows(edge.length, 'mm', 'reversal').map(({ at }, i) => ({
    at,
    figures: [figures[i] ?? ''],
  }));
  const method: EdgeCheckAnswers['method'] = 'reversal';
  return {
    method,
    division: '0.1 mm',
    date: '2026-03-01',
    face: 'marked' as const,
    second: '',
    third: '',
    rows,
    ...more,
  };
}

describe('the form of a check of a straightedge', () => {
  it('names the point and the figure that cannot be used, what was found and what expected', () => {
    const { words, body, problems } = readEdgeCheck(answers(['0', 'NaN', '0.4']), edge, 'mm');
    expect(body).toBeUndefined();
    expect(words).toBe(
      'Point 2, Lines apart: Found “NaN”, expected a length, millimetres such as 2.4.',
    );
    expect([...problems.keys()]).toEqual(['1 1']);
  });

  it('says how many more are marked', () => {
    const { words } = readEdgeCheck(answers(['0', '1e9', 'x', 'y']), edge, 'mm');
    expect(words).toMatch(/^Point 2, Lines apart: Found “1e9”, expected .* 2 more are marked\.$/);
    const two = readEdgeCheck(answers(['0', '1e9', 'x']), edge, 'mm');
    expect(two.words).toMatch(/ 1 more is marked\.$/);
  });

  it('names a figure that is missing beside those of its row', () => {
    const rows = [{ at: '300', figures: ['0.1', '', '0.2'] }];
    const { words } = readEdgeCheck(answers([], { method: 'three edges', rows }), edge, 'mm');
    expect(words).toBe('Point 1, Second with third: A figure is missing.');
  });

  it('says how many points there are and how many are needed', () => {
    const { words, body } = readEdgeCheck(answers(['0', '0.4', '0.2']), edge, 'mm');
    expect(body).toBeUndefined();
    expect(words).toMatch(/^The check has 3 points\. At least 5 points along the edge are needed/);
  });

  it('keeps what can be used, half of what stands apart', () => {
    const { body, words } = readEdgeCheck(
      answers(['0', '0.4', '0.8', '1.0', '1.2', '1.0', '0.8', '0.4', '0']),
      edge,
      'mm',
    );
    expect(body?.points).toHaveLength(9);
    expect(words).toMatch(/^long bar: bows 0\.\d+ mm ± 0\.\d+ mm towards the hull over 1500 mm\.$/);
  });

  it('says which part of the edge no point reaches, at either end', () => {
    const figures = ['', '0', '0.4', '0.8', '0.8', '0.4', '0'];
    const said = (unit: 'mm' | 'in') => readEdgeCheck(answers(figures), edge, unit).words;
    expect(said('mm')).toMatch(
      / Nothing is checked from 0 to \d+ mm and from \d+ to 1500 mm: a laying that reads there is not corrected\.$/,
    );
    const unmeasured = { id: edge.id, name: edge.name, checks: [] };
    const unknown = readEdgeCheck(answers(figures), unmeasured, 'mm').words;
    expect(unknown).toMatch(/ Nothing is checked from 0 to \d+ mm: /);
  });
});
