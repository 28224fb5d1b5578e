import { readFileSync } from 'node:fs';
import { gatesOf, NO_STATEMENTS } from '../../../src/fairing/gates.ts';
import type { WorkPlan } from '../../../src/fairing/plan/plan.ts';
import { workPlan } from '../../../src/fairing/plan/workPlan.ts';
import { assess } from '../../../src/survey/assess.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import type { HullState } from '../../../src/survey/fold/hullOf.ts';
import type { SurveyState } from '../../../src/survey/fold/surveyOf.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import { FIRST_CHOICES, type SheetChoices } from '../../../web/views/sheetChoices.ts';
import { sheetView, type SheetFrom, type SheetView } from '../../../web/views/sheetView.ts';

export function sampleSurvey(name: string): Survey {
  const url = new URL(`../../../fixtures/samples/${name}.csv`, import.meta.url);
  const read = readCsv(readFileSync(url, 'utf8'));
  if (!read.ok) throw new Error(`${name}: ${JSON.stringify(read.faults)}`);
  return read.survey;
}

export interface SampleChoices extends Partial<Omit<SheetChoices, 'plan'>> {
  readonly plan?: Partial<SheetChoices['plan']>;
}

export function planOf(survey: Survey, { plan = {} }: SampleChoices = {}): WorkPlan {
  return workPlan(assess(survey), { ...FIRST_CHOICES.plan, ...plan, unit: survey.workUnit });
}

export function viewOf(
  survey: Survey,
  choices: SampleChoices = {},
  more: Partial<SheetFrom> = {},
): SheetView {
  const assessment = assess(survey);
  return sheetView({
    assessment,
    plan: planOf(survey, choices),
    gates: gatesOf(assessment, NO_STATEMENTS),
    choices: {
      ...FIRST_CHOICES,
      ...choices,
      plan: { ...FIRST_CHOICES.plan, ...choices.plan },
    },
    unit: survey.workUnit,
    ...more,
  });
}

export function sampleView(name: string, choices: SampleChoices = {}): SheetView {
  return viewOf(sampleSurvey(name), choices);
}

/** A hull of which nothing is known. */
export const NO_HULL: HullState = {
  lines: [],
  features: [],
  straightedges: [],
  gauges: [],
  remarks: [],
  disagreements: [],
  setAside: [],
};

export function stateOf(survey: Survey): SurveyState {
  return {
    key: 'k',
    survey,
    plan: { stations: [] },
    remarks: [],
    disagreements: [],
    setAside: [],
  };
}

/** The words of some HTML, as a reader has them: one space between, no tags. */
export function wordsOf(html: string): string {
  return html
    .replace(/<!--.*?-->/gs, '')
    .replace(/<style[^]*?<\/style>/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/&amp;/g, '&')
    .replace(/\s+/g, ' ')
    .trim();
}
