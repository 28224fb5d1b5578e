import { describe, expect, test } from 'vitest';
import { assess, type AssessOptions } from '../../../src/survey/assess.ts';
import type { SurveyAssessment } from '../../../src/survey/assessment.ts';
import { lineBudget } from '../../../src/survey/budget.ts';
import { budgetNotes } from '../../../src/survey/budgetWords.ts';
import { gathered } from '../../../src/survey/gathered.ts';
import { lineStraightness } from '../../../src/survey/lineStraightness.ts';
import { handOver, takeOver } from '../../../src/survey/handOver.ts';
import { readLog } from '../../../src/survey/log/readLog.ts';
import { nextActs } from '../../../src/survey/nextActs.ts';
import { nextSteps } from '../../../src/survey/nextStep.ts';
import { madeLog, seeded } from './madeLogs.ts';

function logged(text: string, options: AssessOptions = {}): SurveyAssessment {
  const log = readLog(new TextEncoder().encode(text));
  if (!log?.ok) throw new Error('a log expected');
  return assess(log.survey, options);
}

/** As it comes to the page from the thread in which it was judged. */
const handedOver = (there: SurveyAssessment) => takeOver(structuredClone(handOver(there)));

/** A log whose every row scatters as coarsely as it is read: 120 rows over a hollow of 1.3 mm. */
const COARSE = [
  '# kind: log',
  '# read to: 1 mm',
  'side,offset_mm,station_mm,gap_mm',
  ...(() => {
    const random = seeded(11);
    return Array.from({ length: 120 }, (_, i) => {
      const station = (1500 * i) / 119;
      const gap = 3 + 1.3 * Math.sin((Math.PI * station) / 1500) + 1.2 * (random() - 0.5);
      return `port,450,${station.toFixed(1)},${Math.round(gap)}`;
    });
  })(),
].join('\n');

describe('what is asked of a log whose readings stayed in the thread that judged it', () => {
  test.each([
    ['proven', madeLog({ rows: 3000 }), {}],
    ['with an edge that may bow', madeLog({ rows: 3000 }), { edgeBound: 0.4, edgeLength: 1500 }],
  ])(
    'is answered as there: its budget, its straightness and their words (%s)',
    (_, text, asked) => {
      const there = logged(text, asked);
      const here = handedOver(there);
      expect(here.lines[0].outcome).not.toHaveProperty('fitted');
      const budget = lineBudget(there.lines[0], there);
      expect(budget.length).toBeGreaterThan(1);
      expect(lineBudget(here.lines[0], here)).toEqual(budget);
      expect(lineStraightness(here.lines[0])).toEqual(lineStraightness(there.lines[0]));
      const notes = budgetNotes(there.lines[0], budget, there);
      expect(budgetNotes(here.lines[0], budget, here)).toEqual(notes);
      expect(notes.length > 0).toBe(!('edgeBound' in asked));
    },
  );

  test('is told what would decide it, in the words of the thread that judged it', () => {
    const there = logged(COARSE);
    expect(there.lines[0].outcome).toMatchObject({ judgement: { verdict: ['undecided'] } });
    const steps = nextSteps(there.lines[0], there, 'mm');
    expect(steps[0]).toMatch(/^Log the line (once|three|two) more( times|): decides it about \d/);
    const here = handedOver(there);
    expect(nextSteps(here.lines[0], here, 'mm')).toEqual(steps);
  });

  test('does not bring the readings themselves along', () => {
    const sent = [3000, 12_000].map((rows) => {
      const { lines, survey } = handOver(logged(madeLog({ rows }))).assessment;
      return JSON.stringify([lines[0].outcome, survey]);
    });
    expect(sent[0]).not.toContain('series');
    expect(sent[1].length).toBeLessThan(1.05 * sent[0].length);
  });
});

describe('what would decide a log', () => {
  test('is never a few stations or a finer gauge, which a log has not', () => {
    const all = logged(COARSE);
    const acts = nextActs(all.lines[0], all);
    expect(acts.length).toBeGreaterThan(0);
    expect(new Set(acts.map(({ kind }) => kind))).toEqual(new Set(['log again']));
  });

  test('is to check the straightedge where that alone leaves it open', () => {
    const all = logged(madeLog({ rows: 3000 }), {
      tolerance: 1.75,
      edgeBound: 0.6,
      edgeLength: 1500,
    });
    expect(nextActs(all.lines[0], all).map(({ kind }) => kind)).toEqual(['check edge']);
    expect(nextSteps(all.lines[0], all, 'mm')[0]).toMatch(
      /^Check the whole straightedge for a bow/,
    );
  });

  test('is to agree what counts where it lies at the tolerance, and no further log is promised to help', () => {
    const all = logged(madeLog({ rows: 3000 }), { tolerance: 2 });
    expect(all.lines[0].outcome).toMatchObject({ judgement: { verdict: ['undecided'] } });
    const steps = nextSteps(all.lines[0], all, 'mm');
    expect(steps[steps.length - 1]).toMatch(
      /logging it again would not be likely to decide it|even these may not/,
    );
  });
});

describe('readings taken together at few places', () => {
  test('keep their weight and their mean place, and leave out what is not judged', () => {
    const x = [0, 10, 20, 1000, 1490, 1500, 1600];
    const u = [0.1, 0.1, 0.2, 0.3, 0.1, 0.1, 0.1];
    const found = gathered({ x }, u, [0, 1500]);
    // By hand: 48 places of 31.25 mm; the first has weights 100, 100 and 25, the last 100 and 100.
    expect(found.x).toEqual([20 / 3, 1000, 1495].map((v): unknown => expect.closeTo(v, 9)));
    expect(found.u).toEqual(
      [1 / 15, 0.3, 1 / Math.sqrt(200)].map((v): unknown => expect.closeTo(v, 12)),
    );
  });
});
