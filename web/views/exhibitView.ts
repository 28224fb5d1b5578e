import type { Gates } from '../../src/fairing/gates.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import { showTolerance, type WorkUnit } from '../../src/survey/figures.ts';
import type { HullState } from '../../src/survey/fold/hullOf.ts';
import type { Remark } from '../../src/survey/fold/remarksOf.ts';
import type { SurveySignature } from '../../src/survey/fold/signaturesOf.ts';
import type { Typed } from '../../src/survey/survey.ts';
import type { HistoryView } from './exhibitHistory.ts';
import { exhibitLines, type ExhibitLine, type ExhibitRow } from './exhibitLine.ts';
import { lookedAt, notRead, type NotRead } from './exhibitNotRead.ts';
import { readingsTables, type ReadingsTableView } from './exhibitReadings.ts';
import { instrumentWords, madeFor, occasionFacts, supportSteps } from './exhibitSetup.ts';
import { showTime, signaturesView, type SignaturesView } from './exhibitSigned.ts';
import { MEANINGS } from './exhibitWords.ts';
import { overallWords, type Overall } from './overallWords.ts';
import { remarkWords } from './remarkWords.ts';
import type { Says } from './bookSays.ts';
import type { Paper } from './sheetChoices.ts';
import { hullFacts, type Fact } from './sheetFacts.ts';
import { sheetPlan, type PlanDrawing } from './sheetPlan.ts';
import { toleranceSaid } from './sheetView.ts';

export interface ExhibitFrom {
  readonly assessment: SurveyAssessment;
  readonly unit: WorkUnit;
  readonly paper: Paper;
  readonly gates: Gates;
  readonly hull?: HullState;
  /** Of the survey, where stated. */
  readonly place?: string;
  readonly by?: string;
  readonly planned?: readonly Typed[];
  readonly remarks?: readonly Remark[];
  readonly history: HistoryView;
  readonly signatures: readonly SurveySignature[];
  readonly says: Says;
}

/** The whole exhibit in words and drawings, ready to be set. */
export interface ExhibitView {
  readonly paper: Paper;
  readonly unit: WorkUnit;
  readonly hull: string;
  readonly date: string;
  readonly invented: boolean;
  readonly madeFor: string;
  readonly hullFacts: readonly Fact[];
  readonly occasion: readonly Fact[];
  readonly support: readonly string[];
  readonly instruments: readonly string[];
  readonly tolerance: string;
  readonly judgedTo: string;
  /** Each word that was found, what it means, and the lines that it is said of. */
  readonly found: readonly (Overall & { readonly meaning: string })[];
  /** What the readings suggest beyond the verdict of one line. */
  readonly remarks: readonly string[];
  readonly rows: readonly ExhibitRow[];
  readonly plan: PlanDrawing;
  readonly lines: readonly ExhibitLine[];
  readonly notRead: readonly NotRead[];
  readonly lookedAt: ReturnType<typeof lookedAt>;
  /** Remarks that people wrote into the field book. */
  readonly written: readonly string[];
  readonly history: HistoryView;
  readonly readings: readonly ReadingsTableView[];
  readonly logged: boolean;
  readonly signatures: SignaturesView;
}

/** Everything an exhibit says. */
export function exhibitView(from: ExhibitFrom): ExhibitView {
  const { assessment, unit, hull, gates } = from;
  const { survey, tolerance, limit } = assessment;
  const lines = exhibitLines(assessment, unit);
  return {
    paper: from.paper,
    unit,
    hull: hull?.hull?.name ?? survey.hull ?? 'hull not named',
    date: survey.date ?? 'on a date not stated',
    invented: hull?.hull?.invented === true,
    madeFor: madeFor(survey) ?? 'not stated',
    hullFacts: hullFacts(hull, unit),
    occasion: occasionFacts(from),
    support: supportSteps(survey),
    instruments: instrumentWords(assessment, unit),
    tolerance: toleranceSaid(tolerance, unit),
    judgedTo: `${showTolerance(limit.mm, unit)} forward of the transom${limit.houseDefault ? ' (house default)' : ', as stated'}`,
    found: overallWords(assessment).map((overall) => ({
      ...overall,
      meaning: meaningOf(overall.word),
    })),
    remarks: remarkWords(assessment.remarks),
    rows: lines.map(({ row }) => row),
    plan: sheetPlan(assessment, hull),
    lines,
    notRead: notRead({
      assessment,
      unit,
      ...(from.planned !== undefined && { planned: from.planned }),
      ...(hull !== undefined && { hullLines: hull.lines }),
    }),
    lookedAt: lookedAt(gates),
    written: (from.remarks ?? []).map(({ text, by, at }) => `${text} (${by}, ${showTime(at)})`),
    history: from.history,
    readings: readingsTables(survey, unit),
    logged: survey.lines.some(({ placements }) => placements.some(({ log }) => log !== undefined)),
    signatures: signaturesView(from.signatures, from.says),
  };
}

/** What a verdict of one word or of several means. */
function meaningOf(word: string): string {
  const parts = word.toLowerCase().split(/, | and /);
  return MEANINGS.filter(([each]) => parts.includes(each.toLowerCase()))
    .map(([, meaning]) => meaning)
    .join(' ');
}
