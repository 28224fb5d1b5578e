import type { Standing } from '../../src/book/standing.ts';
import { gateStatementsOf } from '../../src/fairing/gates.ts';
import { measuredWords } from '../../src/running/causes/measured.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import { complaintParts, measuredParts } from '../../src/survey/bookWords/workWords.ts';
import { surveyKeyOf, type HullFacts } from '../../src/survey/fold/hullOf.ts';
import { readStanding } from '../../src/survey/fold/readStanding.ts';
import { capital, listed } from '../../src/survey/sentence.ts';
import { causesView, triedBy, triedOn } from './causesView.ts';
import type { Paper } from './sheetChoices.ts';
import { trialsView, type TrialLines } from './trialsView.ts';

export interface OutcomeSheetFrom {
  readonly stands: Standing;
  /** Key of the survey. */
  readonly survey: string;
  readonly hull: HullFacts | undefined;
  readonly date: string | undefined;
  /** Absent before anything was measured. */
  readonly assessment: SurveyAssessment | undefined;
  readonly unit: 'mm' | 'in';
  readonly paper: Paper;
  /** Day of printing. */
  readonly printed: string;
}

/** Another cause as the sheet has it. */
export interface CauseRow {
  readonly cause: string;
  readonly found: string;
  /** Who tried it and when; absent where nobody did. */
  readonly tried?: string;
  /** How, with what was measured and what that means; where nobody tried it, the test. */
  readonly how: readonly string[];
  readonly next: boolean;
}

export interface OutcomeSheetView {
  readonly paper: Paper;
  readonly hull: string;
  readonly invented: boolean;
  readonly date: string;
  readonly printed: string;
  /** "DO THIS FIRST", and what. */
  readonly lead: { readonly head: string; readonly words: readonly string[] };
  readonly outcome: string;
  readonly remains: string;
  readonly complaint: readonly string[];
  readonly causes: readonly CauseRow[];
  readonly bottom: string;
  readonly lines: readonly string[];
  readonly trials: readonly TrialLines[];
  readonly pairs: readonly { readonly head: string; readonly words: readonly string[] }[];
  readonly cautions: readonly string[];
}

export const SHEET_CAUTIONS: readonly string[] = [
  'Sea trial: two aboard at least, all seated, lifejackets on, kill-cord on, calm and clear water, a lookout, speed in steps. Stop when it frightens anyone.',
  'Weight is moved at rest and tied down. Nobody rides forward to be ballast.',
  'Running machinery: engines off and keys out before anyone reaches to a drive, a propeller or a tab; nobody in the water behind it.',
  'Lifting: by people who do it for a living; never under slings alone.',
  'Local codes, the makers’ own rules and licensed practice come first. This sheet is a record of tests, not a condition survey.',
];

/** Whether it is the bottom at all, as it goes to paper. */
export function outcomeSheetView(from: OutcomeSheetFrom): OutcomeSheetView {
  const { stands, survey, hull, assessment, unit, paper, printed } = from;
  const { complaint, causes } = gateStatementsOf(stands.standing, survey);
  const {
    outcome,
    bottom,
    first,
    lines,
    causes: rows,
  } = causesView(assessment, complaint, causes, unit);
  const entries = stands.standing.filter(({ _id }) => surveyKeyOf(_id) === survey);
  const stated = new Map(
    readStanding(entries)
      .of('cause')
      .map((one) => [one.body.cause, one]),
  );
  const { trials, pairs } = trialsView(stands, survey);
  const test = outcome.next && `${capital(outcome.next.cause)}: ${outcome.next.test}`;
  return {
    ...{ paper, printed },
    hull: hull?.name ?? 'hull not named',
    invented: hull?.invented === true,
    date: from.date ?? 'on a date not stated',
    lead:
      test === undefined
        ? { head: 'Outcome', words: [capital(outcome.words)] }
        : first.length > 0
          ? { head: 'Do this first', words: [...first, `Then test: ${test}`] }
          : { head: 'Do this next', words: [test] },
    outcome: capital(outcome.words),
    remains: `What remains: ${listed(outcome.remains)}.`,
    complaint:
      complaint === undefined
        ? ['Nobody has said what the boat does.']
        : [
            `The boat ${complaint.does.length === 0 ? 'does none of what is asked' : listed(complaint.does)}.`,
            ...complaintParts(complaint).map((part) => `${capital(part)}.`),
            `Changed lately: ${complaint.changed === undefined || complaint.changed.length === 0 ? 'nothing that was told' : listed(complaint.changed)}.`,
            ...(complaint.said === undefined ? [] : [`In their words: “${complaint.said}”`]),
          ],
    causes: rows.map((row): CauseRow => {
      const one = stated.get(row.cause);
      const measured = row.said === undefined ? [] : measuredParts(row.said, unit);
      return {
        cause: capital(row.cause),
        found: row.found,
        next: row.cause === outcome.next?.cause,
        ...(one?.body.found !== undefined && {
          tried: `${triedBy(one) ?? 'by whom is not stated'}, ${triedOn(one)}`,
        }),
        how: [
          ...(row.found === 'NOT CHECKED' ? [row.test] : []),
          ...(row.said?.how === undefined ? [] : [row.said.how]),
          ...(row.found !== 'NOT CHECKED' && row.said?.how === undefined
            ? ['How it was tried is not stated.']
            : []),
          ...(measured.length === 0 ? [] : [`${capital(measured.join(', '))}.`]),
          ...measuredWords(row.said ?? {}, unit),
        ],
      };
    }),
    bottom: bottom.words,
    lines: lines.map(
      ({ where, word, proof }) =>
        `${where.replace(/^(port|starboard)/i, (side) => side.toUpperCase())}: ${word}. ${proof}`,
    ),
    trials,
    pairs: pairs
      .filter(({ words }) => words.length > 0)
      .map(({ before, after, words }) => ({ head: `${before.name} → ${after.name}`, words })),
    cautions: SHEET_CAUTIONS,
  };
}
