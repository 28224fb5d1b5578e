import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import rules from '../../fixtures/reference/gum_type_b_rules.json';
import { assess, type AssessOptions } from '../../src/survey/assess.ts';
import { lineBudget, type ResultBudget } from '../../src/survey/budget.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { bump, lineOf, placementOf, sample, stationsTo, surveyOf } from './madeSurveys.ts';

function budgets(survey: Survey, options: AssessOptions = {}, at = 0): readonly ResultBudget[] {
  const assessment = assess(survey, options);
  return lineBudget(assessment.lines[at], assessment);
}

function of(results: readonly ResultBudget[], which: ResultBudget['of']): ResultBudget {
  const found = results.find((result) => result.of === which);
  if (!found) throw new Error(`a budget of the ${which} expected`);
  return found;
}

function part(result: ResultBudget, kind: ResultBudget['parts'][number]['kind']) {
  const found = result.parts.find((each) => each.kind === kind);
  if (!found) throw new Error(`a part from ${kind} expected`);
  return found;
}

const hooked = surveyOf([lineOf([placementOf(stationsTo(1500, 100), bump(2.4, 0, 900))])]);
const rule = (clause: string) => rules.rules.find((each) => each.clause === clause)?.worked;

describe('a line’s uncertainty budget against the rules of the GUM', () => {
  // JCGM 100:2008, clauses as in fixtures/reference/gum_type_b_rules.json.
  it('takes the rounding of a gauge as its division over √12 (F.2.2.1)', () => {
    const worked = rule('F.2.2.1');
    const results = budgets(hooked, { resolution: 1 });
    expect(part(of(results, 'hollow'), 'rounding')).toMatchObject({
      type: 'B',
      distribution: 'rectangular',
      clause: 'F.2.2.1',
    });
    const u = part(of(results, 'hollow'), 'rounding').u ?? NaN;
    expect(u).toBeCloseTo(worked?.u ?? NaN, 2);
    expect(u * u).toBeCloseTo(worked?.u2 ?? NaN, 12);
  });

  it('takes a stated bound of the straightedge over √3 (4.3.7), scaled with the square of the chord', () => {
    const worked = rule('4.3.7');
    expect((worked?.a ?? NaN) / Math.sqrt(3)).toBeCloseTo(worked?.u ?? NaN, 8);
    const survey = surveyOf([lineOf([placementOf(stationsTo(1500, 50), bump(-4, 0, 1500))])]);
    const hump = of(budgets(survey, { edgeBound: 0.6, edgeLength: 1800 }), 'hump');
    const chord = hump.chord ?? { from: 0, at: 0, to: 0 };
    expect([chord.from, chord.to]).toEqual([0, 1500]);
    // A parabola's height over the chord where the departure is taken.
    const wanted =
      ((4 * 0.6) / 1800 ** 2 / Math.sqrt(3)) * (chord.at - chord.from) * (chord.to - chord.at);
    const edge = part(hump, 'edge');
    expect(edge).toMatchObject({ type: 'B', distribution: 'rectangular', clause: '4.3.7' });
    expect(edge.contribution / wanted).toBeGreaterThan(0.98);
    expect(edge.contribution / wanted).toBeLessThan(1.02);
    expect(edge.basis).toBe('within 0.6 mm over 1800 mm');
  });

  it('combines its parts as the root of the sum of squares (5.1.2)', () => {
    for (const result of budgets(hooked, { edgeBound: 0.5, edgeLength: 1500 })) {
      const squares = result.parts.reduce((sum, { contribution }) => sum + contribution ** 2, 0);
      expect(Math.sqrt(squares)).toBeCloseTo(result.u, 12);
      expect(result.expanded).toBeCloseTo(result.coverage * result.u, 12);
    }
  });

  it('has the degrees of freedom of repeats by Welch and Satterthwaite (G.4.1), and none without', () => {
    const { repeatability, ...assessment } = assess(sample('two-placements.csv'));
    expect(repeatability).toMatchObject({ from: 'repeats', dof: 24 });
    const hollow = of(lineBudget(assessment.lines[0], { ...assessment, repeatability }), 'hollow');
    const own = part(hollow, 'repeatability');
    expect(own).toMatchObject({ type: 'A', dof: 24, clause: '4.2.4' });
    expect(own.u).toBeCloseTo(repeatability.mm, 12);
    expect(hollow.dof).toBeCloseTo((24 * hollow.u ** 4) / own.contribution ** 4, 6);
    expect(hollow.coverage).toBeGreaterThan(1.96);
    const without = of(budgets(hooked), 'hollow');
    expect(without.dof).toBeUndefined();
    expect(without.coverage).toBeCloseTo(1.96, 3);
  });
});

