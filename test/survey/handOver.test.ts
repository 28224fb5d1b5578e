import { describe, expect, it } from 'vitest';
import { workPlan } from '../../src/fairing/plan/workPlan.ts';
import { assess } from '../../src/survey/assess.ts';
import { lineBudget } from '../../src/survey/budget.ts';
import { handOver, takeOver } from '../../src/survey/handOver.ts';
import { actsKnown, nextActs, rememberActs } from '../../src/survey/nextActs.ts';
import { lineWords } from '../../src/survey/verdictWords.ts';
import { sampleSurvey } from '../web/sheets/samples.ts';

const survey = sampleSurvey('stories/one-side');
const there = assess(survey);
const here = takeOver(structuredClone(handOver(there)));

describe('an assessment handed from one thread to another', () => {
  it('says the same, to the last bit, of every line', () => {
    for (const [i, line] of here.lines.entries()) {
      const [a, b] = [lineWords(line, here), lineWords(there.lines[i], there)];
      expect([a.word, a.findings, a.proof]).toEqual([b.word, b.findings, b.proof]);
      expect(line.points).toEqual(there.lines[i].points);
      expect(lineBudget(line, here)).toEqual(lineBudget(there.lines[i], there));
    }
    expect(here.remarks).toEqual(there.remarks);
    expect(here.survey).toEqual(survey);
  });

  it('plans the same work, since readings of lines without a log go with it', () => {
    const asked = { unit: survey.workUnit, way: 'fill only' } as const;
    expect(workPlan(here, asked)).toEqual(workPlan(there, asked));
  });
});

describe('what would decide a line', () => {
  const here = takeOver(structuredClone(handOver(there)));
  const open = here.lines.find(
    ({ outcome }) => outcome.ok && outcome.judgement.verdict.includes('undecided'),
  );
  const fair = here.lines.find(
    ({ outcome }) => outcome.ok && outcome.judgement.verdict.includes('fair'),
  );
  if (open === undefined || fair === undefined) throw new Error('one of each expected');

  it('is known at once of a line that is decided, and of an open one once it was worked out', () => {
    expect(actsKnown(fair)).toBe(true);
    expect(actsKnown(open)).toBe(false);
    const place = here.lines.indexOf(open);
    const acts = structuredClone(nextActs(there.lines[place], there));
    rememberActs(open, acts);
    expect(actsKnown(open)).toBe(true);
    expect(nextActs(open, here)).toBe(acts);
  });
});