describe('a line’s uncertainty budget', () => {
  it('has shares that add up to 100 and follow the squares of the parts', () => {
    fc.assert(
      fc.property(
        fc.record({
          depth: fc.double({ min: -4, max: 4, noNaN: true }),
          resolution: fc.double({ min: 0.02, max: 1, noNaN: true }),
          repeatability: fc.double({ min: 0.02, max: 1, noNaN: true }),
          spacing: fc.constantFrom(50, 100, 150, 250),
        }),
        ({ depth, resolution, repeatability, spacing }) => {
          const line = lineOf([placementOf(stationsTo(1500, spacing), bump(depth, 0, 1000))]);
          for (const result of budgets(surveyOf([line]), { resolution, repeatability })) {
            expect(result.parts.reduce((sum, { share }) => sum + share, 0)).toBe(100);
            for (const { share, contribution } of result.parts) {
              expect(Math.abs(share - 100 * (contribution / result.u) ** 2)).toBeLessThan(1);
            }
          }
        },
      ),
      { seed: 20261125, numRuns: 25 },
    );
  });

  it('splits what readings bring by the squares of rounding and repeatability', () => {
    const hollow = of(budgets(hooked, { resolution: 0.5, repeatability: 0.2 }), 'hollow');
    const [rounding, repeat] = [part(hollow, 'rounding'), part(hollow, 'repeatability')];
    expect(repeat).toMatchObject({ u: 0.2, type: 'B', clause: '4.3.3', basis: 'as stated' });
    const ratio = 0.5 / Math.sqrt(12) / 0.2;
    expect(rounding.contribution / repeat.contribution).toBeCloseTo(ratio, 9);
  });

  it('marks half a division as a house default', () => {
    const repeat = part(of(budgets(hooked), 'hollow'), 'repeatability');
    expect(repeat).toMatchObject({ basis: 'half a division, a house default' });
    expect(repeat.u).toBeCloseTo(0.05, 12);
  });

  it('counts rounding once where the scatter of repeats holds it', () => {
    const rounding = part(of(budgets(sample('two-placements.csv')), 'hollow'), 'rounding');
    expect(rounding).toMatchObject({ contribution: 0, share: 0 });
    expect('u' in rounding).toBe(false);
    expect(rounding.basis).toMatch(/already$/);
  });

  it('has more between the stations where they stand wider', () => {
    const shares = [50, 250].map((spacing) => {
      const line = lineOf([placementOf(stationsTo(1500, spacing), bump(3, 250, 1250))]);
      return part(of(budgets(surveyOf([line])), 'hollow'), 'between').share;
    });
    expect(shares[1]).toBeGreaterThan(shares[0] + 20);
  });

  it('comes near the uncertainty of the verdict, which allows for a corner besides, where the deepest place is plain', () => {
    for (const result of budgets(hooked)) {
      if (Math.abs(result.shown.value) < 5 * result.shown.u) continue;
      expect(result.u / result.shown.u).toBeGreaterThan(0.7);
      expect(result.u / result.shown.u).toBeLessThan(1.15);
      expect(Math.abs(result.value - result.shown.value)).toBeLessThan(result.shown.u);
    }
  });

  it('has what a check of the straightedge leaves open as one source, smaller than a bound on it', () => {
    const points = stationsTo(1800, 150).map((at) => ({ at, apart: 0 }));
    const checks = [{ method: 'reversal', readTo: 0.1, points }] as const;
    const laid = {
      edge: 'bar',
      edgeLength: 1800,
      aftEnd: -100,
      aftMark: 'A',
      face: 'marked',
    } as const;
    const line = lineOf([placementOf(stationsTo(1500, 100), bump(2.4, 0, 900), laid)]);
    const checked = surveyOf([line], { edges: [{ name: 'bar', length: 1800, checks }] });
    const bound = { size: 0.3, over: 1800 };
    const stated = surveyOf([line], { edges: [{ name: 'bar', length: 1800, bound }] });
    const [of1, of2] = [checked, stated].map((survey) => of(budgets(survey), 'hollow'));
    expect(of1.parts.filter(({ kind }) => kind === 'edge')).toHaveLength(1);
    expect(part(of1, 'edge')).toMatchObject({ distribution: 'normal', type: 'B', letter: 'S' });
    expect(part(of1, 'edge').contribution).toBeGreaterThan(0);
    expect(part(of1, 'edge').contribution).toBeLessThan(part(of2, 'edge').contribution / 2);
    expect(part(of2, 'edge').basis).toBe('within 0.3 mm over 1800 mm');
  });

  it('is the same when the edge is tilted and lifted', () => {
    const tilted = surveyOf([
      lineOf([placementOf(stationsTo(1500, 100), (x) => 4 + 0.003 * x + bump(2.4, 0, 900)(x))]),
    ]);
    const [plain, moved] = [hooked, tilted].map((survey) => budgets(survey));
    expect(moved.map((result) => result.of)).toEqual(plain.map((result) => result.of));
    moved.forEach((result, i) => {
      expect(result.u).toBeCloseTo(plain[i].u, 7);
      expect(result.value).toBeCloseTo(plain[i].value, 7);
    });
  });

  it('has the same sources in the same order in every result of a line', () => {
    const results = budgets(sample('metric-long.csv'), { edgeBound: 0.3, edgeLength: 1800 }, 3);
    expect(results.length).toBeGreaterThan(1);
    for (const { parts } of results) {
      expect(parts.map(({ name }) => name)).toEqual(results[0].parts.map(({ name }) => name));
      expect(new Set(parts.map(({ letter }) => letter)).size).toBe(parts.length);
    }
  });

  it('is empty for a line that was not judged', () => {
    expect(budgets(surveyOf([lineOf([placementOf([0, 500, 900], () => 0)])]))).toEqual([]);
  });
});
